"""A tube as it is seen: its outline, with the nearer piece drawn over the farther where they cross.

In a parallel projection the outline of a round tube lies half an outside diameter beside the axis, so a broad black
line with a slightly narrower white one on it draws the tube. A tube too thin for two outlines is drawn as one line.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bendgen.geometry.vectors import Array, lengths, unit
from bendgen.reports.drawings.paper import WIDE, Ink, broad_line, ellipse
from bendgen.reports.drawings.views import View

THINNEST_BODY = 1.4  # paper mm over which two outlines can be told apart
LINE = 0.8  # width of a tube drawn as one line
GAP = 0.4  # white at either side of the nearer of two lines that cross
EDGE_ON = 0.02  # an end that faces the reader less than this is seen as a line
SPACING = 0.8  # of the places at which crossings are looked for, over the breadth of what is drawn
MOST_SAMPLES = 250


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """One of the two lines, laid on each other, that make a tube [paper mm]."""

    width: float
    colour: str


def tube_body(points: Array, od: float, view: View) -> list[Ink]:
    """Elements that show a tube along (k, 3) points of its axis."""
    width = od * view.scale
    if width < THINNEST_BODY:
        strokes = (Stroke(width=LINE + 2.0 * GAP, colour="white"), Stroke(width=LINE, colour="black"))
        ends: tuple[list[Ink], list[Ink]] = ([], [])
    else:
        strokes = (Stroke(width=width, colour="black"), Stroke(width=width - 2.0 * WIDE, colour="white"))
        ends = _open_ends(points, od, view)
    places = view.places(points)
    body = [broad_line(places, stroke.width, stroke.colour) for stroke in strokes]
    return [*ends[0], *body, *ends[1], *_crossings(points, view, strokes)]


def _crossings(points: Array, view: View, strokes: tuple[Stroke, Stroke]) -> Iterator[Ink]:
    """The nearer pieces once more, the nearest last."""
    inked = max(stroke.width for stroke in strokes if stroke.colour == "black") / view.scale
    samples = _evenly(points, SPACING * inked)
    places = view.places(samples)
    runs = _runs(_lies_over(samples, view, inked))
    nearness = view.nearness(samples)
    for first, last in sorted(runs, key=lambda run: float(nearness[run[0] : run[1]].mean())):
        # The upper stroke goes on a little, so that the lower one's ends do not show.
        for beyond, stroke in zip((1, 3), strokes, strict=True):
            yield broad_line(places[max(0, first - beyond) : last + beyond], stroke.width, stroke.colour)


def _lies_over(samples: Array, view: View, breadth: float) -> NDArray[np.bool_]:
    """Whether each sample hides another piece of a tube drawn so broad [mm], a (k,) array.

    Another piece is one that the tube comes to after it has left the neighbourhood of the first: a straight that runs
    towards the reader hides itself and no other.
    """
    x, y = samples @ view.right, samples @ view.up
    apart = np.square(x[:, None] - x) + np.square(y[:, None] - y)
    has_left = np.maximum.accumulate(np.triu(apart > 2.0 * breadth * breadth), axis=1)
    nearness = view.nearness(samples)
    is_nearer = nearness[:, None] - nearness > 0.25 * breadth
    hides = (apart < breadth * breadth) & (has_left | has_left.T) & is_nearer
    return np.asarray(hides.any(axis=1), dtype=bool)


def _evenly(points: Array, spacing: float) -> Array:
    """Points along a path at about equal distances, the corners of the path among them."""
    steps = lengths(np.diff(points, axis=0))
    spacing = max(spacing, float(steps.sum()) / MOST_SAMPLES)
    pieces = np.maximum(1, np.ceil(steps / spacing)).astype(int)
    corners = np.concatenate(([0], np.cumsum(pieces)))
    at = np.arange(corners[-1] + 1)
    return np.stack([np.interp(at, corners, points[:, axis]) for axis in range(3)], axis=1)


def _runs(flags: NDArray[np.bool_]) -> Iterator[tuple[int, int]]:
    """First and one past the last row of every run of flagged rows."""
    changes = np.flatnonzero(np.diff(np.concatenate(([0], flags.astype(int), [0]))))
    yield from zip(changes[::2].tolist(), changes[1::2].tolist(), strict=True)


def _open_ends(points: Array, od: float, view: View) -> tuple[list[Ink], list[Ink]]:
    """Discs of the ends: those that face away, to be drawn before the tube, and those that face the reader."""
    under: list[Ink] = []
    on_top: list[Ink] = []
    for end, inside in ((points[0], points[1]), (points[-1], points[-2])):
        outward = unit(end - inside)
        facing = float(outward @ view.towards_reader())
        (under if facing < -EDGE_ON else on_top).append(_end_disc(end, outward, od, view))
    return under, on_top


def _end_disc(end: Array, outward: Array, od: float, view: View) -> Ink:
    x, y = view.places(end[None])[0].tolist()
    across, above = float(outward @ view.right), float(outward @ view.up)
    radius = 0.5 * od * view.scale - 0.5 * WIDE
    # Seen aslant a disc is an ellipse, short along the tube; one of no width at all would not be drawn.
    short = max(0.01, radius * math.sqrt(max(0.0, 1.0 - across * across - above * above)))
    return ellipse("outline", (x, y), (short, radius), math.degrees(math.atan2(-above, across)))
