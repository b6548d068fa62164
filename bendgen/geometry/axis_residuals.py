"""Distances of points from a tube of straights and arcs, and the tube for which their squares are least."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from bendgen.geometry.bent_axes import bent_axes, vertices_of_axes
from bendgen.geometry.rotations import rotation_about
from bendgen.geometry.vectors import Array, cross

POINTS_A_PIECE = 100  # a fit takes no more from each straight or arc; distances are taken of all
MOST_STEPS = 30
MOST_HALVINGS = 8
MOST_SLOW_STEPS = 5  # steps that win less than half: points that follow the tube take hardly any
DERIVATIVE_STEP = 1e-6  # mm or rad
SETTLED = 1e-9  # share of the squares' sum that a step may still win
RANK = 1e-13  # share of the largest singular value below which a combination of unknowns does nothing
COVERAGE = 2.0  # k of an expanded uncertainty
NOISE = 1e-18  # mm², a point: below it the last digits are all that is left


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


def placed_axis(fit: AxisFit) -> tuple[Array, Array]:
    """Ends and tangent points, (2 n + 2, 3), and directions of the straights, (n + 1, 3), in place."""
    ends, directions = _placed(_unknowns(fit)[None], fit)
    return ends[0], directions[0]


def distances_of_fit(fit: AxisFit, points: Array, pieces: NDArray[np.intp]) -> Array:
    """Distance of (m, 3) points from their pieces' lines or circles, (m,) [mm]; pieces: first point of each, then m."""
    return np.concatenate(
        [np.sqrt(np.sum(r[0] ** 2, axis=-1)) for r in _residuals(_unknowns(fit)[None], fit, points, pieces)]
    )


def settled(fit: AxisFit, points: Array, pieces: NDArray[np.intp], held: NDArray[np.bool_]) -> AxisFit:
    """Fit whose squared distances no small change makes less, from a fit near it; by damped Gauss-Newton steps.

    held : (n,) array, the CLR that stay as they are
    """
    points, pieces = _thinned(points, pieces)
    slow_steps = 0
    for _ in range(MOST_STEPS):
        start = _unknowns(fit)
        rows, jacobian = _rows_and_slopes(fit, points, pieces)
        jacobian[:, _clr_places(fit)[held]] = 0.0
        change = _newton_change(jacobian, rows)
        squares = rows @ rows
        for halving in range(MOST_HALVINGS):
            tried = (start + 0.5**halving * change)[None]
            row = _flat(_residuals(tried, fit, points, pieces), fit, tried, points)[0]
            if row @ row < squares:
                break
        else:
            return fit
        fit = _moved(fit, tried[0])
        slow_steps += bool(row @ row > 0.5 * squares)
        settled_down = squares - row @ row <= SETTLED * squares or squares < NOISE * len(points)
        if settled_down or slow_steps >= MOST_SLOW_STEPS:
            return fit
    return fit


def clr_within(fit: AxisFit, points: Array, pieces: NDArray[np.intp]) -> Array:
    """Half width (k = 2) of each CLR of a settled fit, (n,) [mm], by linear propagation of the points' own scatter.

    References
    ----------
    [JCGM100], 5.1
    """
    points, pieces = _thinned(points, pieces)
    rows, jacobian = _rows_and_slopes(fit, points, pieces)
    # Of every point two coordinates say something, the one along the axis does not.
    spare = max(2 * len(points) + 2 - jacobian.shape[1], 1)
    size = _sizes(jacobian)
    square = np.einsum("ri,rj->ij", jacobian / size, jacobian / size)
    variances = np.diagonal(np.linalg.pinv(square, rcond=RANK, hermitian=True)) * (rows @ rows) / spare / size**2
    half_widths: Array = COVERAGE * np.sqrt(np.maximum(variances[_clr_places(fit)], 0.0))
    return half_widths


def _rows_and_slopes(fit: AxisFit, points: Array, pieces: NDArray[np.intp]) -> tuple[Array, Array]:
    """Rows of the fit, (r,), and their slopes over its unknowns, (r, p)."""
    start = _unknowns(fit)
    steps = np.vstack((np.zeros(len(start)), DERIVATIVE_STEP * np.eye(len(start))))
    rows = _flat(_residuals(start + steps, fit, points, pieces), fit, start + steps, points)
    return rows[0], (rows[1:] - rows[0]).T / DERIVATIVE_STEP


def _sizes(jacobian: Array) -> Array:
    """Size of every column, 1 for one that does nothing."""
    size: Array = np.sqrt(np.sum(jacobian**2, axis=0))
    size[size == 0.0] = 1.0
    return size


def _newton_change(jacobian: Array, rows: Array) -> Array:
    """Change of the unknowns that takes most of the rows away, by normal equations with columns of one size.

    A factorisation of the thousands of rows would be more exact than iteration needs, and its threads wait for one
    another on a busy machine.
    """
    size = _sizes(jacobian)
    scaled = jacobian / size
    square = np.einsum("ri,rj->ij", scaled, scaled)  # not by @, whose threads are the ones that wait
    change: Array = np.linalg.lstsq(square, -np.einsum("ri,r->i", scaled, rows), rcond=RANK)[0] / size
    return change


