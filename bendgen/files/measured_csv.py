"""Measured parts from a CSV: readings, one a line, or vertices, or points along the axis; columns in any order.

Readings have the columns `check`, `value` and `unit`; points have `x_mm`, `y_mm`, `z_mm` or the same in `_in`, and
are vertices where a column `vertex` numbers them. `part`, `issue`, `piece` and `lot` may stand in either; columns
that are not known are passed over, and so is a reading whose value is empty: nobody took it.
"""

import re
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import dist
from pathlib import Path

from bendgen.errors import InputError, Mistake, mistaken
from bendgen.files.csv_lines import CsvLine, cell_value, head_text
from bendgen.files.diameter_checks import check_diameters
from bendgen.files.field_types import LARGEST_NUMBER, largest_in
from bendgen.files.other_files import refuse_other_kinds
from bendgen.files.own_csv import check_width, own_csv_lines
from bendgen.files.text_files import read_text_file
from bendgen.files.validation import nearest_of
from bendgen.records.bent_tube import Point
from bendgen.records.foretold import Foretold
from bendgen.records.measured import DIAMETER, MeasuredPiece, Reading
from bendgen.units import FULL_TURN_DEG, MM_PER_UNIT, Units, counted, parse_length

READING_COLUMNS = ("check", "value", "unit")
POINT_COLUMNS: dict[Units, tuple[str, str, str]] = {
    "mm": ("x_mm", "y_mm", "z_mm"),
    "in": ("x_in", "y_in", "z_in"),
}
EXPECTED_HEAD = "a head row with the columns check, value, unit, or x_mm, y_mm, z_mm"
FEWEST_AXIS_POINTS = 3  # of each straight, on average; fewer tell no direction
# Readings that no tape or protractor gives below 0; where a mark lies from another, it may lie on its other side.
NEVER_NEGATIVE = ("angle-", "apex-leg-", "outer-apex-leg-", "crown-leg-", "box-", "blank", "length", "diameter-")
APART = 1e-6  # mm; nearer than this two points are one
ONLY_PIECE = "1"
Cells = dict[str, str]
Expected = tuple[str, str, str]  # column, expected, found


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """One line below the head: its number, and its cells by column."""

    line: int
    cells: Cells

    @property
    def piece(self) -> tuple[str, str]:
        """Lot and piece."""
        return self.cells.get("lot", ""), self.cells.get("piece", "") or ONLY_PIECE


def read_measured(path: Path, foretold: Foretold) -> tuple[MeasuredPiece, ...]:
    """Pieces in a file of at most 1 MB, made from that program; raises InputError with every mistake."""
    text = read_text_file(path, "a measured part, CSV")
    refuse_other_kinds(text, path, "a measured part, CSV", "measured")
    return parse_measured(text, str(path), foretold)


def parse_measured(text: str, file: str, foretold: Foretold) -> tuple[MeasuredPiece, ...]:
    """Pieces in a CSV, which mistakes call `file`, in the order of their first lines.

    Raises
    ------
    InputError    every mistake of the head row; or else every mistake of every cell, with line and column
    """
    head, *lines = own_csv_lines(text, file, EXPECTED_HEAD)
    columns = [cell.casefold() for cell in head.cells]
    units = _point_units(columns)
    if units is None and not set(READING_COLUMNS) <= set(columns):
        raise mistaken(file, EXPECTED_HEAD, head_text(columns), place=f"line {head.number}")
    if len(set(columns)) < len(columns):
        raise mistaken(file, "each column once", head_text(columns), place=f"line {head.number}")
    if not lines:
        raise mistaken(file, "a line for each reading or point", "only the head")
    rows = _rows(lines, columns, file)
    mistakes = list(_wrong_parts(rows, file, foretold))
    pieces = _points(rows, file, foretold, units) if units else _readings(rows, file, foretold)
    if mistakes + pieces.mistakes:
        raise InputError(sorted(mistakes + pieces.mistakes, key=lambda mistake: _line_number(mistake.place)))
    return tuple(pieces.found)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pieces:
    found: list[MeasuredPiece]
    mistakes: list[Mistake]


