"""Points of a tube's axis from a CSV of any make: vertices with or without a CLR, or many points along it."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from bendgen.errors import Mistake, mistaken
from bendgen.files.axis_points import axis_of_points, may_follow_axis
from bendgen.files.csv_lines import CsvLine
from bendgen.files.foreign_cells import (
    CLR_LEFT,
    EXPECTED_COLUMNS,
    EXPECTED_UNIT,
    length_of_cell,
    mistaken_cell,
    named_columns,
    refuse,
    units_of_columns,
)
from bendgen.files.foreign_csv import Column, ForeignCsv
from bendgen.files.needless_answers import refuse_needless
from bendgen.files.path_checks import MOST_VERTICES, check_path
from bendgen.records.found_tube import Answers, FoundAxis, FoundTube
from bendgen.records.part import Centreline, Vertex
from bendgen.units import DrawnUnits, shop_units

COORDINATES = ("x", "y", "z")
CLR_NAMES = frozenset({"clr", "r", "radius", "bend radius", "bend_radius", "centreline radius", "centerline radius"})


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


def parse_points(table: ForeignCsv, file: str, answers: Answers) -> FoundTube:
    """Tube whose points stand in a table, which mistakes call `file`.

    Raises
    ------
    InputError    a column, a unit or an answer is missing; or else every bad cell, or every bad vertex, by its line
    """
    columns = point_columns(table, file, answers)
    points = points_of_lines(table.lines, columns, file)
    refuse_bad_path(points, file)
    units = columns.units or _units_of_cells(table.lines)
    along = _follow_axis(points, file, answers)
    refuse_needless(answers, "axis" if along else "vertices", file)
    axis = axis_of_points(points, file, answers) if along else FoundAxis(wish=_path(points, answers))
    return FoundTube(
        kind="points along the axis, in a CSV" if along else "vertices in a CSV",
        units=shop_units(units),
        wish=axis.wish,
        clr_within=axis.clr_within,
        understood=(("unit", f"{units}, {columns.units_from}"), *table.understood, *_flat(columns), *axis.understood),
        ignored=(*table.ignored, *columns.ignored, *_unused_clr(points, answers, along=along)),
    )


def _follow_axis(points: Mapping[int, list[float]], file: str, answers: Answers) -> bool:
    """Whether points lie along the axis, not at its vertices; raises InputError where they could be either."""
    if answers.points == "vertices" and len(points) > MOST_VERTICES:
        expected, found = f"at most {MOST_VERTICES:,} vertices", f"{len(points):,}"
        raise mistaken(file, expected, found)
    if answers.points is not None or len(points) > MOST_VERTICES:
        return answers.points != "vertices"
    if any(len(point) == 4 for point in points.values()):
        return False
    if may_follow_axis(np.array(list(points.values()))):
        expected = "vertices or axis by --points: they turn so slowly that they could be either"
        raise mistaken(file, expected, f"{len(points)} points")
    return False


def _path(points: Mapping[int, list[float]], answers: Answers) -> Centreline:
    return Centreline(
        vertices=tuple(
            Vertex(x=x, y=y, z=z, clr=clr[0] if clr and not answers.leave_clr else None)
            for x, y, z, *clr in points.values()
        )
    )


def _unused_clr(points: Mapping[int, list[float]], answers: Answers, *, along: bool) -> Iterator[str]:
    if any(len(point) == 4 for point in points.values()):
        if along:
            yield "column clr: points along the axis show it themselves"
        elif answers.leave_clr:
            yield CLR_LEFT


def _units_of_cells(lines: Iterable[CsvLine]) -> DrawnUnits:
    """Unit of cells that all name theirs."""
    return "mm" if any("mm" in cell for line in lines for cell in line.cells) else "in"


def _flat(columns: PointColumns) -> tuple[tuple[str, str], ...]:
    return () if "z" in columns.places else (("z", "0 everywhere: the file has no such column"),)


def point_columns(table: ForeignCsv, file: str, answers: Answers) -> PointColumns:
    """Columns as the answers or the head row name them."""
    head = named_columns(table, file, answers)
    places = _places(head, file)
    units, units_from = units_of_columns(head, file, answers)
    return PointColumns(
        places=places,
        width=len(head),
        units=units,
        units_from=units_from,
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
            raise mistaken(file, f"one column {name}", "two", place="head row")
        places[name] = index
    if not {"x", "y"} <= places.keys():
        names = ", ".join(column.heading for column in head)
        raise mistaken(file, EXPECTED_COLUMNS, f"'{names[:80]}'", place="head row")
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
        mm = length_of_cell(line.cells[columns.places[name]], columns.units) if name in columns.places else 0.0
        if isinstance(mm, str):
            mistakes.append(mistaken_cell(line, columns.places[name], name, mm, file))
        else:
            point.append(mm)
    clr = line.cells[columns.places["clr"]] if "clr" in columns.places else ""
    if clr not in ("", "-", "0"):
        mm = length_of_cell(clr, columns.units)
        if isinstance(mm, str) or mm < 0.0:
            expected = mm if isinstance(mm, str) else "a CLR greater than 0"
            mistakes.append(mistaken_cell(line, columns.places["clr"], "clr", expected, file))
        elif mm > 0.0:
            point.append(mm)
    return point, mistakes


def refuse_bad_path(points: Mapping[int, list[float]], file: str) -> None:
    """Raise InputError where points, by their line, are fewer than two, equal neighbours, or fold straight back."""
    if len(points) < 2:
        raise mistaken(file, "two points or more", str(len(points)))
    lines = list(points)
    flaws = check_path(dict(enumerate(points.values())), len(points))
    in_order = sorted(flaws, key=lambda flaw: flaw.place)
    refuse(
        Mistake(file=file, place=f"line {lines[int(flaw.place[0])]}", expected=flaw.expected, found=flaw.found or "")
        for flaw in in_order
    )
