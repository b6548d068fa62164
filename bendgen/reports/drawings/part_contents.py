"""What stands in the views of a part; paper millimetres but for the part itself."""

from collections.abc import Iterator, Sequence

import numpy as np

from bendgen.records.bend_program import BendProgram
from bendgen.reports.drawings.axes import Axis
from bendgen.reports.drawings.callouts import balloon, callout, end_names
from bendgen.reports.drawings.dimensions import level_dimension, upright_dimension
from bendgen.reports.drawings.labels import Box, FreeSpace, inked
from bendgen.reports.drawings.lengths import length_words
from bendgen.reports.drawings.paper import (
    LETTERS,
    LINE_PITCH,
    TOP_TO_BASELINE,
    Ink,
    dot,
    group,
    polyline,
    words,
    words_width,
)
from bendgen.reports.drawings.part_layout import Panel
from bendgen.reports.drawings.tube_body import tube_body
from bendgen.reports.sheet.numbers import SheetNumbers, numbers_of_machine

DIMENSION_OFF = 7.0  # from a view to its dimension line
THINNEST_WITH_CENTRELINE = 2.2  # width of a tube
HIGHER = 6.0  # than a view the figures beside it may be
FIGURES = 5.5  # height that figures take above a dimension line


def true_view(program: BendProgram, axis: Axis, panel: Panel, title: str) -> Iterator[Ink]:
    """Tube, centreline with its vertices, numbers of the bends, and the box dimensioned over the outside."""
    space, numbers = _space(program, axis, panel), numbers_of_machine(program.profile)
    yield from _tube(program, axis, panel)
    yield from _sizes(axis, panel, (title, numbers), space)
    for number, middle in enumerate(panel.view.places(axis.bend_middles).tolist(), start=1):
        yield balloon(number, space, middle)
    yield from end_names(panel.view.places(axis.points[[0, -1]]), space)


def oblique_view(program: BendProgram, axis: Axis, panel: Panel, numbers: SheetNumbers | None) -> Iterator[Ink]:
    """Tube and numbers of the bends; with `numbers` the angle of every bend and the length of every straight too."""
    space = _space(program, axis, panel)
    yield from _title(["oblique view"], panel, space)
    yield from _tube(program, axis, panel)
    middles = panel.view.places(axis.bend_middles).tolist()
    for number, (middle, bend) in enumerate(zip(middles, program.finished.bends, strict=True), start=1):
        yield balloon(number, space, middle, "" if numbers is None else f"{numbers.angle(bend.angle_deg)}°")
    if numbers is not None:
        straights = zip(panel.view.places(axis.straight_middles).tolist(), program.finished.straights, strict=True)
        for middle, straight in straights:
            yield callout(length_words(straight, numbers), space, middle)
    yield from end_names(panel.view.places(axis.points[[0, -1]]), space)


def _space(program: BendProgram, axis: Axis, panel: Panel) -> FreeSpace:
    """Room for words beside the tube."""
    return FreeSpace(panel.frame, inked(panel.view.places(axis.points)), 0.5 * program.part.tube.od * panel.view.scale)


def _title(lines: Sequence[str], panel: Panel, space: FreeSpace) -> Iterator[Ink]:
    """What is seen, in lines from the top left corner on; words keep off."""
    left, top = panel.frame.left + 1.0, panel.frame.top + 1.0
    for line in lines:
        space.block(Box(left=left, top=top, right=left + words_width(line), bottom=top + LETTERS))
        yield words(line, (left, top + TOP_TO_BASELINE), anchor="start")
        top += LINE_PITCH


def _tube(program: BendProgram, axis: Axis, panel: Panel) -> Iterator[Ink]:
    """The tube, its vertices, and over it the centreline where there is room for one between its outlines."""
    od = program.part.tube.od
    yield group(tube_body(axis.points, od, panel.view), class_="tube")
    places = panel.view.places(axis.corners)
    if od * panel.view.scale > THINNEST_WITH_CENTRELINE:
        yield polyline("axis", places)
    for number, place in zip(axis.vertices.tolist(), places.tolist(), strict=True):
        if number:
            yield dot(place, data_vertex=str(number))


def _sizes(axis: Axis, panel: Panel, named: tuple[str, SheetNumbers], space: FreeSpace) -> Iterator[Ink]:
    """Title, width below the view and height left of it; a size whose figures have no room there joins the title."""
    title, numbers = named
    across, upwards = (length_words(size, numbers) for size in _seen_size(axis, panel))
    seen = _seen_box(axis, panel)
    is_wide, is_high = (
        words_width(across) + 2.0 < seen.right - seen.left,
        words_width(upwards) < seen.bottom - seen.top + HIGHER,
    )
    yield from _title([title, *[f"{across} wide"] * (not is_wide), *[f"{upwards} high"] * (not is_high)], panel, space)
    if is_wide:
        yield from _width_dimension(across, seen, space)
    if is_high:
        yield from _height_dimension(upwards, seen, space)


def _seen_box(axis: Axis, panel: Panel) -> Box:
    """The part's box, over the outside, in a true view."""
    corners = panel.view.places(np.array([axis.low, axis.high]))
    (left, top), (right, bottom) = corners.min(axis=0).tolist(), corners.max(axis=0).tolist()
    return Box(left=left, top=top, right=right, bottom=bottom)


def _width_dimension(figures: str, seen: Box, space: FreeSpace) -> Iterator[Ink]:
    """Dimension below a view; words keep off."""
    y, middle = seen.bottom + DIMENSION_OFF, seen.centre[0]
    half = 0.5 * max(words_width(figures), seen.right - seen.left)
    space.block(Box(left=middle - half, top=y - FIGURES, right=middle + half, bottom=y + 1.0))
    return level_dimension(figures, (seen.left, seen.bottom), (seen.right, seen.bottom), y)


def _height_dimension(figures: str, seen: Box, space: FreeSpace) -> Iterator[Ink]:
    """Dimension left of a view; words keep off."""
    x, middle = seen.left - DIMENSION_OFF, seen.centre[1]
    half = 0.5 * max(words_width(figures), seen.bottom - seen.top)
    space.block(Box(left=x - FIGURES, top=middle - half, right=x + 1.0, bottom=middle + half))
    return upright_dimension(figures, (seen.left, seen.top), (seen.left, seen.bottom), x)


def _seen_size(axis: Axis, panel: Panel) -> tuple[float, float]:
    """Width and height of the part's box in a true view, over the outside [mm]."""
    size, seen = axis.high - axis.low, panel.directions
    return float(size @ np.abs(seen.right)), float(size @ np.abs(seen.up))
