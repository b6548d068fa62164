"""Whether the rows of a springback table make sense together.

A table is read backwards too: from the commanded bend to the finished one. So the commanded angle θ + s(θ) must rise
everywhere, or one command would stand for two angles. Springback itself may fall, but rarely does: that is a caution.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from bendgen.files.validation import Flaw, place_text
from bendgen.geometry.interpolation import monotone_slopes, smallest_slopes
from bendgen.records.allowances import AllowanceRow, AllowanceTable

SPREADS_OF_CHANCE = 2.0  # common practice, no source: a fall within two standard deviations may be chance


@dataclass(frozen=True, slots=True, kw_only=True)
class TableCaution:
    """Something odd that need not be wrong; file and place as in a `Mistake`."""

    file: str
    place: str
    text: str

    def __str__(self) -> str:
        return f"{self.file}: {self.place}: {self.text}"


def check_rows(sound: Mapping[int, AllowanceRow], count: int) -> Iterator[Flaw]:
    """Flaws of rows that are sound one by one.

    Parameters
    ----------
    sound : rows by their index from 0; some of the table's `count` rows may be missing, being wrong by themselves
    count : number of rows in the table
    """
    flaws = [*_order_flaws(sound), *_column_flaws(sound)]
    yield from flaws
    if not flaws and len(sound) == count:
        yield from _falling_flaws(tuple(sound.values()))


def _order_flaws(sound: Mapping[int, AllowanceRow]) -> Iterator[Flaw]:
    for before, index in zip(sound, list(sound)[1:], strict=False):
        largest, angle = sound[before].angle_deg, sound[index].angle_deg
        if angle <= largest:
            expected = f"an angle greater than that of row {before + 1} ({largest:g})"
            yield Flaw(place=(index, "angle"), expected=expected, found=f"{angle:g}")


def _column_flaws(sound: Mapping[int, AllowanceRow]) -> Iterator[Flaw]:
    """Elongation and CLR are interpolated, so each stands in all rows or in none."""
    columns = {
        "elongation": {index: row.elongation for index, row in sound.items()},
        "clr": {index: row.clr for index, row in sound.items()},
    }
    for key, values in columns.items():
        filled = [index for index, value in values.items() if value is not None]
        lacking = [index for index, value in values.items() if value is None]
        if filled:
            expected = f"a number, as in row {filled[0] + 1}: all rows or none have one"
            yield from (Flaw(place=(index, key), expected=expected, found="") for index in lacking)


def _falling_flaws(rows: tuple[AllowanceRow, ...]) -> Iterator[Flaw]:
    """Intervals between rows where the commanded angle does not rise.

    The mean slope of an interval is never below its smallest, so the straight lines that go on beyond the rows rise
    wherever the first and the last interval do.
    """
    angle = np.array([row.angle_deg for row in rows])
    springback = np.array([[row.springback_deg] for row in rows])
    smallest = 1.0 + smallest_slopes(angle, springback, monotone_slopes(angle, springback))[:, 0]
    for index in np.flatnonzero(~(smallest > 0.0)):
        yield Flaw(
            place=(int(index) + 1, "springback"),
            expected=f"angle + springback to rise everywhere between rows {index + 1} and {index + 2}",
            found=f"a slope of {smallest[index]:.3f}",
        )


def check_springback(table: AllowanceTable) -> Iterator[TableCaution]:
    """Cautions of a table without flaws: negative springback, or springback that falls by more than chance allows."""
    for index, row in enumerate(table.rows):
        if row.springback_deg < 0.0:
            yield _caution(table, index, f"springback is negative ({row.springback_deg:g}): the bend closes on release")
    for index, (before, row) in enumerate(zip(table.rows, table.rows[1:], strict=False), start=1):
        fall = before.springback_deg - row.springback_deg
        spread = max(before.spread_deg or 0.0, row.spread_deg or 0.0)
        if fall > SPREADS_OF_CHANCE * spread:
            measure = f"more than {SPREADS_OF_CHANCE:g} spreads" if spread else "with no spread given"
            yield _caution(table, index, f"springback falls by {fall:g} from row {index} to {index + 1}, {measure}")


def _caution(table: AllowanceTable, index: int, text: str) -> TableCaution:
    return TableCaution(file=table.file, place=place_text(("row", index, "springback")), text=text)
