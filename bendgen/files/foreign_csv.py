"""A table of numbers from elsewhere: comma, semicolon or tab, decimal point or comma, with a head row or without."""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice

from bendgen.errors import mistaken
from bendgen.files.csv_lines import CsvLine, csv_lines
from bendgen.files.decimal_marks import has_decimal_comma, with_points
from bendgen.records.found_tube import Answers
from bendgen.units import DrawnUnits

SEPARATORS = {";": "semicolons", "\t": "tabs", ",": "commas"}
LINES_LOOKED_AT = 20
COLUMN = re.compile(r"[\W_]*(?P<name>\w.*?)(?:[\W_]+(?P<unit>mm|cm|m|inch|in|ft|deg|°))?[\W_]*")
TYPOGRAPHIC_MINUS = "\u2212"
LONGEST_HEADING = 80  # a longer one names no column that is known, and would keep the pattern busy
UNIT_WORDS: dict[str, DrawnUnits] = {"mm": "mm", "cm": "cm", "m": "m", "in": "in", "inch": "in", "ft": "ft"}
UNITS_BELOW = {*UNIT_WORDS, "deg", "°", "-", ""}  # what a row of units below the headings may hold


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """What a column holds by its heading: name in small letters, unit where the heading names one."""

    name: str
    units: DrawnUnits | None = None
    heading: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ForeignCsv:
    """Lines of numbers, and what stands above them.

    head : one column for each cell of the head row, None where the first line holds numbers already
    lines : of numbers, still as text, each with a point where the file has a decimal comma
    understood : how separator and decimal mark were taken
    ignored : lines passed over
    """

    head: tuple[Column, ...] | None
    lines: list[CsvLine]
    understood: tuple[tuple[str, str], ...]
    ignored: tuple[str, ...]


def parse_foreign_csv(text: str, file: str, answers: Answers) -> ForeignCsv:
    """Table in a text, which mistakes call `file`.

    Raises
    ------
    InputError    no table of numbers, or numbers that could mean two things
    """
    text = text.replace(TYPOGRAPHIC_MINUS, "-")
    separator = _separator(text, file)
    lines = csv_lines(text, file, "lines of numbers", separator=separator)
    ignored = [line for line in lines if line.cells[0].startswith("#")]
    lines = [line for line in lines if not line.cells[0].startswith("#")]
    if not lines:
        raise mistaken(file, "lines of numbers", "comments only")
    head, rows = _head_and_rows(lines)
    comma = _decimal_comma(rows, file, answers)
    mark = "decimal comma" if comma else "decimal point"
    return ForeignCsv(
        head=head,
        lines=[with_points(line) for line in rows] if comma else rows,
        understood=(("numbers", f"between {SEPARATORS[separator]}, with a {mark}"),),
        ignored=(f"lines that begin with #: {len(ignored)}",) if ignored else (),
    )


def _head_and_rows(lines: list[CsvLine]) -> tuple[tuple[Column, ...] | None, list[CsvLine]]:
    """Columns of the head row, with the units of a second one where it holds nothing else, and the lines of numbers."""
    if not _is_head(lines[0]):
        return None, lines
    head = tuple(column_from_heading(cell) for cell in lines[0].cells)
    below = [cell.strip("[]() .").casefold() for cell in lines[1].cells] if len(lines) > 1 else []
    if len(below) != len(head) or not any(below) or not set(below) <= UNITS_BELOW:
        return head, lines[1:]
    with_units = zip(head, below, strict=True)
    return tuple(replace(column, units=UNIT_WORDS.get(unit, column.units)) for column, unit in with_units), lines[2:]


def column_from_heading(heading: str) -> Column:
    """Column "x" in mm from "x_mm", "X [mm]" or "x (mm)"."""
    found = COLUMN.fullmatch(heading.casefold()) if len(heading) <= LONGEST_HEADING else None
    if found is None:
        return Column(name="", heading=heading)
    return Column(name=found["name"], units=UNIT_WORDS.get(found["unit"] or ""), heading=heading)


def finite_number(cell: str) -> float | None:
    """Number in a cell, None where it holds none or one that is not finite.

    Python reads a little more as a number than `DECIMAL_NUMBER` does, and three times as fast.
    """
    try:
        value = float(cell)
    except ValueError:
        return None
    return value if math.isfinite(value) and cell.isascii() and "_" not in cell else None


def _separator(text: str, file: str) -> str:
    first_lines = "".join(islice(_text_lines(text), LINES_LOOKED_AT))
    for separator in SEPARATORS:
        if separator in first_lines:
            return separator
    found = "one column" if first_lines.strip() else ""
    expected = "columns of numbers between commas, semicolons or tabs"
    raise mistaken(file, expected, found)


def _text_lines(text: str) -> Iterator[str]:
    """Lines of the text that are no comments; the rest of a huge text is not looked at."""
    start = 0
    while start < len(text):
        end = text.find("\n", start)
        end = len(text) if end < 0 else end + 1
        if not text[start:end].lstrip("\ufeff ").startswith("#"):
            yield text[start:end]
        start = end


def _is_head(line: CsvLine) -> bool:
    """Whether no cell of a line begins as a number does; one stray text among numbers is a mistake, no head."""
    return not any(re.match(r"[+-]?[.,]?[0-9]", cell) for cell in line.cells)


def _decimal_comma(lines: list[CsvLine], file: str, answers: Answers) -> bool:
    if answers.decimal is not None:
        return answers.decimal == "comma"
    return has_decimal_comma(lines, file, "numbers without commas, or comma by --decimal where they are decimal commas")
