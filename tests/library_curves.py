"""Curves of a drawing by the drawing library's own points, and those that are read of it, as chords to be compared."""

import math
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from ezdxf.math import ConstructionArc, Matrix44, Vec3, bulge_to_arc

from bendgen.files.drawings.dxf_pieces import pieces_of_entity
from bendgen.files.drawings.pieces import Piece
from bendgen.geometry.vectors import Array

FLAT = 1e-4  # how far the library's chords lie off its curves
SAMPLES = 40  # points looked at on each side
Entity = Any  # of a library without types that could be named here


def segments_of_library(entity: Entity, matrix: Matrix44 | None = None) -> Array:
    """(n, 2, 3) chords of the library's own points of an entity, laid into place by one of its matrices."""
    flat = [list(points if matrix is None else matrix.transform_vertices(points)) for points in curves_of(entity)]
    arrays = [np.array([point.xyz for point in points]) for points in flat]
    return np.vstack([np.stack((points[:-1], points[1:]), axis=1) for points in arrays])


def curves_of(entity: Entity) -> Iterator[list[Vec3]]:
    """Points so close that the library's chords lie on its curves."""
    match entity.dxftype():
        case "LINE":
            yield [entity.dxf.start, entity.dxf.end]
        case "SPLINE":
            yield list(entity.construction_tool().approximate(1500))
        case "LWPOLYLINE" | "POLYLINE":
            yield from curves_of_polyline(entity)
        case _:
            yield list(entity.flattening(FLAT))


def curves_of_polyline(entity: Entity) -> Iterator[list[Vec3]]:
    """Each stretch of a polyline by the library's arithmetic of bulges."""
    corners, bulges = corners_of(entity)
    following = [*corners[1:], *corners[:1]] if entity.is_closed else corners[1:]
    for start, end, bulge in zip(corners, following, bulges, strict=False):
        if bulge:
            centre, first, last, radius = bulge_to_arc(start, end, bulge)
            arc = ConstructionArc(centre, radius, math.degrees(first), math.degrees(last))
            flat = [Vec3(point.x, point.y, start.z) for point in arc.flattening(FLAT)]
        else:
            flat = [start, end]
        yield (
            flat if entity.dxftype() == "POLYLINE" and entity.is_3d_polyline else list(entity.ocs().points_to_wcs(flat))
        )


def corners_of(entity: Entity) -> tuple[list[Vec3], list[float]]:
    if entity.dxftype() == "LWPOLYLINE":
        rows = entity.get_points("xyb")
        return [Vec3(x, y, entity.dxf.elevation) for x, y, _ in rows], [bulge for _, _, bulge in rows]
    return [vertex.dxf.location for vertex in entity.vertices], [vertex.dxf.bulge for vertex in entity.vertices]


def segments_of_pieces(entities: list[Entity]) -> Array:
    """The same of our pieces, arcs by their radius, angle and normal."""
    flat = [flattened(piece) for entity in entities for piece in pieces_of_entity(entity, 1.0)]
    return np.vstack([np.empty((0, 2, 3)), *(np.stack((points[:-1], points[1:]), axis=1) for points in flat)])


def flattened(piece: Piece) -> Array:
    if piece.arc is None:
        return piece.points
    radius, count = piece.arc.radius, 2 + int(piece.arc.angle * math.sqrt(piece.arc.radius / (8.0 * FLAT)))
    inward = np.cross(piece.arc.normal, piece.into)
    turns = np.linspace(0.0, piece.arc.angle, count)[:, None]
    points: Array = piece.points[0] + radius * (np.sin(turns) * piece.into + (1.0 - np.cos(turns)) * inward)
    return points


def farthest(points: Array, chords: Array) -> float:
    """Largest distance of points (n, 3) from the nearest of the chords (m, 2, 3)."""
    start, way = chords[:, 0], chords[:, 1] - chords[:, 0]
    squares = np.maximum(np.sum(way**2, axis=1), 1e-30)
    along = np.clip(np.einsum("nmk,mk->nm", points[:, None] - start, way) / squares, 0.0, 1.0)
    nearest = start + along[:, :, None] * way
    return float(np.linalg.norm(points[:, None] - nearest, axis=2).min(axis=1).max())


def chosen(points: Array) -> Array:
    picked: Array = points[np.linspace(0, len(points) - 1, SAMPLES).astype(int)]
    return picked


def agree(ours: Array, theirs: Array, *, within: float) -> None:
    """Neither has a point that is not on the other, and both are as long."""
    assert farthest(chosen(ours.reshape(-1, 3)), theirs) <= within
    assert farthest(chosen(theirs.reshape(-1, 3)), ours) <= within
    lengths = [float(np.linalg.norm(chords[:, 1] - chords[:, 0], axis=1).sum()) for chords in (ours, theirs)]
    assert lengths[0] == pytest.approx(lengths[1], rel=1e-3)
