"""How far a tube reaches at its ends: chamfers and rounds belong to it, a cut that is not square is remarked on."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bendgen.files.solids.faces import Face
from bendgen.files.solids.pieces import End, Piece
from bendgen.geometry.tube_axes import LineAxis, distances_from
from bendgen.geometry.vectors import Array


@dataclass(frozen=True, slots=True, kw_only=True)
class EndReach:
    """How far the solid goes beyond the end of its outside faces, and how uneven their edge there is [mm]."""

    beyond: float
    uneven: float


def end_reach(end: End, piece: Piece, faces: Sequence[Face], skins: set[int], radius: float) -> EndReach:
    """Reach at the free end of a piece.

    Parameters
    ----------
    faces : of the whole solid
    skins : numbers of the faces that are the tube's outside or bore
    radius : distance from the axis within which points count
    """
    line = LineAxis(point=end.point, direction=end.direction)
    nearby = _faces_at_end(piece, faces, skins)
    points = np.vstack([face.points() for face in nearby])
    points = points[distances_from(line, points) <= radius]
    beyond = float(line.positions(points).max(initial=0.0))
    rim = _rim(piece, line)
    return EndReach(beyond=max(beyond, 0.0), uneven=float(np.ptp(rim)) if len(rim) else 0.0)


def _faces_at_end(piece: Piece, faces: Sequence[Face], skins: set[int]) -> list[Face]:
    """The piece's own faces and all that hang on them edge by edge without another skin face between."""
    by_edge: dict[int, list[Face]] = {}
    for face in faces:
        for edge in face.edges:
            by_edge.setdefault(edge.number, []).append(face)
    found = {face.number: face for face in piece.faces}
    waiting = list(piece.faces)
    while waiting:
        for edge in waiting.pop().edges:
            for face in by_edge[edge.number]:
                if face.number not in found and face.number not in skins:
                    found[face.number] = face
                    waiting.append(face)
    return list(found.values())


def _rim(piece: Piece, line: LineAxis) -> Array:
    """Positions along the end's direction of the edges that run round the piece at that end.

    They hang together, vertex by vertex, with the edge that reaches farthest; edges along the piece are none of them.
    """
    edges = {edge.number: edge for face in piece.faces for edge in face.edges}
    uses = Counter(edge.number for face in piece.faces for edge in face.edges)
    outer = [edge for number, edge in edges.items() if uses[number] == 1]
    if not outer:
        return np.empty(0)
    first = max(outer, key=lambda edge: float(line.positions(edge.points).max()))
    rim, numbers, vertices = [first], {first.number}, set(first.vertices)
    grown = True
    while grown:
        joined = [edge for edge in outer if edge.number not in numbers and vertices & set(edge.vertices)]
        grown = bool(joined)
        rim.extend(joined)
        numbers.update(edge.number for edge in joined)
        vertices.update(vertex for edge in joined for vertex in edge.vertices)
    return np.concatenate([line.positions(edge.points) for edge in rim])
