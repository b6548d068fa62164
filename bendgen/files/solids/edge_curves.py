"""Points along the edges of faces."""

import math
from dataclasses import dataclass

import numpy as np

from bendgen.files.solids.exchange import Exchange
from bendgen.files.solids.placements import Frame, frame, point
from bendgen.files.solids.spline_entities import is_spline_curve, spline_curve
from bendgen.geometry.vectors import Array, lengths

WIDEST_STEP = math.radians(6.0)  # between points of a circle
SPLINE_POINTS = 33
DEEPEST = 8  # curves within curves
CONICS = frozenset({"CIRCLE", "ELLIPSE"})
CURVES_WITHIN = frozenset({"SURFACE_CURVE", "SEAM_CURVE", "INTERSECTION_CURVE", "TRIMMED_CURVE"})


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Edge:
    """An edge: its number, those of its two vertices, points along it (n, 3) [mm], n >= 2.

    conic : whether all but the first and the last point are those of a circle or ellipse, and no approximation
    """

    number: int
    vertices: tuple[int, int]
    points: Array
    conic: bool


def edge(exchange: Exchange, number: int, mm: float) -> Edge:
    """Edge of an EDGE_CURVE."""
    arguments = exchange.arguments(number, "EDGE_CURVE")
    vertices = (arguments.reference(1), arguments.reference(2))
    first, last = (_vertex_point(exchange, vertex, mm) for vertex in vertices)
    forward = arguments.choice(4) != "F"
    ends = (first, last) if forward else (last, first)
    curve = plain_curve(exchange, arguments.reference(3))
    inner = _inner_points(exchange, curve, mm, ends)
    conic = not CONICS.isdisjoint(exchange.instance(curve))
    return Edge(number=number, vertices=vertices, points=np.vstack((first, inner, last)), conic=conic)


def _vertex_point(exchange: Exchange, number: int, mm: float) -> Array:
    return point(exchange, exchange.arguments(number, "VERTEX_POINT").reference(1), mm)


def _inner_points(exchange: Exchange, number: int, mm: float, ends: tuple[Array, Array]) -> Array:
    """Points of a curve on its way from one end to the other; none where the curve is of a kind not known."""
    instance = exchange.instance(number)
    if not CONICS.isdisjoint(instance):
        return _conic_points(exchange, number, mm, ends)
    if "LINE" in instance:
        return (0.5 * (ends[0] + ends[1]))[None]
    if is_spline_curve(instance):
        return _between(spline_curve(exchange, number, mm).sampled(SPLINE_POINTS), ends)
    return np.empty((0, 3))


def plain_curve(exchange: Exchange, number: int) -> int:
    """Curve behind others that only say where it lies or how far it goes."""
    for _ in range(DEEPEST):
        nested = next((name for name in exchange.instance(number) if name in CURVES_WITHIN), None)
        if nested is None:
            return number
        number = exchange.arguments(number, nested).reference(1)
    raise exchange.mistaken(f"#{number}", "a curve", "curves within curves without end")


def _conic_points(exchange: Exchange, number: int, mm: float, ends: tuple[Array, Array]) -> Array:
    """Points of a circle or ellipse, counter-clockwise from one end to the other; all round if they are one."""
    conic = exchange.arguments(number, "CIRCLE", "ELLIPSE")
    place = frame(exchange, conic.reference(1), mm)
    first = conic.real(2) * mm
    second = conic.real(3) * mm if "ELLIPSE" in exchange.instance(number) else first
    if not (first > 0.0 and second > 0.0):
        conic.fail("a radius greater than 0", f"{min(first, second):g}")
    begin, end = (_eccentric_angle(place, first, second, corner) for corner in ends)
    sweep = (end - begin) % (2.0 * math.pi)
    if lengths((ends[1] - ends[0])[None])[0] <= 1e-9 * first:
        sweep = 2.0 * math.pi
    count = max(1, math.ceil(sweep / WIDEST_STEP))
    angles = begin + sweep * np.arange(1, count) / count
    flat = np.stack((first * np.cos(angles), second * np.sin(angles), np.zeros(len(angles))), axis=1)
    return place.placed(flat)


def _eccentric_angle(place: Frame, first: float, second: float, corner: Array) -> float:
    x, y, _ = place.axes.T @ (corner - place.origin)
    return math.atan2(y / second, x / first)


def _between(points: Array, ends: tuple[Array, Array]) -> Array:
    """Part of a curve's points between those nearest to the ends of the edge; all of them if it is closed."""
    first, last = (int(np.argmin(lengths(points - corner))) for corner in ends)
    return points[first : last + 1] if first < last else points
