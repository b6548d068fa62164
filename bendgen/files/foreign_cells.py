"""Cells of a table from elsewhere: lengths in the unit of their column, and what is said of those that are none."""

from collections.abc import Iterable, Sequence

from bendgen.errors import InputError, Mistake, mistaken
from bendgen.files.csv_lines import CsvLine
from bendgen.files.field_types import LARGEST_NUMBER, largest_in
from bendgen.files.foreign_csv import Column, ForeignCsv, column_from_heading, finite_number
from bendgen.records.found_tube import Answers
from bendgen.units import MM_PER_DRAWN_UNIT, DrawnUnits, parse_length

MOST_MISTAKES = 20  # a screenful; a file with more is wrong as a whole
EXPECTED_COLUMNS = (
    "columns x, y, z (and clr, where it is known), or feed, rotation and bend, or leg, up and back, "
    "named in a head row or by --columns"
)
CLR_LEFT = "column clr: --leave-clr leaves it to the die set"
EXPECTED_UNIT = "a unit in the head row, such as x_mm, or mm, cm, m, in or ft by --units"


def named_columns(table: ForeignCsv, file: str, answers: Answers) -> tuple[Column, ...]:
    """Columns as the answers name them, else as the head row does; those that no answer names hold nothing known.

    Raises
    ------
    InputError    neither does
    """
    cells = len(table.head if table.head is not None else table.lines[0].cells)
    if answers.columns is not None:
        named = [column_from_heading(name) for name in answers.columns.split(",")]
        return (*named, *(Column(name="", heading=f"{number}") for number in range(len(named) + 1, cells + 1)))
    if table.head is not None:
        return table.head
    raise mistaken(file, EXPECTED_COLUMNS, f"{cells} without names")


def units_of_columns(columns: Sequence[Column], file: str, answers: Answers) -> tuple[DrawnUnits | None, str]:
    """Unit of the lengths, None where every cell must name its own, and where it is from."""
    named = {column.units for column in columns if column.units is not None}
    if len(named) > 1:
        raise mistaken(file, "one unit", " and ".join(sorted(named)), place="head row")
    by_head = next(iter(named), None)
    if by_head is None:
        return answers.units, "as --units says" if answers.units else "in every cell"
    if answers.units not in (None, by_head):
        raise mistaken(file, f"--units {by_head}", str(answers.units), place="head row")
    return by_head, "from the head row"


def length_of_cell(cell: str, units: DrawnUnits | None) -> float | str:
    """Length in mm, or what was expected instead."""
    value = finite_number(cell)
    if value is None:
        return _shop_length(cell, units)
    if units is None and value != 0.0:
        return EXPECTED_UNIT
    mm = value * MM_PER_DRAWN_UNIT[units or "mm"]
    return mm if abs(mm) <= LARGEST_NUMBER else f"a length of at most {largest_in(units or 'mm')}"


def _shop_length(cell: str, units: DrawnUnits | None) -> float | str:
    """Length written as a shop does, 4'-8 3/8"; one that names its unit needs no other."""
    try:
        in_mm, in_inches = parse_length(cell, "mm"), parse_length(cell, "in")
    except ValueError:
        return "a number"
    if in_mm == in_inches:
        return in_mm
    if units in ("mm", "in"):
        return in_mm if units == "mm" else in_inches
    return EXPECTED_UNIT if units is None else "a decimal number"


def mistaken_cell(line: CsvLine, place: int, name: str, expected: str, file: str) -> Mistake:
    """Say what was expected in the cell at that place of a line."""
    found = line.cells[place]
    shown = f"'{found[:40]}'" if found else ""
    return Mistake(file=file, place=f"line {line.number}, column {name}", expected=expected, found=shown)


def refuse(mistakes: Iterable[Mistake]) -> None:
    """Raise InputError where there are mistakes, with the first screenful of them."""
    found = list(mistakes)
    if len(found) > MOST_MISTAKES:
        rest = Mistake(
            file=found[0].file, place="", expected="no more such lines", found=f"{len(found) - MOST_MISTAKES}"
        )
        found = [*found[:MOST_MISTAKES], rest]
    if found:
        raise InputError(found)
