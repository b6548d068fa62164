"""Bends of a measured part as trial bends, in the form that `bendgen trials` reads."""

import csv
import io

from bendgen.records.foretold import Foretold
from bendgen.records.measured import MeasuredPiece

HEAD = ("die", "material", "temper", "wall", "perforated", "lot", "commanded_deg", "measured_deg", "feed_mm")


def format_taught_csv(foretold: Foretold, pieces: tuple[MeasuredPiece, ...]) -> str:
    """One line for each angle that was read; the wall is in mm, as `feed_mm`, the first feed where it was the first."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(HEAD)
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
                        repr(round(step.feed, 6)) if step.number == 1 else "",
                    ]
                )
    return text.getvalue()
