"""Surfaces of faces, as far as a tube is made of them."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from bendgen.files.solids.edge_curves import plain_curve
from bendgen.files.solids.exchange import Arguments, Exchange
from bendgen.files.solids.placements import direction, frame, point
from bendgen.files.solids.spline_entities import is_spline_curve, is_spline_surface, spline_curve, spline_surface
from bendgen.files.solids.swept_surfaces import COLUMNS, ROWS, TubePart, part_of_grid, parts_of_spline
from bendgen.geometry.tube_axes import ArcAxis, LineAxis, TubeSurface
from bendgen.geometry.vectors import Array, lengths

DEEPEST = 4  # surfaces within surfaces
SURFACES_WITHIN = ("RECTANGULAR_TRIMMED_SURFACE", "OFFSET_SURFACE")


def tube_parts(exchange: Exchange, number: int, mm: float) -> list[TubePart]:
    """Straights and bends that a surface is, in order along it; none if it is anything else.

    References
    ----------
    [ISO2014] on the normals of surfaces
    """
    number, offset = _plain_surface(exchange, number, mm)
    parts = _parts_of_plain(exchange, number, mm)
    return _at_distance(parts, offset) if offset else parts


def _plain_surface(exchange: Exchange, number: int, mm: float) -> tuple[int, float]:
    """Surface behind others that only say how far it goes or at what distance they are from it, and that distance."""
    offset = 0.0
    for _ in range(DEEPEST):
        instance = exchange.instance(number)
        nested = next((name for name in SURFACES_WITHIN if name in instance), None)
        if nested is None:
            return number, offset
        arguments = exchange.arguments(number, nested)
        offset += arguments.real(2) * mm if nested == "OFFSET_SURFACE" else 0.0
        number = arguments.reference(1)
    raise exchange.mistaken(f"#{number}", "a surface", "surfaces within surfaces without end")


def _at_distance(parts: Sequence[TubePart], offset: float) -> list[TubePart]:
    """The same parts at a distance [mm] along the normal of their surface; none where some are not all of a face."""
    radii = [part.surface.radius + (offset if part.away else -offset) for part in parts]
    if any(part.border is not None for part in parts) or not all(radius > 0.0 for radius in radii):
        return []
    return [
        replace(part, surface=replace(part.surface, radius=radius)) for part, radius in zip(parts, radii, strict=True)
    ]


def _parts_of_plain(exchange: Exchange, number: int, mm: float) -> list[TubePart]:
    instance = exchange.instance(number)
    if "CYLINDRICAL_SURFACE" in instance:
        return [TubePart(surface=_cylinder(exchange, number, mm), away=True)]
    if "TOROIDAL_SURFACE" in instance:
        return [TubePart(surface=_torus(exchange, number, mm), away=True)]
    if is_spline_surface(instance):
        return parts_of_spline(spline_surface(exchange, number, mm))
    grid = _grid(exchange, number, mm)
    part = None if grid is None else part_of_grid(grid)
    return [] if part is None else [part]


def _cylinder(exchange: Exchange, number: int, mm: float) -> TubeSurface:
    arguments = exchange.arguments(number, "CYLINDRICAL_SURFACE")
    place = frame(exchange, arguments.reference(1), mm)
    axis = LineAxis(point=place.origin, direction=place.axes[:, 2])
    return TubeSurface(axis=axis, radius=_radius(arguments, 2) * mm)


def _torus(exchange: Exchange, number: int, mm: float) -> TubeSurface:
    arguments = exchange.arguments(number, "TOROIDAL_SURFACE")
    place = frame(exchange, arguments.reference(1), mm)
    axis = ArcAxis(centre=place.origin, normal=place.axes[:, 2], clr=_radius(arguments, 2) * mm, start=place.axes[:, 0])
    return TubeSurface(axis=axis, radius=_radius(arguments, 3) * mm)


def _radius(arguments: Arguments, index: int) -> float:
    radius = arguments.real(index)
    if not radius > 0.0:
        arguments.fail("a radius greater than 0", f"{radius:g}")
    return radius


def _grid(exchange: Exchange, number: int, mm: float) -> Array | None:
    """Points of a surface swept from a curve, at ROWS and COLUMNS parameters; None for surfaces that are no tube's."""
    instance = exchange.instance(number)
    if "SURFACE_OF_REVOLUTION" in instance:
        return _revolved(exchange, number, mm)
    return _extruded(exchange, number, mm) if "SURFACE_OF_LINEAR_EXTRUSION" in instance else None


def _revolved(exchange: Exchange, number: int, mm: float) -> Array | None:
    """Grid of a SURFACE_OF_REVOLUTION: u turns about the axis, v follows the curve."""
    arguments = exchange.arguments(number, "SURFACE_OF_REVOLUTION")
    axis = exchange.arguments(arguments.reference(2), "AXIS1_PLACEMENT")
    origin = point(exchange, axis.reference(1), mm)
    along = np.array([0.0, 0.0, 1.0]) if axis.value(2) is None else direction(exchange, axis.reference(2))
    curve = _curve_points(exchange, arguments.reference(1), mm)
    if curve is None:
        return None
    offsets = curve - origin
    on_axis = (offsets @ along)[:, None] * along
    across = offsets - on_axis
    turned = np.cross(along, across)
    angles = np.linspace(0.0, 2.0 * math.pi, ROWS)[:, None, None]
    grid: Array = origin + on_axis + np.cos(angles) * across + np.sin(angles) * turned
    return grid


def _extruded(exchange: Exchange, number: int, mm: float) -> Array | None:
    """Grid of a SURFACE_OF_LINEAR_EXTRUSION: u follows the curve, v the vector."""
    arguments = exchange.arguments(number, "SURFACE_OF_LINEAR_EXTRUSION")
    vector = exchange.arguments(arguments.reference(2), "VECTOR")
    curve = _curve_points(exchange, arguments.reference(1), mm)
    if curve is None:
        return None
    length = max(vector.real(2) * mm, float(lengths(curve - curve[0]).max()))
    steps = np.linspace(0.0, length, ROWS)[:, None, None] * direction(exchange, vector.reference(1))
    return (curve + steps).swapaxes(0, 1)


def _curve_points(exchange: Exchange, number: int, mm: float) -> Array | None:
    """COLUMNS points of the curve that a surface is swept from."""
    number = plain_curve(exchange, number)
    instance = exchange.instance(number)
    if is_spline_curve(instance):
        return spline_curve(exchange, number, mm).sampled(COLUMNS)
    if "LINE" in instance:
        line = exchange.arguments(number, "LINE")
        vector = exchange.arguments(line.reference(2), "VECTOR")
        step = direction(exchange, vector.reference(1)) * vector.real(2) * mm
        return point(exchange, line.reference(1), mm) + np.linspace(0.0, 1.0, COLUMNS)[:, None] * step
    if "CIRCLE" not in instance:
        return None
    circle = exchange.arguments(number, "CIRCLE")
    place = frame(exchange, circle.reference(1), mm)
    angles = np.linspace(0.0, 2.0 * math.pi, COLUMNS)
    flat = np.stack((np.cos(angles), np.sin(angles), np.zeros(COLUMNS)), axis=1)
    return place.placed(flat * _radius(circle, 2) * mm)
