"""Nearest points on the axis of a bent tube, and many measured points laid on it; angles in radians."""

from dataclasses import dataclass

import numpy as np

from bendgen.geometry.extents import arc_points
from bendgen.geometry.rigid_fit import rigid_fit
from bendgen.geometry.rotations import rotation_about
from bendgen.geometry.vectors import Array, lengths

FIT_ITERATIONS = 30
FIT_WITH = 600  # points at most: the others would not move the fit
SETTLED = 1e-9  # [mm], and of a rotation matrix


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Axis:
    """Axis of a tube of n bends.

    points : (2 n + 2, 3) array, ends and tangent points [mm]
    directions : (n + 1, 3) array, unit vectors along the straights
    angles, clr : (n,) arrays [rad, mm]
    """

    points: Array
    directions: Array
    angles: Array
    clr: Array


def nearest_on_axis(points: Array, axis: Axis) -> tuple[Array, Array]:
    """Nearest point on the axis to each of m points, (m, 3), and on which piece it lies, (m,).

    Pieces are counted from the front: 0, 2, 4, … are straights, 1, 3, 5, … bends.
    """
    straights = [_nearest_on_straight(points, *axis.points[2 * i : 2 * i + 2]) for i in range(len(axis.directions))]
    arcs = [_nearest_on_arc(points, axis, i) for i in range(len(axis.angles))]
    pieces = np.stack([piece for pair in zip(straights, [*arcs, straights[-1]], strict=True) for piece in pair][:-1])
    which = np.argmin(((pieces - points) ** 2).sum(axis=2), axis=0)
    return pieces[which, np.arange(len(points))], which


def _nearest_on_straight(points: Array, start: Array, end: Array) -> Array:
    way = end - start
    length = way @ way
    part = np.clip((points - start) @ way / length, 0.0, 1.0) if length > 0.0 else np.zeros(len(points))
    nearest: Array = start + part[:, None] * way
    return nearest


def _nearest_on_arc(points: Array, axis: Axis, i: int) -> Array:
    start = axis.points[2 * i + 1]
    along, angle, clr = axis.directions[i], axis.angles[i], axis.clr[i]
    centre = _centre_of_arc(axis, i)
    inward = (centre - start) / clr
    from_centre = points - centre
    swept = np.arctan2(from_centre @ along, -from_centre @ inward) % (2.0 * np.pi)
    # Beyond the arc the nearer of its ends is nearest: halfway round the rest of the circle they change over.
    before_start = swept > angle + 0.5 * (2.0 * np.pi - angle)
    swept = np.where(before_start, 0.0, np.minimum(swept, angle))[:, None]
    nearest: Array = start + clr * (np.sin(swept) * along + (1.0 - np.cos(swept)) * inward)
    return nearest


def _centre_of_arc(axis: Axis, i: int) -> Array:
    start, end = axis.points[2 * i + 1 : 2 * i + 3]
    angle, clr = axis.angles[i], axis.clr[i]
    versine = max(1.0 - np.cos(angle), np.finfo(float).tiny)
    centre: Array = start + (end - start - clr * np.sin(angle) * axis.directions[i]) / versine
    return centre


def fitted_to_axis(points: Array, axis: Axis) -> Array:
    """Points measured along a tube, front end first, moved onto the axis by a best fit that cannot mirror.

    Parameters
    ----------
    points : (m, 3) array, in any frame

    Returns
    -------
    (m, 3) array

    Notes
    -----
    Started by laying equal shares of the length on one another; then by Gauss and Newton on the distances square to
    the axis, along which points are free to slide [Chen1992].
    """
    chosen = points[np.unique(np.linspace(0, len(points) - 1, min(len(points), FIT_WITH)).astype(int))]
    rotation, shift = rigid_fit(chosen, _at_shares(_shares(chosen), _densely(axis)))
    for _ in range(FIT_ITERATIONS):
        turn, step = _better_by(chosen @ rotation + shift, axis)
        rotation, shift = rotation @ turn, shift @ turn + step
        if np.abs(step).max() < SETTLED and np.abs(turn - np.eye(3)).max() < SETTLED:
            break
    return points @ rotation + shift


def _better_by(points: Array, axis: Axis) -> tuple[Array, Array]:
    """Small rotation and shift that bring points nearer to the axis."""
    nearest, pieces = nearest_on_axis(points, axis)
    along = _tangents(nearest, pieces, axis)
    ends = (np.abs(nearest - axis.points[0]) < SETTLED).all(axis=1) | (np.abs(nearest - axis.points[-1]) < SETTLED).all(
        axis=1
    )
    square = np.eye(3) - np.where(ends[:, None, None], 0.0, along[:, :, None] * along[:, None, :])
    centre = points.mean(axis=0)
    arms = points - centre
    turning = np.cross(np.eye(3)[None], arms[:, None, :]).swapaxes(1, 2)  # column k: what a turn about axis k does
    columns = np.concatenate((square @ turning, square), axis=2).reshape(-1, 6)
    wanted = (square @ (nearest - points)[:, :, None]).reshape(-1)
    moves: Array = np.linalg.lstsq(columns, wanted, rcond=None)[0].astype(np.float64)
    turn = rotation_about(moves[:3]).T
    return turn, centre - centre @ turn + moves[3:]


def _tangents(nearest: Array, pieces: Array, axis: Axis) -> Array:
    """Unit vectors along the axis at points on it, (m, 3)."""
    along: Array = axis.directions[(pieces + 1) // 2].copy()
    for i in range(len(axis.angles)):
        on_arc = pieces == 2 * i + 1
        centre = _centre_of_arc(axis, i)
        normal = np.cross(axis.directions[i], axis.directions[i + 1])
        around = np.cross(normal, nearest[on_arc] - centre)
        along[on_arc] = around / np.maximum(lengths(around), np.finfo(float).tiny)[:, None]
    return along


def _shares(points: Array) -> Array:
    """How far along its path each point lies, 0 to 1."""
    way = np.concatenate(([0.0], np.cumsum(lengths(np.diff(points, axis=0)))))
    shares: Array = way / way[-1]
    return shares


def _densely(axis: Axis) -> Array:
    """Points along the axis from end to end, arcs included."""
    arcs = arc_points(axis.points[1:-1:2], axis.points[2:-1:2], axis.directions[:-1], axis.angles, axis.clr)
    return np.concatenate((axis.points[:1], arcs.reshape(-1, 3), axis.points[-1:]))


def _at_shares(shares: Array, path: Array) -> Array:
    """Points at those shares of the way along a path."""
    own = _shares(path)
    return np.column_stack([np.interp(shares, own, path[:, k]) for k in range(3)])
