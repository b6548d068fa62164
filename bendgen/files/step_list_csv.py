"""Steps read from a CSV: ours, or any with a head row that names feed, rotation and bend with their units.

A feed may also be written as a shop writes it, `4 1/2`. Columns that are not known, and empty lines, are passed over.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Annotated

from pydantic import ConfigDict

from bendgen.errors import InputError, Mistake
from bendgen.files.csv_lines import CsvLine, cell_value, head_text
from bendgen.files.field_types import Count, FinishedAngle, Length, Text, number
from bendgen.files.own_csv import check_width, own_csv_lines
from bendgen.files.step_numbers import check_numbers
from bendgen.files.validation import Table, mistakes_from_flaws, validate
from bendgen.records.step_list import ListedStep, StepList
from bendgen.units import Units

FEED_UNITS: dict[str, Units] = {"feed_mm": "mm", "feed_in": "in"}
KNOWN_COLUMNS = frozenset({*FEED_UNITS, "number", "die", "rotation_deg", "bend_deg", "id"})
EXPECTED_HEAD = "a head row with the columns feed_mm (or feed_in), rotation_deg and bend_deg"

Turn = Annotated[float, number("a number from -360 to 360", lambda deg: -360.0 <= deg <= 360.0)]


class ListedRow(Table):
    """One line; feed in the unit of its column."""

    model_config = ConfigDict(extra="ignore")
    number: Count
    feed: Length
    rotation_deg: Turn
    bend_deg: FinishedAngle
    die: Text | None = None
    id: Text | None = None

    def record(self) -> ListedStep:
        """Step, in mm and degrees."""
        return ListedStep(
            number=self.number,
            die=self.die,
            feed=self.feed,
            rotation_deg=self.rotation_deg,
            bend_deg=self.bend_deg,
        )


def parse_steps_csv(text: str, file: str) -> StepList:
    """Steps in a CSV, which mistakes call `file`; whether its bends are commanded or finished it does not say.

    Raises
    ------
    InputError    every mistake of the head row; or else every mistake of every cell, with line and column
    """
    head, *lines = own_csv_lines(text, file, EXPECTED_HEAD)
    columns = [cell.casefold() for cell in head.cells]
    mistakes = list(_head_mistakes(columns, head.number, file))
    if mistakes:
        raise InputError(mistakes)
    rows = _rows(lines, columns, file)
    return StepList(
        steps=tuple(row.record() for row in rows.values()), id=next((row.id for row in rows.values()), None)
    )


def _head_mistakes(columns: list[str], line: int, file: str) -> Iterator[Mistake]:
    shown = head_text(columns)

    def mistaken(expected: str, found: str = shown) -> Mistake:
        return Mistake(file=file, place=f"line {line}", expected=expected, found=found)

    if not set(FEED_UNITS) & set(columns):
        yield mistaken("a column feed_mm or feed_in")
    if set(FEED_UNITS) <= set(columns):
        yield mistaken("only one of the columns feed_mm and feed_in", "both")
    yield from (mistaken(f"a column {column}") for column in ("rotation_deg", "bend_deg") if column not in columns)
    repeated = sorted(column for column in KNOWN_COLUMNS if columns.count(column) > 1)
    yield from (mistaken(f"one column {column}", f"{columns.count(column)} of them") for column in repeated)


def _rows(lines: list[CsvLine], columns: list[str], file: str) -> dict[int, ListedRow]:
    """Read rows by their line; raises InputError with every mistake of every cell."""
    rows: dict[int, ListedRow] = {}
    mistakes: list[Mistake] = []
    for index, line in enumerate(lines):
        row, found = _row(line, columns, index, file)
        mistakes.extend(found)
        if row is not None:
            rows[line.number] = row
    mistakes.extend(_mistakes_between(rows, file))
    if mistakes:
        raise InputError(mistakes)
    return rows


def _row(line: CsvLine, columns: list[str], index: int, file: str) -> tuple[ListedRow | None, list[Mistake]]:
    wrong_width = check_width(line, columns, file)
    if wrong_width:
        return None, [wrong_width]
    feed_column = next(column for column in FEED_UNITS if column in columns)
    keys = ["feed" if column == feed_column else column for column in columns]
    data = {"number": index + 1, **_values(dict(zip(keys, line.cells, strict=True)))}
    row, flaws = validate(ListedRow, data, {"units": FEED_UNITS[feed_column]})
    return row, [
        replace(
            mistake, place=f"line {line.number}, column {feed_column if mistake.place == 'feed' else mistake.place}"
        )
        for mistake in mistakes_from_flaws(flaws, data, file)
    ]


def _values(cells: Mapping[str, str]) -> dict[str, object]:
    """Cells as numbers where they are some, as texts otherwise; a die or an id is a text, and may be left empty."""
    values: dict[str, object] = {}
    for column, cell in cells.items():
        if column not in ("die", "id"):
            values[column] = cell_value(cell)
        elif cell:
            values[column] = cell
    return values


def _mistakes_between(rows: Mapping[int, ListedRow], file: str) -> Iterator[Mistake]:
    """Find numbers that do not rise and ids of another program; keys are lines."""
    for flaw in check_numbers({line: row.number for line, row in rows.items()}):
        place = f"line {flaw.place[0]}, column number"
        yield Mistake(file=file, place=place, expected=flaw.expected, found=flaw.found or "")
    first = next((row.id for row in rows.values()), None)
    for line, row in rows.items():
        if row.id != first:
            expected = f"'{first}', the id of the first step" if first else "no id, as in the first step"
            found = f"'{row.id}'" if row.id else ""
            yield Mistake(file=file, place=f"line {line}, column id", expected=expected, found=found)
