"""A bent part as QA measured it; lengths in mm, angles in degrees."""

import re
from dataclasses import dataclass

from bendgen.records.bent_tube import Point

# Readings that no program foretells: the largest and the smallest diameter in a bend.
DIAMETER = re.compile(r"diameter-(largest|smallest)-([1-9][0-9]{0,2})")


def diameter_names(bend: int) -> tuple[str, str]:
    """Names of the readings of the largest and the smallest diameter in a bend."""
    return f"diameter-largest-{bend}", f"diameter-smallest-{bend}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One reading: of a check of the sheet, or of a diameter in a bend; line: of the file it was read from."""

    line: int
    check: str
    value: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredPiece:
    """Readings of one piece, or its vertices with both ends, or points along its axis from end to end.

    piece : as the file names it; lot: None where it names none
    vertices, axis : in any frame, front end first; empty where the piece was read with tape and protractor
    """

    piece: str
    lot: str | None
    readings: tuple[Reading, ...] = ()
    vertices: tuple[Point, ...] = ()
    axis: tuple[Point, ...] = ()