def _thinned(points: Array, pieces: NDArray[np.intp]) -> tuple[Array, NDArray[np.intp]]:
    """At most so many points of each piece, evenly, its ends among them."""
    kept = [
        np.unique(np.linspace(first, last - 1, min(last - first, POINTS_A_PIECE)).astype(np.intp))
        for first, last in zip(pieces[:-1].tolist(), pieces[1:].tolist(), strict=True)
    ]
    starts = np.concatenate(([0], np.cumsum([len(piece) for piece in kept])))
    return points[np.concatenate(kept)], starts


def _unknowns(fit: AxisFit) -> Array:
    """Straights, rotations after the first, angles, CLR, and a turn and a shift on top of the fit's own."""
    return np.concatenate((fit.straights, fit.rotations[1:], fit.angles, fit.clr, np.zeros(6)))


def _clr_places(fit: AxisFit) -> NDArray[np.intp]:
    """Where the CLR stand among the unknowns, (n,)."""
    n = len(fit.clr)
    return np.arange(n) + 3 * n + 1 - min(n, 1)


def _split(unknowns: Array, fit: AxisFit) -> tuple[Array, Array, Array, Array, Array, Array]:
    """Unknowns of m tubes, (m, p), as straights, rotations, angles, CLR, turns and shifts."""
    n = len(fit.clr)
    ends = np.cumsum([n + 1, max(n - 1, 0), n, n, 3])
    straights, later, angles, clr, turns, shifts = np.split(unknowns, ends, axis=1)
    rotations = np.concatenate((np.zeros((len(unknowns), min(n, 1))), later), axis=1)
    return straights, rotations, angles, clr, turns, shifts


def _moved(fit: AxisFit, unknowns: Array) -> AxisFit:
    straights, rotations, angles, clr, turns, shifts = (values[0] for values in _split(unknowns[None], fit))
    return replace(
        fit,
        straights=straights,
        rotations=rotations,
        angles=angles,
        clr=clr,
        frame=rotation_about(turns) @ fit.frame,
        shift=fit.shift + shifts,
    )


def _placed(unknowns: Array, fit: AxisFit) -> tuple[Array, Array]:
    """Ends and tangent points (m, 2 n + 2, 3) and directions (m, n + 1, 3) of m tubes."""
    straights, rotations, angles, clr, turns, shifts = _split(unknowns, fit)
    ends, directions = bent_axes(straights, rotations, angles, clr)
    frames = np.array([rotation_about(turn) for turn in turns]) @ fit.frame
    across = frames.swapaxes(1, 2)
    return ends @ across + (fit.shift + shifts)[:, None, :], directions @ across


def _residuals(unknowns: Array, fit: AxisFit, points: Array, pieces: NDArray[np.intp]) -> list[Array]:
    """Of each piece, for m tubes, an (m, points, 2 or 3) array whose length along the last axis is the distance."""
    ends, directions = _placed(unknowns, fit)
    _, _, angles, clr, _, _ = _split(unknowns, fit)
    residuals = []
    for piece, (first, last) in enumerate(zip(pieces[:-1].tolist(), pieces[1:].tolist(), strict=True)):
        offsets = points[first:last] - ends[:, piece, None]
        along, bend = directions[:, piece // 2, None], piece // 2
        if piece % 2 == 0:
            residuals.append(offsets - np.sum(offsets * along, axis=2, keepdims=True) * along)
        else:
            chord = (ends[:, piece + 1] - ends[:, piece])[:, None]
            residuals.append(_from_circle(offsets, along, chord, angles[:, bend, None, None], clr[:, bend, None, None]))
    return residuals


def _from_circle(offsets: Array, along: Array, chord: Array, angle: Array, clr: Array) -> Array:
    """Radial and axial distance from the circle that leaves the origin in direction `along` and has that chord."""
    inward = (chord / clr - np.sin(angle) * along) / (2.0 * np.sin(0.5 * angle) ** 2)
    radial = offsets - clr * inward
    normal = cross(along, inward)
    axial = np.sum(radial * normal, axis=2)
    from_axis = radial - axial[:, :, None] * normal
    return np.stack((np.sqrt(np.sum(from_axis**2, axis=2)) - clr[:, :, 0], axial), axis=2)


def _flat(residuals: list[Array], fit: AxisFit, unknowns: Array, points: Array) -> Array:
    """Rows of m tubes; the ends of the tube are held to the first and the last point, which no distance does."""
    ends, directions = _placed(unknowns, fit)
    front = np.sum((ends[:, 0] - points[0]) * directions[:, 0], axis=1)
    rear = np.sum((ends[:, -1] - points[-1]) * directions[:, -1], axis=1)
    rows = [piece.reshape(len(unknowns), -1) for piece in residuals]
    return np.concatenate((*rows, front[:, None], rear[:, None]), axis=1)
