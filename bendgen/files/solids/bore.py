"""The inside of a tube: its wall, from the hollow faces that share the axis of the outside."""

from collections.abc import Sequence

import numpy as np

from bendgen.files.solids.axis_index import AxisIndex
from bendgen.files.solids.chain import piece_text
from bendgen.files.solids.faces import Face
from bendgen.files.solids.pieces import NoTubeError, Piece, reach, same_axis
from bendgen.files.solids.tolerances import Tolerances
from bendgen.geometry.tube_axes import LineAxis, TubeSurface

Bore = tuple[float, list[Face]]


def bore_of_tube(faces: Sequence[Face], pieces: Sequence[Piece], radius: float, tolerances: Tolerances) -> Bore:
    """Radius of the bore and its faces; 0 and none for a bar.

    Raises
    ------
    NoTubeError    a bore in some of the pieces only, or a space within the wall
    """
    within = [face for face in faces if face.surface and face.surface.radius < radius - tolerances.join]
    by_piece = _by_piece([face for face in within if not face.convex], pieces, tolerances)
    _check_wall_is_one(pieces, by_piece, _by_piece([face for face in within if face.convex], pieces, tolerances))
    along = list(dict.fromkeys(face for mates in by_piece for face in mates))
    if not along:
        return 0.0, []
    smallest = min(map(_radius, along))
    bore = {face for face in along if _has_radius(face, smallest, tolerances)}
    for piece, mates in zip(pieces, by_piece, strict=True):
        if bore.isdisjoint(mates):
            raise NoTubeError(f"a bore of {2.0 * smallest:.6g} mm that is missing in {piece_text(piece)}")
    return smallest, [face for face in along if face in bore]


def _check_wall_is_one(pieces: Sequence[Piece], hollow: Sequence[list[Face]], convex: Sequence[list[Face]]) -> None:
    """Raise NoTubeError where a convex face on a piece's axis stands within a hollow one, as in a tube in a tube."""
    for piece, around, inside in zip(pieces, hollow, convex, strict=True):
        for face in inside:
            wider = [outer for outer in around if _radius(outer) > _radius(face)]
            if any(_overlap(piece, face, outer) for outer in wider):
                stands = f"a round of Ø {2.0 * _radius(face):.6g} mm (face #{face.number})"
                raise NoTubeError(f"{stands} within {piece_text(piece)}")


def _radius(face: Face) -> float:
    return face.surface.radius if face.surface else 0.0


def _overlap(piece: Piece, one: Face, other: Face) -> bool:
    """Whether two faces on a piece's axis stand beside each other somewhere along it; on a bend they always may."""
    if not isinstance(piece.axis, LineAxis):
        return True
    first, second = (piece.axis.positions(face.points()) for face in (one, other))
    return float(first.max()) > float(second.min()) and float(second.max()) > float(first.min())


def _by_piece(within: Sequence[Face], pieces: Sequence[Piece], tolerances: Tolerances) -> list[list[Face]]:
    """Faces on the axis of each piece."""
    axes = AxisIndex()
    for piece in pieces:
        axes.add(piece.axis)
    by_piece: list[list[Face]] = [[] for _ in pieces]
    for face in within:
        assert face.surface is not None  # only round faces are asked for
        for index in axes.near(face.surface.axis, tolerances.join_fitted(face.surface.misfit)):
            if _shares_axis(pieces[index], face, tolerances) and _is_beside(pieces[index], face):
                by_piece[index].append(face)
    return by_piece


def _shares_axis(piece: Piece, face: Face, tolerances: Tolerances) -> bool:
    outside = piece.faces[0].surface
    assert outside is not None  # pieces are made of round faces
    assert face.surface is not None
    points = face.points()
    allowed = tolerances.join_fitted(piece.misfit, face.surface.misfit) + tolerances.tilt * reach(piece.axis, points)
    axis = TubeSurface(axis=piece.axis, radius=outside.radius)
    return same_axis(axis, face.surface, points, allowed)


def _is_beside(piece: Piece, face: Face) -> bool:
    """Whether a face on a piece's axis is where the piece is, and no hole in a bend that lies ahead of a straight."""
    if not isinstance(piece.axis, LineAxis):
        return True
    along = piece.axis.positions(face.points())
    return bool(np.any(along > piece.span[0])) and bool(np.any(along < piece.span[1]))


def _has_radius(face: Face, radius: float, tolerances: Tolerances) -> bool:
    return face.surface is not None and face.surface.radius - radius <= tolerances.join_fitted(face.surface.misfit)
