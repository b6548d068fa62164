"""Lines and cells of a CSV that a person or another program wrote."""

import csv
import io
import math
import re
from collections.abc import Iterable
from dataclasses import dataclass

from bendgen.errors import mistaken

MOST_LINES = 300_000  # no tube and no series of pieces needs more; each line takes some 300 bytes of memory
LONGEST_LINE = 1_000_000  # characters
WHOLE_NUMBER = re.compile(r"[0-9]{1,9}")
DECIMAL_NUMBER = re.compile(r"[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]+)?")


@dataclass(frozen=True, slots=True, kw_only=True)
class CsvLine:
    """One line of the file: its number, counted from 1, and its cells."""

    number: int
    cells: list[str]


def csv_lines(text: str, file: str, expected_head: str, *, separator: str) -> list[CsvLine]:
    """Lines that hold anything, the head first.

    Raises
    ------
    InputError    one mistake: no CSV, or nothing in it where `expected_head` should be
    """
    if any(len(line) >= LONGEST_LINE for line in text.replace("\r", "\n").split("\n")):
        expected, found = "lines of less than a million characters", "a longer one"
        raise mistaken(file, expected, found)
    reader = csv.reader(io.StringIO(text.removeprefix("\ufeff"), newline=""), delimiter=separator, strict=True)
    lines = []
    try:
        for row in reader:
            cells = [cell.strip() for cell in row]
            if any(cells):
                lines.append(CsvLine(number=reader.line_num, cells=cells))
            if len(lines) > MOST_LINES:
                expected, found = f"at most {MOST_LINES:,} lines", "more"
                raise mistaken(file, expected, found)
    except csv.Error as error:
        place = f"line {reader.line_num}"
        raise mistaken(file, "CSV", f"a syntax error: {error}", place=place) from None
    if not lines:
        raise mistaken(file, expected_head)
    return lines


def cell_value(cell: str) -> int | float | str:
    """Cell as a number where it is one."""
    if WHOLE_NUMBER.fullmatch(cell):
        return int(cell)
    if DECIMAL_NUMBER.fullmatch(cell) and math.isfinite(value := float(cell)):
        return value
    return cell


def head_text(columns: Iterable[str]) -> str:
    """Names of the columns in quotes, short enough for one line."""
    named = ", ".join(column for column in columns if column)
    return f"'{named if len(named) <= 100 else named[:97] + '…'}'"
