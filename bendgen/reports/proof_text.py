"""A proof piece in words: how to lay it down, and what right and wrong look like."""

from datetime import date

from bendgen.records.proof import ProofShape
from bendgen.reports.paragraphs import paragraph
from bendgen.units import Units, format_length

WIDTH = 96


def proof_words(proved_on: date | None) -> str:
    """What a sheet says of the profile's signs."""
    if proved_on is None:
        return "NEVER PROVED by a proof piece: bend one first, a wrong rotation sign mirrors every part"
    return f"proved by a proof piece on {proved_on.isoformat()}"


def proof_text(shape: ProofShape, units: Units) -> str:
    """Sentences for the bench, ending with a line feed."""
    sentences = [
        f"Proof piece. Mark the end that goes in first. Bend it, then lay it on a flat bench: the straight with the "
        f"mark towards you and the first bend, {shape.first_angle_deg:.1f}°, flat and going to your left. Hold that "
        "first bend flat and look at the other end.",
        f"RIGHT: it {_height(shape.right, units)}.",
        f"WRONG, mirrored: it {_height(shape.mirrored, units)}. The rotation sign of the profile is the wrong one: "
        "change rotation_positive in [output] of machine.toml and bend another.",
        f"WRONG, not turned: it {_height(shape.unrotated, units)}. The rotation was left out.",
        "WRONG, other end: the bend nearest to your mark is the smaller one. The tube was loaded the other way round, "
        "or the steps were run backwards.",
        "Only when it is right: bendgen machine proof DIR --passed writes that down, and every sheet says so.",
    ]
    return "\n".join(paragraph(sentence, width=WIDTH) for sentence in sentences) + "\n"


def _height(height: float, units: Units) -> str:
    if abs(height) < 0.5:
        return "lies flat too"
    return f"points {'UP' if height > 0.0 else 'DOWN'}, {format_length(abs(height), units)} at its very end"
