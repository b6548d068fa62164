"""Lines, arcs and curves of a DXF drawing in the plane of each, as pieces in space."""

from collections import Counter
from collections.abc import Iterator
from typing import Any

import numpy as np

from bendgen.files.drawings.pieces import Piece, arc, curve, line
from bendgen.geometry.vectors import Array, lengths

NO_LENGTH = 1e-6  # mm; what is shorter has no direction
CURVE_NEAR = 1e-3  # mm; chords lie no farther off a curve than this
POLYLINES = frozenset({"LWPOLYLINE", "POLYLINE"})
CURVES = frozenset({"LINE", "ARC", "CIRCLE", "SPLINE", "ELLIPSE", *POLYLINES})

Entity = Any  # of a library without types of its own that this file could name


def pieces_of_entity(entity: Entity, mm: float) -> Iterator[Piece]:
    """Pieces of a line, an arc, a polyline or a spline; mm: of one unit of the drawing."""
    kind = entity.dxftype()
    if kind in POLYLINES:
        for part in entity.virtual_entities():
            yield from pieces_of_entity(part, mm)
    elif kind == "LINE":
        start, end = (mm * np.array(place.xyz) for place in (entity.dxf.start, entity.dxf.end))
        if np.linalg.norm(end - start) > NO_LENGTH:
            yield line(start, end)
    elif kind in ("ARC", "CIRCLE"):
        yield _arc(entity, mm)
    else:
        points = mm * np.array([place.xyz for place in entity.flattening(CURVE_NEAR / mm)])
        apart = np.concatenate(([True], lengths(np.diff(points, axis=0)) > NO_LENGTH))
        if apart.sum() > 1:
            yield curve(points[apart])


def _arc(entity: Entity, mm: float) -> Piece:
    """Arc of an entity, which lies in a plane of its own and runs counterclockwise about that plane's normal."""
    plane = entity.ocs()
    first, last = (entity.dxf.start_angle, entity.dxf.end_angle) if entity.dxftype() == "ARC" else (0.0, 360.0)
    swept = (last - first) % 360.0 or 360.0
    centre = np.array(entity.dxf.center.xyz)
    outward = entity.dxf.radius * np.array([np.cos(np.radians(first)), np.sin(np.radians(first)), 0.0])
    normal = np.array(plane.to_wcs((0.0, 0.0, 1.0)).xyz)
    return arc(_in_space(plane, centre + outward, mm), _in_space(plane, centre, mm), normal, float(np.radians(swept)))


def _in_space(plane: Entity, place: Array, mm: float) -> Array:
    return mm * np.array(plane.to_wcs(tuple(place.tolist())).xyz)


def passed_over(entities: list[Entity]) -> tuple[str, ...]:
    """What of a drawing is no line or curve, by kind and number."""
    kinds = Counter(entity.dxftype() for entity in entities if entity.dxftype() not in CURVES)
    return tuple(f"{kind}: {count}, no line or curve" for kind, count in sorted(kinds.items()))
