"""Lines, arcs and curves of a DXF drawing in the plane of each, as pieces in space."""

from collections.abc import Iterator
from itertools import islice
from typing import Any

import numpy as np

from bendgen.files.drawings.pieces import Piece, arc, curve, line
from bendgen.geometry.vectors import Array, lengths

NO_LENGTH = 1e-6  # mm; what is shorter has no direction
CURVE_NEAR = 1e-3  # mm; chords lie no farther off a curve than this
MOST_POINTS = 100_000  # of one curve: 100 m of it on the tightest CLR take no more
NO_TURN = np.radians(0.1)  # an arc that turns less, and lies within CURVE_NEAR of its chord, is a line drawn as one
ROUND = 1e-9  # share of its longer axis by which an ellipse may be no circle
CONTROL_POINT = 16  # flag of a vertex that steers a polyline and does not lie on it

Entity = Any  # of a library without types of its own that this file could name


def pieces_of_entity(entity: Entity, mm: float) -> Iterator[Piece]:
    """Pieces of a line, an arc, a polyline or a spline; mm: of one unit of the drawing."""
    kind = entity.dxftype()
    if kind in ("LWPOLYLINE", "POLYLINE"):
        for part in _parts(entity):
            yield from pieces_of_entity(part, mm)
    elif kind == "LINE":
        yield from _line(*(mm * np.array(place.xyz) for place in (entity.dxf.start, entity.dxf.end)))
    elif kind in ("ARC", "CIRCLE"):
        yield from _arc(entity, mm)
    elif kind == "ELLIPSE" and abs(entity.dxf.ratio - 1.0) <= ROUND:
        yield from _round_ellipse(entity, mm)
    else:
        near = islice(entity.flattening(CURVE_NEAR / mm), MOST_POINTS)
        points = mm * np.array([place.xyz for place in near])
        if len(points) == MOST_POINTS:
            raise ValueError(f"a curve of {MOST_POINTS:,} chords and more")
        apart = np.concatenate(([True], ~(lengths(np.diff(points, axis=0)) <= NO_LENGTH)))
        if apart.sum() > 1:
            yield curve(points[apart])


def _parts(polyline: Entity) -> Iterator[Entity]:
    """Lines and arcs of a polyline without the points that only steer it, which the library would join as well."""
    if polyline.dxftype() == "POLYLINE":
        polyline.vertices[:] = [vertex for vertex in polyline.vertices if not vertex.dxf.flags & CONTROL_POINT]
    yield from polyline.virtual_entities()


def _line(start: Array, end: Array) -> Iterator[Piece]:
    if not np.linalg.norm(end - start) <= NO_LENGTH:  # true of what is no number, too: that is refused later
        yield line(start, end)


def _arc(entity: Entity, mm: float) -> Iterator[Piece]:
    """Arc of an entity, which lies in a plane of its own and runs counterclockwise about that plane's normal."""
    plane = entity.ocs()
    first, last = (entity.dxf.start_angle, entity.dxf.end_angle) if entity.dxftype() == "ARC" else (0.0, 360.0)
    swept = (last - first) % 360.0 or 360.0
    centre = np.array(entity.dxf.center.xyz)
    outward = entity.dxf.radius * np.array([np.cos(np.radians(first)), np.sin(np.radians(first)), 0.0])
    normal = np.array(plane.to_wcs((0.0, 0.0, 1.0)).xyz)
    return _swept(_in_space(plane, centre + outward, mm), _in_space(plane, centre, mm), normal, np.radians(swept))


def _round_ellipse(entity: Entity, mm: float) -> Iterator[Piece]:
    """Arc of an ellipse with equal axes, as circles are written that lie askew."""
    swept = (entity.dxf.end_param - entity.dxf.start_param) % (2.0 * np.pi) or 2.0 * np.pi
    start, centre = (mm * np.array(place.xyz) for place in (entity.start_point, entity.dxf.center))
    normal = np.array(entity.dxf.extrusion.normalize().xyz)
    return _swept(start, centre, normal, swept)


def _swept(start: Array, centre: Array, normal: Array, angle: float) -> Iterator[Piece]:
    """Arc, or the line that it is meant to be, or nothing where it has no length."""
    radius = float(np.linalg.norm(start - centre))
    if radius <= NO_LENGTH:
        return
    piece = arc(start, centre, normal, float(angle))
    if angle <= NO_TURN and radius * (1.0 - np.cos(0.5 * angle)) <= CURVE_NEAR:
        yield from _line(piece.points[0], piece.points[-1])
    else:
        yield piece


def _in_space(plane: Entity, place: Array, mm: float) -> Array:
    return mm * np.array(plane.to_wcs(tuple(place.tolist())).xyz)
