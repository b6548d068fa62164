"""A proof piece in words: how to lay it down, and what right and wrong look like."""

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING

from bendgen.records.machine import MachineProfile
from bendgen.reports.machine_words import side_words
from bendgen.reports.paragraphs import paragraph
from bendgen.units import Units, format_length

if TYPE_CHECKING:
    from bendgen.records.proof import ProofLook, ProofPiece

WIDTH = 96
FLAT = 0.5  # a tube end this little off the bench lies on it, for the eye [mm]


def proof_words(proved_on: date | None) -> str:
    """What a sheet says of the profile's signs."""
    if proved_on is None:
        return "NEVER PROVED by a proof piece: bend one first, a wrong rotation sign mirrors every part"
    return f"proved by a proof piece on {proved_on.isoformat()}"


def proof_text(piece: "ProofPiece", profile: MachineProfile) -> str:
    """Sentences for machine and bench, ending with a line feed; lengths in the unit of the profile."""
    return "\n".join(paragraph(sentence, width=WIDTH) for sentence in _sentences(piece, profile)) + "\n"


def _sentences(piece: "ProofPiece", profile: MachineProfile) -> Iterator[str]:
    units = profile.units
    straights = ", ".join(format_length(straight, units) for straight in piece.straights[:-1])
    yield "Proof piece. Mark the end that goes in first, and watch the first bend."
    yield f"RIGHT SIDE: {side_words(profile.bend)[0]} Else the side in [bend] of machine.toml is wrong."
    yield (
        f"RIGHT FEED: {straights} of straight before the bends, from the mark on. Else the units or the feed form in "
        "[output] of machine.toml are wrong."
    )
    yield (
        f"Saw the rear to length and lay the piece on a flat bench: the straight with the mark towards you and the "
        f"first bend, {piece.angles_deg[0]:.1f}°, flat and going to your left. Hold that first bend flat and look at "
        "the other end. Measure end to end along the axis of the tube."
    )
    yield f"RIGHT: {_look(piece.right, units)}."
    yield f"WRONG, mirrored: {_look(piece.mirrored, units)}. Change rotation_positive in [output] of machine.toml."
    yield (
        f"WRONG, counted in the other form: {_look(piece.other_form, units)}. Change rotation in [output] of "
        "machine.toml."
    )
    yield f"WRONG, not turned: {_look(piece.unturned, units)}. The rotations were left out."
    yield (
        "WRONG, other end: the bend nearest to your mark is the smallest one. The tube was loaded the other way "
        "round, or the steps were run backwards."
    )
    yield "Only when all of it is right: bendgen machine proof DIR --passed writes that down, and every sheet says so."


def _look(look: "ProofLook", units: Units) -> str:
    if abs(look.height) < FLAT:
        stands = "the other end lies flat too"
    else:
        stands = f"the other end stands {format_length(abs(look.height), units)} {'UP' if look.height > 0 else 'DOWN'}"
    return f"{stands}, end to end {format_length(look.apart, units)}"
