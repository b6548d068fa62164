"""Numbers in circles and words, each with a line to what it names where it could not stand beside it."""

import math
from collections.abc import Iterator, Sequence

from bendgen.geometry.vectors import Array
from bendgen.reports.drawings.labels import Box, FreeSpace
from bendgen.reports.drawings.paper import (
    LETTERS,
    LINE_PITCH,
    MIDDLE_TO_BASELINE,
    TOP_TO_BASELINE,
    Ink,
    Place,
    circle,
    group,
    polyline,
    words,
    words_width,
)

RADIUS = 2.4  # of the circle around a number [paper mm], as all here
FAR = 4.0  # from words to what they name: from here on a line joins them
GAP = 0.8  # between a circle and the words behind it


def callout(text: str, space: FreeSpace, at: Sequence[float]) -> Ink:
    """Words beside a place."""
    return callout_of_lines([(text, False)], space, at)


def callout_of_lines(lines: Sequence[tuple[str, bool]], space: FreeSpace, at: Sequence[float]) -> Ink:
    """Lines of words beside a place, each with whether it is bold."""
    box = space.place(at, max(words_width(text) for text, _ in lines), LETTERS + LINE_PITCH * (len(lines) - 1))
    end = (min(max(at[0], box.left), box.right), min(max(at[1], box.top), box.bottom))
    leader = []
    if math.dist(at, end) > FAR:
        space.draw_line(at, end)
        leader.append(polyline("narrow", (at, end)))
    x, y = box.centre[0], box.top + TOP_TO_BASELINE
    return group((*leader, *(words(text, (x, y + LINE_PITCH * i), bold=bold) for i, (text, bold) in enumerate(lines))))


def balloon(number: int, space: FreeSpace, at: Sequence[float], text: str = "", *, now: bool = False) -> Ink:
    """Number in a circle with a line to its place, and words behind it; `now`: white on black."""
    behind = GAP + words_width(text) if text else 0.0
    box = space.place(at, 2.0 * RADIUS + behind, 2.0 * RADIUS)
    centre = (box.left + RADIUS, box.centre[1])
    ring = Box(left=box.left, top=box.top, right=box.left + 2.0 * RADIUS, bottom=box.bottom)
    after = [words(text, (ring.right + GAP, baseline(box)[1]), anchor="start")] if text else []
    return group(
        (
            polyline("narrow", (at, _edge(at, box, centre))),
            circle("narrow", centre, RADIUS, "black" if now else "white"),
            group((words(str(number), baseline(ring), bold=True),), fill="white" if now else "black"),
            *after,
        )
    )


def end_names(places: Array, space: FreeSpace) -> Iterator[Ink]:
    """Which end is which, at the (2, 2) places of the front and the rear end."""
    for name, place in zip(("front", "rear"), places.tolist(), strict=True):
        yield callout(name, space, place)


def _edge(at: Sequence[float], box: Box, centre: Place) -> Place:
    """Where a line from a place meets a box: the circle's middle, or the words if they are nearer."""
    if at[0] <= centre[0]:
        return centre
    return min(max(at[0], box.left), box.right), min(max(at[1], box.top), box.bottom)


def baseline(box: Box) -> Place:
    """Middle of the baseline of words in a box of their height."""
    return box.centre[0], box.centre[1] + MIDDLE_TO_BASELINE
