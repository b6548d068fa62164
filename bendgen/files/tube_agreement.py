"""Whether a tube that a file shows is the tube that somebody says it is."""

from collections.abc import Iterator
from dataclasses import dataclass

from bendgen.records.found_tube import FoundTube
from bendgen.units import Units, format_length

SAME_OD = 0.1  # mm
SAME_WALL = 0.05  # mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Disagreement:
    """Key of `[tube]` that the file contradicts, what the file shows and what was said."""

    key: str
    expected: str
    found: str


def disagreements(found: FoundTube, *, od: float | None, wall: float | None, units: Units) -> Iterator[Disagreement]:
    """Where a found tube is another than the one said, as far as either is known; lengths in mm, shown in units."""
    for key, shown, said, allowed in (("od", found.od, od, SAME_OD), ("wall", found.wall, wall, SAME_WALL)):
        if shown is not None and said is not None and abs(shown - said) > allowed:
            expected = f"{format_length(shown, units)}, as in the file of the centreline"
            yield Disagreement(key=key, expected=expected, found=format_length(said, units))
