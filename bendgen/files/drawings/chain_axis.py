"""From a chain of lines and arcs to vertices and CLR, or to steps where a bend has no vertex within reach."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from bendgen.errors import InputError, Mistake, mistaken
from bendgen.files.axis_points import LARGEST_VERTEX_DEG
from bendgen.files.drawings.pieces import Arc, Piece, place_text
from bendgen.geometry.vectors import Array, angles_between, signed_angles_about
from bendgen.records.part import Centreline, Vertex, WantedBend, WantedSteps
from bendgen.units import DEGREES_PER_RADIAN, DrawnUnits

SMOOTH_DEG = 0.1  # an arc that leaves its neighbour at a larger angle is drawn wrongly, or is no bend
ONE_CIRCLE = 1e-3  # share of the radius by which neighbouring arcs of one bend may differ


def axis_of_chain(chain: Sequence[Piece], file: str, *, units: DrawnUnits, leave_clr: bool) -> Centreline | WantedSteps:
    """Axis of lines and arcs, one behind the other; units: of the drawing, for messages.

    Raises
    ------
    InputError    every place where an arc does not run on as its neighbour does
    """
    pieces = _with_whole_bends(chain)
    _refuse_kinks(pieces, file, units)
    angles_deg = [piece.arc.angle * DEGREES_PER_RADIAN for piece in pieces if piece.arc is not None]
    if max(angles_deg, default=0.0) <= LARGEST_VERTEX_DEG:
        return _vertices(pieces, leave_clr=leave_clr)
    return _steps(pieces, file, leave_clr=leave_clr)


def _with_whole_bends(chain: Sequence[Piece]) -> list[Piece]:
    """Pieces with lines in line and arcs of one circle put together."""
    pieces: list[Piece] = []
    for piece in chain:
        joined = _joined(pieces[-1], piece) if pieces else None
        if joined is None:
            pieces.append(piece)
        else:
            pieces[-1] = joined
    return pieces


def _joined(before: Piece, piece: Piece) -> Piece | None:
    """Both as one, where they are parts of one bend; a vertex on a straight stays, for it may be a mark."""
    if before.arc is None or piece.arc is None:
        return None
    a, b = before.arc, piece.arc
    if abs(a.radius - b.radius) > ONE_CIRCLE * a.radius or a.normal @ b.normal < np.cos(np.radians(SMOOTH_DEG)):
        return None
    if _kink_deg(before, piece) > SMOOTH_DEG:
        return None
    return Piece(
        points=np.vstack((before.points, piece.points[1:])),
        into=before.into,
        out_of=piece.out_of,
        arc=Arc(radius=a.radius, angle=a.angle + b.angle, normal=a.normal),
    )


def _kink_deg(before: Piece, piece: Piece) -> float:
    return float(angles_between(before.out_of[None], piece.into[None])[0]) * DEGREES_PER_RADIAN


def _refuse_kinks(pieces: Sequence[Piece], file: str, units: DrawnUnits) -> None:
    mistakes = []
    for before, piece in pairwise(pieces):
        kink_deg = _kink_deg(before, piece)
        if kink_deg > SMOOTH_DEG and not (before.is_line and piece.is_line):
            expected, found = "an arc that runs on in the direction of its neighbour", f"a kink of {kink_deg:.2f}°"
            place = f"at {place_text(piece.points[0], units)}"
            mistakes.append(Mistake(file=file, place=place, expected=expected, found=found))
    if mistakes:
        raise InputError(mistakes)


def _vertices(pieces: Sequence[Piece], *, leave_clr: bool) -> Centreline:
    vertices = [_vertex(pieces[0].points[0])]
    for before, piece in zip([None, *pieces], pieces, strict=False):
        if piece.arc is not None:
            way = piece.arc.radius * np.tan(0.5 * piece.arc.angle)
            vertices.append(_vertex(piece.points[0] + way * piece.into, None if leave_clr else piece.arc.radius))
        elif before is not None and before.arc is None:
            vertices.append(_vertex(piece.points[0]))
    vertices.append(_vertex(pieces[-1].points[-1]))
    return Centreline(vertices=tuple(vertices))


def _vertex(place: Array, clr: float | None = None) -> Vertex:
    x, y, z = place.tolist()
    return Vertex(x=x, y=y, z=z, clr=clr)


def _steps(pieces: Sequence[Piece], file: str, *, leave_clr: bool) -> WantedSteps:
    bends: list[WantedBend] = []
    straight, normal = 0.0, None
    for before, piece in zip([None, *pieces], pieces, strict=False):
        if piece.arc is None:
            if before is not None and before.arc is None and _kink_deg(before, piece) > SMOOTH_DEG:
                expected = "arcs in all corners, where one bend reaches half a turn"
                raise mistaken(file, expected, "a corner without one")
            straight += float(np.linalg.norm(piece.points[-1] - piece.points[0]))
            continue
        bends.append(
            WantedBend(
                straight=straight,
                rotation_deg=_rotation_deg(piece.into, normal, piece.arc.normal),
                angle_deg=piece.arc.angle * DEGREES_PER_RADIAN,
                clr=None if leave_clr else piece.arc.radius,
            )
        )
        straight, normal = 0.0, piece.arc.normal
    return WantedSteps(bends=tuple(bends), rear=straight)


def _rotation_deg(along: Array, before: Array | None, normal: Array) -> float:
    """Rotation from the plane of one bend to that of the next, both by their normals; 0 for the first bend."""
    if before is None:
        return 0.0
    return float(signed_angles_about(along[None], before[None], normal[None])[0]) * DEGREES_PER_RADIAN