def _line_number(place: str) -> int:
    number = re.search(r"\d+", place)
    return int(number[0]) if number else 0


def _point_units(columns: Sequence[str]) -> Units | None:
    return next((units for units, names in POINT_COLUMNS.items() if set(names) <= set(columns)), None)


def _rows(lines: Sequence[CsvLine], columns: Sequence[str], file: str) -> list[_Row]:
    wrong_widths = [mistake for line in lines if (mistake := check_width(line, columns, file))]
    if wrong_widths:
        raise InputError(wrong_widths)
    return [_Row(line=line.number, cells=dict(zip(columns, line.cells, strict=True))) for line in lines]


def _wrong_parts(rows: Sequence[_Row], file: str, foretold: Foretold) -> Iterator[Mistake]:
    """Lines of another part, or of another issue of it; those that say the same are told once."""
    asked = {"part": foretold.number, "issue": str(foretold.issue)}
    for column, expected in asked.items():
        lines: defaultdict[str, list[int]] = defaultdict(list)
        for row in rows:
            if row.cells.get(column, expected) not in ("", expected):
                lines[row.cells[column]].append(row.line)
        for found, of_found in lines.items():
            more = f", and so in {counted(len(of_found) - 1, 'line')} more" if len(of_found) > 1 else ""
            place = f"line {of_found[0]}, column {column}"
            said = f"'{expected}', as the step list says"
            yield Mistake(file=file, place=place, expected=said, found=f"'{found}'{more}")


def _readings(rows: Sequence[_Row], file: str, foretold: Foretold) -> _Pieces:
    units = {check.id: check.unit for check in foretold.checks}
    by_piece: defaultdict[tuple[str, str], dict[str, Reading]] = defaultdict(dict)
    mistakes = []
    for row in rows:
        if not row.cells["value"]:
            continue
        wrong = list(_reading_flaws(row.cells, units, len(foretold.steps)))
        name = row.cells["check"]
        if not wrong and name in by_piece[row.piece]:
            first = by_piece[row.piece][name].line
            wrong = [("check", "one reading of each check for a piece", f"'{name}' again, after line {first}")]
        mistakes += [_of_cell(file, row, *flaw) for flaw in wrong]
        if not wrong:
            value = _value_mm_deg(row.cells["value"], row.cells["unit"])
            by_piece[row.piece][name] = Reading(line=row.line, check=name, value=value)
    mistakes += [mistake for of_piece in by_piece.values() for mistake in check_diameters(of_piece, file, foretold)]
    found = [
        MeasuredPiece(piece=piece, lot=lot or None, readings=tuple(of_piece.values()))
        for (lot, piece), of_piece in by_piece.items()
        if of_piece
    ]
    if not found and not mistakes:
        raise mistaken(file, "at least one reading", "no value")
    return _Pieces(found=found, mistakes=mistakes)


def _of_cell(file: str, row: _Row, column: str, expected: str, found: str) -> Mistake:
    return Mistake(file=file, place=f"line {row.line}, column {column}", expected=expected, found=found)


def _reading_flaws(cells: Cells, units: Mapping[str, str], bends: int) -> Iterator[Expected]:
    name, unit = cells["check"], cells["unit"]
    diameter = DIAMETER.fullmatch(name)
    if diameter is None and name not in units:
        yield "check", nearest_of(name, list(units), "check of the sheet"), f"'{name}'"
        return
    if diameter is not None and int(diameter[2]) > bends:
        yield "check", f"a bend from 1 to {bends}", f"'{name}'"
    wanted = units.get(name, "mm")
    if unit not in (("deg",) if wanted == "deg" else ("mm", "in")):
        yield "unit", "deg" if wanted == "deg" else "mm or in", f"'{unit}'"
    elif _number(cells["value"], unit) is None:
        expected = (
            "a number of degrees, 360 at most"
            if wanted == "deg"
            else f"a length of at most {largest_in('in' if unit == 'in' else 'mm')}"
        )
        yield "value", expected, f"'{cells['value']}'"
    elif name.startswith(NEVER_NEGATIVE) and _value_mm_deg(cells["value"], unit) < 0.0:
        yield "value", "a number of 0 or more", f"'{cells['value']}'"


