"""Distances of points from a tube of straights and arcs, and how they change with its measures.

Whatever is changed ahead of a piece moves it as a rigid body. So of a piece only seven numbers have to be known: what
turning and sliding it does to the distances of its points, and what its own CLR does.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bendgen.geometry.bent_axes import bent_axes, frames_of_tube, vertices_of_axes
from bendgen.geometry.vectors import Array, cross

SLIDE, TURN, OWN_CLR = slice(0, 3), slice(3, 6), 6  # what may happen to a piece, in its own frame


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AxisFit:
    """Straights and arcs of n bends, and how far the points lie off them.

    straights : (n + 1,) array [mm]; rotations, angles : (n,) arrays [rad]; clr : (n,) array [mm]
    frame, shift : (3, 3) and (3,) arrays; `local @ frame.T + shift` lays the tube of `bent_axes` into place
    distances : (points,) array [mm]
    clr_within : (n,) array [mm], half width that holds some 95 % of what as scattered points would give (k = 2)
    """

    straights: Array
    rotations: Array
    angles: Array
    clr: Array
    frame: Array
    shift: Array
    distances: Array
    clr_within: Array

    def vertices(self) -> Array:
        """Ends and vertices, an (n + 2, 3) array, angles below π."""
        points, directions = bent_axes(self.straights[None], self.rotations[None], self.angles[None], self.clr[None])
        local = vertices_of_axes(points, directions, self.angles[None], self.clr[None])[0]
        placed: Array = local @ self.frame.T + self.shift
        return placed


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NormalEquations:
    """What points say of p unknowns of a fit.

    squares : sum of the squared distances [mm²]
    slopes : (p,) array, half of what a change of each unknown does to that sum
    curvatures : (p, p) array, the same of the slopes, as if distances changed in a straight line
    """

    squares: float
    slopes: Array
    curvatures: Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _PieceRows:
    """Distances of the m points of a piece in k directions square to each other, and how they grow.

    local : (m, 3) array, the points in the frame of the piece
    rows : (m, k) array [mm]
    ways : (m, k, 3) array, unit vectors in that frame, in which each distance grows
    """

    local: Array
    rows: Array
    ways: Array


def placed_pieces(fit: AxisFit) -> tuple[Array, Array]:
    """Where straights and arcs begin, by turns, and the end of the tube, (2 n + 2, 3); frames, (2 n + 2, 3, 3).

    Columns of a frame are the direction, the way to the inside of the next arc or of the arc itself, their normal.
    """
    starts, frames = frames_of_tube(fit.straights, fit.rotations, fit.angles, fit.clr)
    return starts @ fit.frame.T + fit.shift, fit.frame @ frames


def distances_of_fit(fit: AxisFit, points: Array, pieces: NDArray[np.intp]) -> Array:
    """Distance of (m, 3) points from their pieces' lines or circles, (m,) [mm]; pieces: first point of each, then m."""
    _, *between, _ = _rows_of_pieces(fit, points, pieces)
    return np.sqrt(np.concatenate([np.sum(piece.rows**2, axis=1) for piece in between]))


def squares_of_fit(fit: AxisFit, points: Array, pieces: NDArray[np.intp]) -> float:
    """Sum of the squares of those distances, and of how far along the axis the ends are from first and last point.

    No distance holds the ends of the tube; these two do.
    """
    return float(sum(np.sum(piece.rows**2) for piece in _rows_of_pieces(fit, points, pieces)))


def normal_equations(fit: AxisFit, points: Array, pieces: NDArray[np.intp]) -> NormalEquations:
    """Squares of a fit over straights, rotations after the first, angles, CLR, and a turn and a shift of it all."""
    found = _rows_of_pieces(fit, points, pieces)
    effects = _effects_on_pieces(fit)
    pulls, stiffness = np.empty(effects.shape[:2]), np.empty((len(effects), 7, 7))
    for piece, points_of_piece in enumerate(found):
        slopes = _slopes(points_of_piece)
        pulls[piece] = points_of_piece.rows.reshape(-1) @ slopes
        stiffness[piece] = slopes.T @ slopes
    flat = effects.reshape(-1, effects.shape[2])
    return NormalEquations(
        squares=float(sum(np.sum(piece.rows**2) for piece in found)),
        slopes=pulls.reshape(-1) @ flat,
        curvatures=flat.T @ (stiffness @ effects).reshape(flat.shape),
    )


