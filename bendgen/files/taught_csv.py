"""Bends of a measured part as trial bends, in the form that `bendgen trials` reads."""

import csv
import io
from collections.abc import Mapping

from bendgen.records.foretold import Foretold
from bendgen.records.measured import MeasuredPiece

HEAD = ("die", "material", "temper", "wall", "perforated", "lot", "commanded_deg", "measured_deg")
LENGTHS = ("feed_mm", "front_leg_mm")


def format_taught_csv(foretold: Foretold, pieces: tuple[MeasuredPiece, ...]) -> str:
    """One line for each angle that was read, and what tells the setback radius of the first; lengths are in mm."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow((*HEAD, *LENGTHS))
    tube = foretold.tube
    for piece in pieces:
        read = {reading.check: reading.value for reading in piece.readings}
        for step in foretold.steps:
            angle = read.get(f"angle-{step.number}")
            if angle is not None:
                writer.writerow(
                    [
                        step.die,
                        tube.material,
                        tube.temper or "",
                        repr(tube.wall),
                        "yes" if tube.perforated else "no",
                        piece.lot or tube.lot or "",
                        repr(round(step.bend_deg, 6)),
                        repr(angle),
                        *(_first_lengths(foretold, read) if step.number == 1 else ("", "")),
                    ]
                )
    return text.getvalue()


def _first_lengths(foretold: Foretold, read: Mapping[str, float]) -> tuple[str, str]:
    """First feed, and the leg from the blank's front end to the first apex; neither says anything without the other."""
    leg = read.get("apex-leg-front")
    if leg is None:
        return "", ""
    return repr(round(foretold.steps[0].feed, 6)), repr(round(leg + foretold.blank.front_trim, 6))
