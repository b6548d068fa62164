"""Distances of points from a tube of straights and arcs, and how they change with its measures.

Whatever is changed ahead of a piece moves it as a rigid body. So of a piece only seven numbers have to be known: what
turning and sliding it does to the distances of its points, and what its own CLR does.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from bendgen.geometry.bent_axes import bent_axes, frames_of_tube, vertices_of_axes
from bendgen.geometry.vectors import Array, cross

Placed = tuple[Array, Array]  # where pieces begin, and their frames
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
class _Rows:
    """How far points are off their pieces, each in k directions square to each other, and which those are.

    local : (m, 3) array, the points in the frames of their pieces
    off : (m, k) array [mm]
    ways : (m, k, 3) array, unit vectors in those frames, along which each of these grows
    """

    local: Array
    off: Array
    ways: Array


def placed_pieces(fit: AxisFit) -> Placed:
    """Where straights and arcs begin, by turns, and the end of the tube, (2 n + 2, 3); frames, (2 n + 2, 3, 3).

    Columns of a frame are the direction, the way to the inside of the next arc or of the arc itself, their normal.
    """
    starts, frames = frames_of_tube(fit.straights, fit.rotations, fit.angles, fit.clr)
    return starts @ fit.frame.T + fit.shift, fit.frame @ frames


def distances_of_fit(fit: AxisFit, points: Array, pieces: NDArray[np.intp]) -> Array:
    """Distance of (m, 3) points from their pieces' lines or circles, (m,) [mm]; pieces: first point of each, then m."""
    distances: Array = np.hypot(*_across_pieces(fit.clr, placed_pieces(fit), points, pieces).off.T)
    return distances


def squares_of_fit(fit: AxisFit, points: Array, pieces: NDArray[np.intp]) -> float:
    """Sum of the squares of those distances, and of how far along the axis the ends are from first and last point.

    No distance holds the ends of the tube; these two do.
    """
    placed = placed_pieces(fit)
    across, ends = _across_pieces(fit.clr, placed, points, pieces), _along_ends(placed, points)
    return float(np.sum(across.off**2) + np.sum(ends.off**2))


def normal_equations(fit: AxisFit, points: Array, pieces: NDArray[np.intp]) -> NormalEquations:
    """Squares of a fit over straights, rotations after the first, angles, CLR, and a turn and a shift of it all."""
    placed = placed_pieces(fit)
    across, ends = _across_pieces(fit.clr, placed, points, pieces), _along_ends(placed, points)
    slopes_of_ends = _slopes(ends)
    slopes = np.concatenate((slopes_of_ends[:1], _slopes(across), slopes_of_ends[1:]))
    off = np.concatenate((ends.off[0], across.off.reshape(-1), ends.off[1]))
    bounds = np.concatenate(([0], 1 + 2 * pieces, [len(off)])).tolist()
    parts = [slice(first, last) for first, last in pairwise(bounds)]
    pulls = np.array([off[part] @ slopes[part] for part in parts])
    stiffness = np.array([slopes[part].T @ slopes[part] for part in parts])
    effects = _effects_on_pieces(fit, placed)
    flat = effects.reshape(-1, effects.shape[2])
    return NormalEquations(
        squares=float(off @ off),
        slopes=pulls.reshape(-1) @ flat,
        curvatures=flat.T @ (stiffness @ effects).reshape(flat.shape),
    )


def _across_pieces(clr: Array, placed: Placed, points: Array, pieces: NDArray[np.intp]) -> _Rows:
    """Rows of points off the line or the circle of their piece, two each, the second out of the plane of the bend."""
    starts, frames = placed
    piece = np.repeat(np.arange(len(pieces) - 1), np.diff(pieces))
    local = np.einsum("mi,mij->mj", points - starts[piece], frames[piece])
    off, ways = local[:, 1:].copy(), np.zeros((len(points), 2, 3))
    ways[:, 0, 1] = ways[:, 1, 2] = 1.0
    on_arc = piece % 2 == 1
    radius = clr[piece[on_arc] // 2]
    from_centre = local[on_arc, :2]
    from_centre[:, 1] -= radius
    reach = np.hypot(from_centre[:, 0], from_centre[:, 1])
    off[on_arc, 0] = reach - radius
    ways[on_arc, 0, :2] = from_centre / np.maximum(reach, np.finfo(float).tiny)[:, None]
    return _Rows(local=local, off=off, ways=ways)


def _along_ends(placed: Placed, points: Array) -> _Rows:
    """Rows of the first and the last point off the ends of the tube, along its axis."""
    starts, frames = placed
    local = np.einsum("mi,mij->mj", points[[0, -1]] - starts[[0, -1]], frames[[0, -1]])
    return _Rows(local=local, off=local[:, :1], ways=np.tile(np.eye(3)[:1], (2, 1, 1)))


def _slopes(rows: _Rows) -> Array:
    """What sliding the piece, turning it about its start and changing its CLR do to its rows, (m k, 7)."""
    slopes = np.empty((*rows.ways.shape[:2], 7))
    slopes[..., SLIDE] = -rows.ways
    slopes[..., TURN] = cross(rows.ways, rows.local[:, None])
    # The centre moves inwards by as much as the radius grows; what has no CLR is never asked.
    slopes[..., OWN_CLR] = -rows.ways[..., 1]
    slopes[:, 0, OWN_CLR] -= 1.0
    return slopes.reshape(-1, 7)


def _effects_on_pieces(fit: AxisFit, placed: Placed) -> Array:
    """What the unknowns do to the pieces, each in its frame, as `_slopes` counts it; a (2 n + 3, 7, p) array.

    An unknown moves all that lies behind it as one rigid body, and nothing ahead of it.
    """
    bends = len(fit.clr)
    starts, frames = (np.concatenate((part[:1], part)) for part in placed)  # the front end is a piece of its own
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
    centres = (straights, arc_starts[1:], arc_centres, angles, np.tile(fit.shift, (3, 1)), still)
    behind = 2 * np.arange(bends + 1) + 2
    first_moved = (behind, behind[1:-1], behind[:-1] + 1, behind[:-1] + 1, np.zeros(6, dtype=int))
    return np.concatenate(slides), np.concatenate(turns), np.concatenate(centres), np.concatenate(first_moved)


def clr_places(bends: int) -> NDArray[np.intp]:
    """Where the CLR stand among the unknowns, (n,)."""
    return np.arange(bends) + 3 * bends + 1 - min(bends, 1)