def _rows_of_pieces(fit: AxisFit, points: Array, pieces: NDArray[np.intp]) -> list[_PieceRows]:
    """Rows of the front end, of straights and arcs by turns, and of the rear end."""
    starts, frames = placed_pieces(fit)
    rows = [_along((points[:1] - starts[0]) @ frames[0])]
    for piece, (first, last) in enumerate(zip(pieces[:-1].tolist(), pieces[1:].tolist(), strict=True)):
        local = (points[first:last] - starts[piece]) @ frames[piece]
        rows.append(_across_circle(local, float(fit.clr[piece // 2])) if piece % 2 else _across_line(local))
    return [*rows, _along((points[-1:] - starts[-1]) @ frames[-1])]


def _along(local: Array) -> _PieceRows:
    return _PieceRows(local=local, rows=local[:, :1], ways=np.eye(3)[None, :1])


def _across_line(local: Array) -> _PieceRows:
    return _PieceRows(local=local, rows=local[:, 1:], ways=np.broadcast_to(np.eye(3)[1:], (len(local), 2, 3)))


def _across_circle(local: Array, clr: float) -> _PieceRows:
    """Rows off the circle through the origin about (0, clr, 0): away from that, and out of its plane."""
    from_centre = local[:, :2] - (0.0, clr)
    reach = np.hypot(from_centre[:, 0], from_centre[:, 1])
    ways = np.zeros((len(local), 2, 3))
    ways[:, 0, :2] = from_centre / np.maximum(reach, np.finfo(float).tiny)[:, None]
    ways[:, 1, 2] = 1.0
    return _PieceRows(local=local, rows=np.column_stack((reach - clr, local[:, 2])), ways=ways)


def _slopes(piece: _PieceRows) -> Array:
    """What sliding the piece, turning it about its start and changing its CLR do to its rows, (m k, 7)."""
    slopes = np.empty((*piece.ways.shape[:2], 7))
    slopes[..., SLIDE] = -piece.ways
    slopes[..., TURN] = cross(piece.ways, piece.local[:, None])
    # The centre moves inwards by as much as the radius grows; what has no CLR is never asked.
    slopes[..., OWN_CLR] = -piece.ways[..., 1]
    slopes[:, 0, OWN_CLR] -= 1.0
    return slopes.reshape(-1, 7)


def _effects_on_pieces(fit: AxisFit) -> Array:
    """What the unknowns do to the pieces, each in its frame, as `_slopes` counts it; a (2 n + 3, 7, p) array.

    An unknown moves all that lies behind it as one rigid body, and nothing ahead of it.
    """
    bends = len(fit.clr)
    starts, frames = placed_pieces(fit)
    starts, frames = np.concatenate((starts[:1], starts)), np.concatenate((frames[:1], frames))  # the front end
    slides, turns, centres, first_moved = _moves(fit, starts, frames)
    slides_here = slides - cross(starts[:, None] - centres, turns)
    across = frames.swapaxes(1, 2)
    effects = np.zeros((len(starts), 7, len(first_moved)))
    effects[:, SLIDE] = across @ slides_here.swapaxes(1, 2)
    effects[:, TURN] = across @ turns.T
    effects *= (np.arange(len(starts))[:, None] >= first_moved)[:, None]
    effects[np.arange(2, 2 * bends + 2, 2), OWN_CLR, clr_places(bends)] = 1.0
    return effects


def _moves(fit: AxisFit, starts: Array, frames: Array) -> tuple[Array, Array, Array, NDArray[np.intp]]:
    """How each of p unknowns moves what is behind it: slides, turns and about what, (p, 3); first piece moved, (p,)."""
    bends = len(fit.clr)
    arc_starts, arc_ends, arcs = starts[2:-1:2], starts[3::2], frames[2:-1:2]
    still, one = np.zeros((3, 3)), np.eye(3)
    straights, angles, later = np.zeros((bends + 1, 3)), np.zeros((bends, 3)), np.zeros((max(bends - 1, 0), 3))
    slides = (frames[1::2, :, 0], later, angles, (arc_ends - arc_starts) / fit.clr[:, None], still, one)
    turns = (straights, arcs[1:, :, 0], arcs[:, :, 2], angles, one, still)
    arc_centres = arc_starts + fit.clr[:, None] * arcs[:, :, 1]
    centres = (straights, arc_starts[1:], arc_centres, angles, one * 0 + fit.shift, still)
    behind = 2 * np.arange(bends + 1) + 2
    first_moved = (behind, behind[1:-1], behind[:-1] + 1, behind[:-1] + 1, np.zeros(6, dtype=int))
    return np.concatenate(slides), np.concatenate(turns), np.concatenate(centres), np.concatenate(first_moved)


def clr_places(bends: int) -> NDArray[np.intp]:
    """Where the CLR stand among the unknowns, (n,)."""
    return np.arange(bends) + 3 * bends + 1 - min(bends, 1)
