"""A measured piece: what it is off the wanted part, written where it is off; what is out of tolerance in bold."""

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence

from htpy import Element

from bendgen.geometry.vectors import Array
from bendgen.records.comparison import Comparison, Deviation
from bendgen.records.foretold import Foretold
from bendgen.reports.drawings.axes import Axis, axis_of_tube
from bendgen.reports.drawings.callouts import balloon, callout_of_lines, end_names
from bendgen.reports.drawings.labels import Box, FreeSpace, inked
from bendgen.reports.drawings.paper import drawing, group, words
from bendgen.reports.drawings.tube_body import tube_body
from bendgen.reports.drawings.view_directions import oblique_directions, true_directions
from bendgen.reports.drawings.views import fitting_view
from bendgen.reports.sheet.job import UNIT_NAMES
from bendgen.units import FINE_DECIMALS, Units, format_number, units_from_mm

WIDTH, HEIGHT = 186.0, 110.0  # [paper mm], as all here
FRAME = Box(left=1.0, top=1.0, right=185.0, bottom=101.0)
ROOM = Box(left=42.0, top=20.0, right=144.0, bottom=82.0)  # of it for the part itself
MOST_WORDS = 24  # deviations for which there is room
OF_BEND, OF_STRAIGHT = re.compile(r"(?:angle|rotation)-([0-9]+)"), re.compile(r"straight-([0-9]+)")
OF_LEG = re.compile(r".*leg-(front|rear)")
DEGREE_DECIMALS = 2
ONLY_THE_LARGEST = " Only the largest, by their tolerances."

Placed = tuple[tuple[float, float, float], Deviation]


def deviation_drawing(foretold: Foretold, comparison: Comparison) -> Element:
    """The part seen aslant, with every deviation that has a place on it, or the largest of them."""
    od = foretold.tube.od
    axis = axis_of_tube(foretold.finished, foretold.predicted, od)
    seen = oblique_directions(axis, true_directions(axis)[0])
    view = fitting_view((seen.right, seen.up), axis.points, ROOM, 0.5 * od)
    space = FreeSpace(FRAME, inked(view.places(axis.points)), 0.5 * od * view.scale)
    placed = [(place, found) for found in comparison.deviations if (place := _place(found, axis)) is not None]
    shown = sorted(placed, key=lambda pair: -abs(pair[1].from_wanted) / pair[1].tolerance)[:MOST_WORDS]
    note = f"Measured less wanted; lengths in {UNIT_NAMES[foretold.units]}"
    pieces = [
        group(tube_body(axis.points, od, view), class_="tube"),
        *(balloon(i, space, place) for i, place in enumerate(view.places(axis.bend_middles).tolist(), start=1)),
        *end_names(view.places(axis.points[[0, -1]]), space),
        *(
            callout_of_lines(lines, space, view.place(*place))
            for place, lines in _lines_by_place(shown, foretold.units).items()
        ),
        words(f"{note}.{ONLY_THE_LARGEST * (len(shown) < len(placed))}", (1.0, HEIGHT - 1.5), anchor="start"),
    ]
    return drawing(WIDTH, HEIGHT, "What the measured piece is off the wanted part, place by place", pieces)


def _lines_by_place(
    placed: Sequence[Placed], units: Units
) -> Mapping[tuple[float, float, float], list[tuple[str, bool]]]:
    """What is written at each place, line by line, and whether it is out of tolerance."""
    lines: defaultdict[tuple[float, float, float], list[tuple[str, bool]]] = defaultdict(list)
    for place, found in placed:
        lines[place].append((_words(found, units), not found.in_tolerance))
    return lines


def _place(found: Deviation, axis: Axis) -> tuple[float, float, float] | None:
    """Where on the part a reading was taken; None for those that are of the whole part."""
    if bend := OF_BEND.fullmatch(found.check):
        return _row(axis.bend_middles, int(bend[1]) - 1)
    if straight := OF_STRAIGHT.fullmatch(found.check):
        return _row(axis.straight_middles, int(straight[1]) - 1)
    if leg := OF_LEG.fullmatch(found.check):
        return _row(axis.straight_middles, 0 if leg[1] == "front" else len(axis.straight_middles) - 1)
    return None


def _row(rows: Array, i: int) -> tuple[float, float, float] | None:
    if i >= len(rows):
        return None
    x, y, z = rows[i].tolist()
    return x, y, z


def _words(found: Deviation, units: Units) -> str:
    """Name of the check and what the reading is off, with its sign; OUT where the tolerance does not allow it."""
    if found.unit == "deg":
        off = f"{format_number(found.from_wanted, DEGREE_DECIMALS)}°"
    else:
        off = format_number(units_from_mm(found.from_wanted, units), FINE_DECIMALS[units])
    signed = off if off.startswith("-") else f"+{off}"
    return f"{found.check} {signed}" if found.in_tolerance else f"{found.check} {signed} OUT"