def _number(cell: str, unit: str) -> float | None:
    """Number in a cell, in mm or degrees, if a tube can be that long or turn so far; a length as a shop writes it."""
    value = cell_value(cell)
    if unit == "deg":
        return None if isinstance(value, str) or abs(value) > FULL_TURN_DEG else float(value)
    try:
        length = parse_length(cell, "in" if unit == "in" else "mm") if isinstance(value, str) else float(value)
    except ValueError:
        return None
    length *= MM_PER_UNIT["in"] if unit == "in" and not isinstance(value, str) else 1.0
    return length if abs(length) <= LARGEST_NUMBER else None


def _value_mm_deg(cell: str, unit: str) -> float:
    value = _number(cell, unit)
    assert value is not None  # `_reading_flaws` has seen to it
    return value


def _points(rows: Sequence[_Row], file: str, foretold: Foretold, units: Units) -> _Pieces:
    """Vertices, where a column numbers them, or points along the axis."""
    by_piece: defaultdict[tuple[str, str], list[tuple[_Row, Point]]] = defaultdict(list)
    mistakes = []
    for row in rows:
        numbers = [_number(row.cells[column], units) for column in POINT_COLUMNS[units]]
        wrong = [c for c, number in zip(POINT_COLUMNS[units], numbers, strict=True) if number is None]
        mistakes += [_of_cell(file, row, column, "a number", f"'{row.cells[column]}'") for column in wrong]
        x, y, z = (number or 0.0 for number in numbers)
        by_piece[row.piece].append((row, (x, y, z)))
    are_vertices = "vertex" in rows[0].cells
    check: Callable[..., Iterator[Mistake]] = _vertex_mistakes if are_vertices else _axis_mistakes
    found = []
    for (lot, piece), of_piece in by_piece.items():
        mistakes += check(of_piece, file, len(foretold.steps))
        points = tuple(point for _, point in of_piece)
        found.append(
            MeasuredPiece(
                piece=piece,
                lot=lot or None,
                vertices=points if are_vertices else (),
                axis=() if are_vertices else points,
            )
        )
    return _Pieces(found=found, mistakes=mistakes)


def _vertex_mistakes(of_piece: Sequence[tuple[_Row, Point]], file: str, bends: int) -> Iterator[Mistake]:
    """Vertices are numbered from 1, front end first, and as many as the part has with its ends."""
    for number, (row, _) in enumerate(of_piece, start=1):
        if row.cells["vertex"] != str(number):
            yield _of_cell(file, row, "vertex", f"{number}", f"'{row.cells['vertex']}'")
    for (_, before), (row, here) in pairwise(of_piece):
        if dist(before, here) < APART:
            expected = "a vertex apart from the one before it"
            yield Mistake(file=file, place=f"line {row.line}", expected=expected, found="the same place")
    if len(of_piece) != bends + 2:
        last = of_piece[-1][0]
        expected = f"{bends + 2} vertices, the ends included"
        yield _of_cell(file, last, "vertex", expected, str(len(of_piece)))


def _axis_mistakes(of_piece: Sequence[tuple[_Row, Point]], file: str, bends: int) -> Iterator[Mistake]:
    fewest = FEWEST_AXIS_POINTS * (bends + 1)
    last = of_piece[-1][0]
    if all(dist(before, here) < APART for (_, before), (_, here) in pairwise(of_piece)):
        expected = "points along the axis"
        yield Mistake(file=file, place=f"line {last.line}", expected=expected, found="the same place all over")
    elif len(of_piece) < fewest:
        expected = f"at least {fewest} points along the axis, from end to end"
        yield Mistake(file=file, place=f"line {last.line}", expected=expected, found=str(len(of_piece)))
