"""A measured piece: its shape beside the wanted one, and what it is off, written where it is off.

The wanted part is drawn as a tube. Over it, as ISO 128 draws an alternative position (from memory), goes the axis of
the measured piece: laid on the wanted one by a best fit that cannot mirror, and then what is left between the two made
larger by a factor that the drawing states. What is out of tolerance is written in bold.
"""

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence

import numpy as np
from htpy import Element

from bendgen.geometry.vectors import Array, lengths
from bendgen.records.comparison import Comparison, Deviation
from bendgen.records.foretold import Foretold
from bendgen.reports.drawings.axes import Axis, axis_of_tube
from bendgen.reports.drawings.callouts import balloon, callout, callout_of_lines, end_names
from bendgen.reports.drawings.labels import Box, FreeSpace, inked
from bendgen.reports.drawings.paper import Ink, drawing, group, polyline, words
from bendgen.reports.drawings.tube_body import tube_body
from bendgen.reports.drawings.view_directions import oblique_directions, true_directions
from bendgen.reports.drawings.views import View, fitting_view
from bendgen.units import FINE_DECIMALS, UNIT_NAMES, Units, format_number, units_from_mm

WIDTH, HEIGHT = 186.0, 119.0  # [paper mm], as all here
FRAME = Box(left=1.0, top=1.0, right=185.0, bottom=101.0)
ROOM = Box(left=42.0, top=20.0, right=144.0, bottom=82.0)  # of it for the part itself
FURTHEST = 14.0  # that the measured shape is drawn beside the wanted one
FACTORS = (1, 2, 5, 10, 20, 50, 100)
MOST_WORDS = 24  # deviations for which there is room
OF_BEND, OF_STRAIGHT = re.compile(r"(?:angle|rotation)-([0-9]+)"), re.compile(r"straight-([0-9]+)")
OF_LEG = re.compile(r".*leg-(front|rear)")
DEGREE_DECIMALS = 2
ONLY_THE_LARGEST = " Only the largest, by their tolerances."

Placed = tuple[tuple[float, float, float], Deviation]


def deviation_drawing(foretold: Foretold, comparison: Comparison) -> Element:
    """The part seen aslant, the measured shape beside it, and deviations where they are: all, or the largest."""
    od = foretold.tube.od
    axis = axis_of_tube(foretold.wanted_tube, foretold.wanted, od)
    made = axis_of_tube(comparison.made, foretold.wanted, od)
    seen = oblique_directions(axis, true_directions(axis)[0])
    view = fitting_view((seen.right, seen.up), axis.points, ROOM, 0.5 * od)
    factor = _factor(made.points - axis.points, view)
    shifted = axis.points + factor * (made.points - axis.points)
    ink = np.concatenate((inked(view.places(axis.points)), inked(view.places(shifted))))
    space = FreeSpace(FRAME, ink, 0.5 * od * view.scale)
    placed = [(place, found) for found in comparison.deviations if (place := _place(found, axis)) is not None]
    shown = sorted(placed, key=lambda pair: -abs(pair[1].from_wanted) / pair[1].tolerance)[:MOST_WORDS]
    pieces = [
        group(tube_body(axis.points, od, view), class_="tube"),
        _measured_shape(shifted, view, factor),
        *(balloon(i, space, place) for i, place in enumerate(view.places(axis.bend_middles).tolist(), start=1)),
        *end_names(view.places(axis.points[[0, -1]]), space),
        _name_of_shape(axis.points, shifted, view, space),
        *(
            callout_of_lines(lines, space, view.place(*place))
            for place, lines in _lines_by_place(shown, foretold.units).items()
        ),
        *_notes(factor, foretold.units, is_partial=len(shown) < len(placed)),
    ]
    return drawing(WIDTH, HEIGHT, "What the measured piece is off the wanted part, place by place", pieces)


def _factor(off: Array, view: View) -> int:
    """The largest of FACTORS that keeps the measured shape within FURTHEST of the wanted one."""
    worst = float(lengths(off).max()) * view.scale
    return max((factor for factor in FACTORS if factor * worst <= FURTHEST), default=FACTORS[0])


def _measured_shape(points: Array, view: View, factor: int) -> Ink:
    """Its axis, ready to be read back."""
    line = polyline("alternative", view.places(points))
    return group((line,), class_="measured", data_factor=str(factor), **view.attributes())


def _name_of_shape(wanted: Array, shifted: Array, view: View, space: FreeSpace) -> Ink:
    """Its name where it lies farthest off the wanted one."""
    worst = int(lengths(shifted - wanted).argmax())
    return callout("measured", space, view.places(shifted[worst : worst + 1])[0].tolist())


def _notes(factor: int, units: Units, *, is_partial: bool) -> Sequence[Ink]:
    """What is drawn, and what the figures are."""
    times = "at its true place" if factor == 1 else f"{factor} times as far off as it is"
    notes = (
        "Tube: wanted. Line of dashes and two dots: axis of the measured piece.",
        f"It is laid on the wanted one by a best fit, and drawn {times}.",
        f"Measured less wanted; lengths in {UNIT_NAMES[units]}.{ONLY_THE_LARGEST * is_partial}",
    )
    return [words(note, (1.0, HEIGHT - 13.0 + 5.5 * i), anchor="start") for i, note in enumerate(notes)]


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
