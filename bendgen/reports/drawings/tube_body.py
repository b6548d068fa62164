"""A tube as it is seen: its outline, with the nearer piece drawn over the farther where they cross.

In a parallel projection the outline of a round tube lies half an outside diameter beside the axis, so a broad black
line with a slightly narrower white one on it draws the tube. A tube too thin for two outlines is drawn as one line.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import htpy
import numpy as np
from htpy import Element

from bendgen.geometry.vectors import Array, lengths
from bendgen.reports.drawings.paper import LINE_KINDS, WIDE, number, path_data
from bendgen.reports.drawings.views import View

THINNEST_BODY = 1.4  # paper mm over which two outlines can be told apart
LINE = 0.8  # width of a tube drawn as one line
GAP = 0.6  # white at either side of the nearer of two lines that cross
EDGE_ON = 0.02  # an end that faces the reader less than this is seen as a line
MOST_SAMPLES = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """One of the two lines, laid on each other, that make a tube [paper mm]."""

    width: float
    colour: str


def tube_body(points: Array, od: float, view: View) -> list[Element]:
    """Elements that show a tube along (k, 3) points of its axis."""
    width = od * view.scale
    if width < THINNEST_BODY:
        strokes = (Stroke(width=LINE + 2.0 * GAP, colour="white"), Stroke(width=LINE, colour="black"))
        ends: tuple[list[Element], list[Element]] = ([], [])
    else:
        strokes = (Stroke(width=width, colour="black"), Stroke(width=width - 2.0 * WIDE, colour="white"))
        ends = _open_ends(points, od, view)
    places = view.places(points)
    body = [_drawn(places, stroke) for stroke in strokes]
    return [*ends[0], *body, *ends[1], *_crossings(points, view, strokes)]


def _drawn(places: Array, stroke: Stroke) -> Element:
    attributes = {"d": path_data(places), "fill": "none", "stroke": stroke.colour, "stroke-linejoin": "round"}
    return htpy.path({**attributes, "stroke-width": number(stroke.width)})


def _crossings(points: Array, view: View, strokes: tuple[Stroke, Stroke]) -> Iterator[Element]:
    """The nearer pieces once more, the nearest last."""
    broadest = strokes[0].width
    samples = _evenly(points, 0.6 * broadest / view.scale)
    places = view.places(samples)
    runs = _runs(_lies_over(samples, view, broadest / view.scale))
    nearness = view.nearness(samples)
    for first, last in sorted(runs, key=lambda run: float(nearness[run[0] : run[1]].mean())):
        # The upper stroke goes on a little, so that the lower one's ends do not show.
        yield _drawn(places[max(0, first - 1) : last + 1], strokes[0])
        yield _drawn(places[max(0, first - 3) : last + 3], strokes[1])


def _lies_over(samples: Array, view: View, breadth: float) -> Array:
    """Whether each sample hides another piece of the tube, a (k,) array of bool; breadth: of what is drawn [mm]."""
    flat = np.stack((samples @ view.right, samples @ view.up), axis=1)
    apart = np.square(flat[:, None, :] - flat[None, :, :]).sum(axis=2)
    way = np.concatenate(([0.0], np.cumsum(lengths(np.diff(samples, axis=0)))))
    elsewhere = np.abs(way[:, None] - way[None, :]) > 3.0 * breadth
    nearness = view.nearness(samples)
    nearer = nearness[:, None] - nearness[None, :] > 0.25 * breadth
    over: Array = ((apart < breadth * breadth) & elsewhere & nearer).any(axis=1)
    return over


def _evenly(points: Array, spacing: float) -> Array:
    """Points along a path at about equal distances, the corners of the path among them."""
    steps = lengths(np.diff(points, axis=0))
    spacing = max(spacing, float(steps.sum()) / MOST_SAMPLES)
    pieces = np.maximum(1, np.ceil(steps / spacing)).astype(int)
    corners = np.concatenate(([0], np.cumsum(pieces)))
    at = np.arange(corners[-1] + 1)
    return np.stack([np.interp(at, corners, points[:, axis]) for axis in range(3)], axis=1)


def _runs(flags: Array) -> Iterator[tuple[int, int]]:
    """First and one past the last row of every run of flagged rows."""
    changes = np.flatnonzero(np.diff(np.concatenate(([0], flags.astype(int), [0]))))
    yield from zip(changes[::2].tolist(), changes[1::2].tolist(), strict=True)


def _open_ends(points: Array, od: float, view: View) -> tuple[list[Element], list[Element]]:
    """Discs of the ends: those that face away, to be drawn before the tube, and those that face the reader."""
    under: list[Element] = []
    on_top: list[Element] = []
    for end, inside in ((points[0], points[1]), (points[-1], points[-2])):
        outward = (end - inside) / np.linalg.norm(end - inside)
        facing = float(outward @ np.cross(view.right, view.up))
        (under if facing < -EDGE_ON else on_top).append(_end_disc(end, outward, od, view))
    return under, on_top


def _end_disc(end: Array, outward: Array, od: float, view: View) -> Element:
    x, y = view.places(end[None])[0].tolist()
    across, above = float(outward @ view.right), float(outward @ view.up)
    radius = 0.5 * od * view.scale - 0.5 * WIDE
    # Seen aslant a disc is an ellipse, short along the tube; one of no width at all would not be drawn.
    short = max(0.01, radius * math.sqrt(max(0.0, 1.0 - across * across - above * above)))
    turned = math.degrees(math.atan2(-above, across))
    return htpy.ellipse(
        {
            "cx": "0",
            "cy": "0",
            "rx": number(short),
            "ry": number(radius),
            "transform": f"translate({number(x)} {number(y)}) rotate({number(turned)})",
            **LINE_KINDS["outline"],
            "fill": "white",
        }
    )
