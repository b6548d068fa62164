"""Legs of a tube from a CSV: the length of each, and how far it goes up and back, as angles off straight on.

+x is straight on, +z up, and +y back, away from whoever looks from the side.
"""

import math
from collections.abc import Iterator, Mapping, Sequence

from bendgen.errors import Mistake, mistaken
from bendgen.files.csv_lines import CsvLine
from bendgen.files.foreign_cells import length_of_cell, mistaken_cell, named_columns, refuse, units_of_columns
from bendgen.files.foreign_csv import Column, ForeignCsv, finite_number
from bendgen.files.needless_answers import refuse_needless
from bendgen.files.path_checks import MOST_VERTICES
from bendgen.files.points_csv import refuse_bad_path
from bendgen.geometry.view_angles import bend_from_turns, bend_from_views
from bendgen.records.found_tube import Answers, FoundTube
from bendgen.records.part import Centreline, Vertex
from bendgen.units import RADIANS_PER_DEGREE, DrawnUnits, shop_units

NEEDED = ("leg", "up", "back")
QUESTION = "views or turns by --angles: are up and back seen in two views, or turned one after the other?"
MEANINGS = {"views": "as two views show them", "turns": "turned one after the other"}
SQUARE_DEG = 90.0  # a leg that goes straight up or beyond shows no such angle

Point = tuple[float, float, float]


def names_legs(columns: Sequence[Column]) -> bool:
    """Whether columns are those of legs."""
    return set(NEEDED) <= {column.name for column in columns}


def parse_legs(table: ForeignCsv, file: str, answers: Answers) -> FoundTube:
    """Tube whose legs, vertex to vertex, stand in a table, which mistakes call `file`.

    Raises
    ------
    InputError
        every bad cell; or a leg that goes up and back at once while nobody has said how its angles are meant
    """
    columns = named_columns(table, file, answers)
    units, units_from = units_of_columns(columns, file, answers)
    places = {name: [column.name for column in columns].index(name) for name in NEEDED}
    refuse_needless(answers, "legs", file)
    legs = _legs(table.lines, places, units, file)
    meant = _meaning(legs, file, answers)
    path = {0: (0.0, 0.0, 0.0)}
    for number, (length, up_deg, back_deg) in legs.items():
        x, y, z = path[max(path)]
        way = _direction(up_deg * RADIANS_PER_DEGREE, back_deg * RADIANS_PER_DEGREE, meant)
        path[number] = (x + length * way[0], y + length * way[1], z + length * way[2])
    refuse_bad_path({number: list(place) for number, place in path.items()}, file)
    return FoundTube(
        kind="legs in a CSV",
        units=shop_units(units or "mm"),
        wish=Centreline(vertices=tuple(Vertex(x=x, y=y, z=z) for x, y, z in path.values())),
        understood=(
            ("unit", f"{units}, {units_from}"),
            *table.understood,
            ("angles", f"off straight on, {MEANINGS[meant]}"),
            ("axes", "x straight on, y back, z up"),
        ),
        ignored=(*table.ignored, *_ignored(columns)),
    )


def _ignored(columns: Sequence[Column]) -> Iterator[str]:
    for column in columns:
        if column.name not in NEEDED:
            yield f"column '{column.heading}': none of leg, up and back"


def _legs(
    lines: Sequence[CsvLine], places: Mapping[str, int], units: DrawnUnits | None, file: str
) -> dict[int, tuple[float, float, float]]:
    """Length [mm] and angles [deg] of each leg by its line; raises InputError for every bad cell."""
    legs, mistakes = {}, []
    if len(lines) >= MOST_VERTICES:
        expected, found = f"at most {MOST_VERTICES - 1} legs", f"{len(lines):,}"
        raise mistaken(file, expected, found)
    for line in lines:
        if len(line.cells) <= max(places.values()):
            expected, found = f"{max(places.values()) + 1} cells or more", str(len(line.cells))
            mistakes.append(Mistake(file=file, place=f"line {line.number}", expected=expected, found=found))
            continue
        values = {name: _value(line.cells[place], name, units) for name, place in places.items()}
        for name, value in values.items():
            if isinstance(value, str):
                mistakes.append(mistaken_cell(line, places[name], name, value, file))
        leg, up, back = (value if isinstance(value, float) else 0.0 for value in values.values())
        legs[line.number] = (leg, up, back)
    refuse(mistakes)
    if not legs:
        raise mistaken(file, "one leg or more", "none")
    return legs


def _value(cell: str, name: str, units: DrawnUnits | None) -> float | str:
    if name == "leg":
        length = length_of_cell(cell, units)
        return length if isinstance(length, str) or length > 0.0 else "a length greater than 0"
    degrees = finite_number(cell.removesuffix("°").strip())
    inside = degrees is not None and abs(degrees) < SQUARE_DEG
    return degrees if degrees is not None and inside else "a number greater than -90 and less than 90"


def _meaning(legs: Mapping[int, tuple[float, float, float]], file: str, answers: Answers) -> str:
    """`views` or `turns`; either where no leg goes up and back at once, for then they mean the same."""
    if answers.angles in ("views", "turns"):
        return answers.angles
    if answers.angles is not None:
        raise mistaken(file, QUESTION, f"'{answers.angles}'")
    both = [number for number, (_, up, back) in legs.items() if up and back]
    if both:
        place = f"line {both[0]}"
        raise mistaken(file, QUESTION, "a leg that does both", place=place)
    return "views"


def _direction(up: float, back: float, meant: str) -> Point:
    if not (up or back):
        return 1.0, 0.0, 0.0
    bend, roll = (bend_from_turns if meant == "turns" else bend_from_views)(up, back)
    return math.cos(bend), math.sin(bend) * math.sin(roll), math.sin(bend) * math.cos(roll)
