"""A measured piece: what it is off the wanted part, written where it is off; what is out of tolerance in a frame."""

import re

from htpy import Element

from bendgen.geometry.vectors import Array
from bendgen.records.comparison import Comparison, Deviation
from bendgen.records.foretold import Foretold
from bendgen.reports.drawings.axes import Axis, axis_of_tube
from bendgen.reports.drawings.callouts import balloon, callout, end_names
from bendgen.reports.drawings.labels import Box, FreeSpace, inked
from bendgen.reports.drawings.paper import drawing, group, words
from bendgen.reports.drawings.tube_body import tube_body
from bendgen.reports.drawings.view_directions import oblique_directions, true_directions
from bendgen.reports.drawings.views import fitting_view
from bendgen.units import FINE_DECIMALS, Units, format_number, units_from_mm

WIDTH, HEIGHT = 186.0, 110.0  # [paper mm], as all here
FRAME = Box(left=1.0, top=1.0, right=185.0, bottom=98.0)
ROOM = Box(left=50.0, top=22.0, right=136.0, bottom=76.0)  # of it for the part itself
MOST_WORDS = 24  # deviations for which there is room
OF_BEND, OF_STRAIGHT = re.compile(r"(?:angle|rotation)-([0-9]+)"), re.compile(r"straight-([0-9]+)")
OF_LEG = re.compile(r".*leg-(front|rear)")
DEGREE_DECIMALS = 2
NOTE = "Measured less wanted; in a frame: out of tolerance."
ALL, SOME = "", " There is room only for the largest, by their tolerances."


def deviation_drawing(foretold: Foretold, comparison: Comparison) -> Element:
    """The part seen aslant, with every deviation that has a place on it, or the largest of them."""
    od = foretold.tube.od
    axis = axis_of_tube(foretold.finished, foretold.predicted, od)
    seen = oblique_directions(axis, true_directions(axis)[0])
    view = fitting_view((seen.right, seen.up), axis.points, ROOM, 0.5 * od)
    space = FreeSpace(FRAME, inked(view.places(axis.points)), 0.5 * od * view.scale)
    placed = [(place, found) for found in comparison.deviations if (place := _place(found, axis)) is not None]
    shown = sorted(placed, key=lambda pair: abs(pair[1].from_wanted) / pair[1].tolerance, reverse=True)[:MOST_WORDS]
    note = NOTE + (ALL if len(shown) == len(placed) else SOME)
    pieces = [
        group(tube_body(axis.points, od, view), class_="tube"),
        *(balloon(i, space, place) for i, place in enumerate(view.places(axis.bend_middles).tolist(), start=1)),
        *(
            callout(_words(found, foretold.units), space, view.place(*place.tolist()), framed=not found.in_tolerance)
            for place, found in shown
        ),
        *end_names(view.places(axis.points[[0, -1]]), space),
        words(f"{note} Lengths in {foretold.units}.", (1.0, HEIGHT - 1.5), anchor="start"),
    ]
    return drawing(WIDTH, HEIGHT, "What the measured piece is off the wanted part, place by place", pieces)


def _place(found: Deviation, axis: Axis) -> Array | None:
    """Where on the part a reading was taken; None for those that are of the whole part."""
    if bend := OF_BEND.fullmatch(found.check):
        return _row(axis.bend_middles, int(bend[1]) - 1)
    if straight := OF_STRAIGHT.fullmatch(found.check):
        return _row(axis.straight_middles, int(straight[1]) - 1)
    if leg := OF_LEG.fullmatch(found.check):
        return _row(axis.straight_middles, 0 if leg[1] == "front" else len(axis.straight_middles) - 1)
    return None


def _row(rows: Array, i: int) -> Array | None:
    row: Array | None = rows[i] if i < len(rows) else None
    return row


def _words(found: Deviation, units: Units) -> str:
    """Name of the check and what the reading is off, with its sign."""
    if found.unit == "deg":
        off = f"{format_number(found.from_wanted, DEGREE_DECIMALS)}°"
    else:
        off = format_number(units_from_mm(found.from_wanted, units), FINE_DECIMALS[units])
    return f"{found.check} {off if off.startswith('-') else f'+{off}'}"
