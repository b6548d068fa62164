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
    NoTubeError    a bore in some of the pieces only
    """
    hollow = [face for face in faces if face.surface and not face.convex and face.surface.radius < radius]
    by_piece = _by_piece(hollow, pieces, tolerances)
    along = list(dict.fromkeys(face for mates in by_piece for face in mates))
    if not along:
        return 0.0, []
    smallest = min(face.surface.radius for face in along if face.surface)
    bore = {face for face in along if _has_radius(face, smallest, tolerances)}
    for piece, mates in zip(pieces, by_piece, strict=True):
        if bore.isdisjoint(mates):
            raise NoTubeError(f"a bore of {2.0 * smallest:.6g} mm that is missing in {piece_text(piece)}")
    return smallest, [face for face in along if face in bore]


def _by_piece(hollow: Sequence[Face], pieces: Sequence[Piece], tolerances: Tolerances) -> list[list[Face]]:
    """Hollow faces on the axis of each piece."""
    axes = AxisIndex()
    for piece in pieces:
        axes.add(piece.axis)
    by_piece: list[list[Face]] = [[] for _ in pieces]
    for face in hollow:
        assert face.surface is not None  # only round faces are hollow
        for index in axes.near(face.surface.axis, tolerances.join + 4.0 * face.surface.misfit):
            if _shares_axis(pieces[index], face, tolerances) and _is_beside(pieces[index], face):
                by_piece[index].append(face)
    return by_piece


def _shares_axis(piece: Piece, face: Face, tolerances: Tolerances) -> bool:
    outside = piece.faces[0].surface
    assert outside is not None  # pieces are made of round faces
    assert face.surface is not None
    points = face.points()
    allowed = tolerances.join + 4.0 * (piece.misfit + face.surface.misfit) + tolerances.tilt * reach(piece.axis, points)
    axis = TubeSurface(axis=piece.axis, radius=outside.radius)
    return same_axis(axis, face.surface, points, allowed)


def _is_beside(piece: Piece, face: Face) -> bool:
    """Whether a face on a piece's axis is where the piece is, and no hole in a bend that lies ahead of a straight."""
    if not isinstance(piece.axis, LineAxis):
        return True
    along = piece.axis.positions(face.points())
    return bool(np.any(along > piece.span[0])) and bool(np.any(along < piece.span[1]))


def _has_radius(face: Face, radius: float, tolerances: Tolerances) -> bool:
    return face.surface is not None and face.surface.radius - radius <= tolerances.join + 4.0 * face.surface.misfit
