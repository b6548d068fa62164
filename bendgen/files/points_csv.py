"""Points of a tube's axis from a CSV of any make: vertices with or without a CLR."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from bendgen.errors import InputError, Mistake
from bendgen.files.csv_lines import CsvLine
from bendgen.files.field_types import LARGEST_NUMBER
from bendgen.files.foreign_csv import Column, ForeignCsv, column_from_heading, finite_number
from bendgen.files.path_checks import MOST_VERTICES, check_path
from bendgen.records.found_tube import Answers, FoundTube
from bendgen.records.part import Centreline, Vertex
from bendgen.units import MM_PER_DRAWN_UNIT, DrawnUnits, parse_length, shop_units

COORDINATES = ("x", "y", "z")
CLR_NAMES = frozenset({"clr", "r", "radius", "bend radius", "bend_radius", "centreline radius", "centerline radius"})
MOST_MISTAKES = 20  # a screenful; a file with more is wrong as a whole
EXPECTED_COLUMNS = "columns x, y, z (and clr, where it is known), named in a head row or by --columns"
EXPECTED_UNIT = "a unit in the head row, such as x_mm, or mm, cm, m, in or ft by --units"


@dataclass(frozen=True, slots=True, kw_only=True)
class PointColumns:
    """Where the cells of a point stand: x and y, mostly z, sometimes clr.

    width : cells of a line
    units : of lengths that name none; None: neither head row nor answer says
    """

    places: Mapping[str, int]
    width: int
    units: DrawnUnits | None
    units_from: str
    ignored: tuple[str, ...]


def names_points(head: Sequence[Column]) -> bool:
    """Whether the columns of a head row are those of points."""
    return {"x", "y"} <= {column.name for column in head}


def parse_points(table: ForeignCsv, file: str, answers: Answers) -> FoundTube:
    """Tube whose vertices stand in a table, which mistakes call `file`.

    Raises
    ------
    InputError    a column, a unit or an answer is missing; or else every bad cell, or every bad vertex, by its line
    """
    columns = point_columns(table, file, answers)
    points = points_of_lines(table.lines, columns, file)
    if len(points) > MOST_VERTICES:
        expected, found = f"at most {MOST_VERTICES:,} vertices", f"{len(points):,}"
        raise InputError([Mistake(file=file, place="", expected=expected, found=found)])
    _refuse_bad_path(points, file)
    units = columns.units or _units_of_cells(table.lines)
    vertices = tuple(Vertex(x=p[0], y=p[1], z=p[2], clr=p[3] if len(p) == 4 else None) for p in points.values())
    return FoundTube(
        kind="vertices in a CSV",
        units=shop_units(units),
        wish=Centreline(vertices=vertices),
        understood=(("unit", f"{units}, {columns.units_from}"), *table.understood, *_flat(columns)),
        ignored=(*table.ignored, *columns.ignored),
    )


def _units_of_cells(lines: Iterable[CsvLine]) -> DrawnUnits:
    """Unit of cells that all name theirs."""
    return "mm" if any("mm" in cell for line in lines for cell in line.cells) else "in"


def _flat(columns: PointColumns) -> tuple[tuple[str, str], ...]:
    return () if "z" in columns.places else (("z", "0 everywhere: the file has no such column"),)


def point_columns(table: ForeignCsv, file: str, answers: Answers) -> PointColumns:
    """Columns as the answers or the head row name them."""
    if answers.columns is not None:
        head = tuple(column_from_heading(name) for name in answers.columns.split(","))
    elif table.head is not None:
        head = table.head
    else:
        cells = len(table.lines[0].cells)
        raise InputError([Mistake(file=file, place="", expected=EXPECTED_COLUMNS, found=f"{cells} without names")])
    places = _places(head, file)
    named = {column.units for column in head if column.units is not None}
    if len(named) > 1:
        raise InputError([Mistake(file=file, place="head row", expected="one unit", found=" and ".join(sorted(named)))])
    by_head = next(iter(named), None)
    if by_head is not None and answers.units not in (None, by_head):
        raise InputError(
            [Mistake(file=file, place="head row", expected=f"--units {by_head}", found=answers.units or "")]
        )
    return PointColumns(
        places=places,
        width=len(head),
        units=by_head or answers.units,
        units_from="from the head row" if by_head else "as --units says" if answers.units else "in every cell",
        ignored=tuple(
            f"column '{column.heading}': neither a coordinate nor a CLR"
            for index, column in enumerate(head)
            if index not in places.values()
        ),
    )


def _places(head: Sequence[Column], file: str) -> dict[str, int]:
    places: dict[str, int] = {}
    for index, column in enumerate(head):
        name = "clr" if column.name in CLR_NAMES else column.name
        if name not in (*COORDINATES, "clr"):
            continue
        if name in places:
            raise InputError([Mistake(file=file, place="head row", expected=f"one column {name}", found="two")])
        places[name] = index
    if not {"x", "y"} <= places.keys():
        names = ", ".join(column.heading for column in head)
        raise InputError([Mistake(file=file, place="head row", expected=EXPECTED_COLUMNS, found=f"'{names[:80]}'")])
    return places


def points_of_lines(lines: Iterable[CsvLine], columns: PointColumns, file: str) -> dict[int, list[float]]:
    """Points by the number of their line: [x, y, z] or [x, y, z, clr] in mm; raises InputError for every bad cell."""
    points: dict[int, list[float]] = {}
    mistakes: list[Mistake] = []
    for line in lines:
        if len(line.cells) != columns.width:
            expected = f"{columns.width} cells, one for each column"
            place = f"line {line.number}"
            mistakes.append(Mistake(file=file, place=place, expected=expected, found=str(len(line.cells))))
            continue
        points[line.number], bad = _point(line, columns, file)
        mistakes.extend(bad)
    question = next((mistake for mistake in mistakes if mistake.expected == EXPECTED_UNIT), None)
    refuse(mistakes if question is None else [question])  # once is enough
    return points


def _point(line: CsvLine, columns: PointColumns, file: str) -> tuple[list[float], list[Mistake]]:
    point, mistakes = [], []
    for name in COORDINATES:
        mm = _length(line.cells[columns.places[name]], columns.units) if name in columns.places else 0.0
        if isinstance(mm, str):
            mistakes.append(_mistaken_cell(line, columns.places[name], name, mm, file))
        else:
            point.append(mm)
    clr = line.cells[columns.places["clr"]] if "clr" in columns.places else ""
    if clr not in ("", "-", "0"):
        mm = _length(clr, columns.units)
        if isinstance(mm, str) or mm < 0.0:
            expected = mm if isinstance(mm, str) else "a CLR greater than 0"
            mistakes.append(_mistaken_cell(line, columns.places["clr"], "clr", expected, file))
        elif mm > 0.0:
            point.append(mm)
    return point, mistakes


def _length(cell: str, units: DrawnUnits | None) -> float | str:
    """Length in mm, or what was expected instead."""
    value = finite_number(cell)
    if value is None:
        return _shop_length(cell, units)
    if units is None and value != 0.0:
        return EXPECTED_UNIT
    mm = value * MM_PER_DRAWN_UNIT[units or "mm"]
    return mm if abs(mm) <= LARGEST_NUMBER else f"a length of at most {LARGEST_NUMBER:,.0f} mm"


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


def _mistaken_cell(line: CsvLine, place: int, name: str, expected: str, file: str) -> Mistake:
    found = line.cells[place]
    shown = f"'{found[:40]}'" if found else ""
    return Mistake(file=file, place=f"line {line.number}, column {name}", expected=expected, found=shown)


def _refuse_bad_path(points: Mapping[int, list[float]], file: str) -> None:
    if len(points) < 2:
        raise InputError([Mistake(file=file, place="", expected="two points or more", found=str(len(points)))])
    lines = list(points)
    flaws = check_path(dict(enumerate(points.values())), len(points))
    in_order = sorted(flaws, key=lambda flaw: flaw.place)
    refuse(
        Mistake(file=file, place=f"line {lines[int(flaw.place[0])]}", expected=flaw.expected, found=flaw.found or "")
        for flaw in in_order
    )


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
