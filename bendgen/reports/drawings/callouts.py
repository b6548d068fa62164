"""Numbers in circles and words, each with a line to what it names where it could not stand beside it."""

import math
from collections.abc import Iterator, Sequence

from bendgen.geometry.vectors import Array
from bendgen.reports.drawings.labels import Box, FreeSpace
from bendgen.reports.drawings.paper import LETTERS, Ink, Place, circle, group, polyline, rectangle, words, words_width

RADIUS = 2.4  # of the circle around a number [paper mm], as all here
FAR = 4.0  # from words to what they name: from here on a line joins them
FRAME_AIR = 0.7  # between words and a frame around them
GAP = 0.8  # between a circle and the words behind it


def callout(text: str, space: FreeSpace, at: Sequence[float], *, framed: bool = False) -> Ink:
    """Words beside a place."""
    box = space.place(at, words_width(text), LETTERS + 2.0 * FRAME_AIR * framed)
    end = (min(max(at[0], box.left), box.right), min(max(at[1], box.top), box.bottom))
    far = math.dist(at, end) > FAR
    if far:
        space.draw_line(at, end)
    frame = [rectangle("outline", (box.left, box.top), (box.right, box.bottom))] * framed
    return group((*[polyline("narrow", (at, end))] * far, *frame, words(text, baseline(box))))


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


def baseline(box: Box, size: float = LETTERS) -> Place:
    """Middle of the baseline of words in a box of their height."""
    return box.centre[0], box.centre[1] + 0.36 * size
