"""Straights and arcs fitted to points along a tube's axis, by least squares of the distances.

The tube is what a bender makes: straights, rotations, angles and CLR (`bent_axes`), laid into place by a rotation and a
shift. So neighbouring pieces meet in one tangent whatever the points do, and a bend may reach half a turn and more.
"""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from bendgen.geometry.axis_bends import Run, bend_runs
from bendgen.geometry.axis_residuals import AxisFit, distances_of_fit, placed_pieces
from bendgen.geometry.axis_settling import clr_within, settled
from bendgen.geometry.vectors import Array, cross, lengths, signed_angles_about, unit

HALF_TURN = np.pi + 1e-6  # rad; what lies less beyond half a turn is half a turn, rounded
MOST_BENDS = 60
FEW_BENDS = 3  # so many may be small ones that a little more scatter would hide
NEAR_SHARE = 0.5  # bends with less straight between them than this share of their CLR may be one bend
HOPELESS = 5.0  # mm; points that lie so far off come no nearer by moving the ends of the pieces
HIDDEN = 2.0  # an arc that passes its corner by less than so many times the scatter does not show its CLR
MOST_HIDDEN = 8  # more of them are scatter that was taken for bends
HIDDEN_TURN = np.radians(20.0)  # no larger turn is hidden, on whatever die set: it is a bend, or a corner
CORNER = 0.1  # mm; a CLR of less is none
MOST_SETTLINGS = 12  # a fit moves the ends of the pieces a little, which moves the fit less
SCATTERS = (0.001, 0.003, 0.01, 0.03, 0.1, 0.3)  # mm; tried in turn, the least that the points bear is taken

Found = tuple[AxisFit, list[Run]]  # a fit, and where its bends were looked for


def fitted_axis(points: Array, farthest: float, *, nearest: float = 0.0) -> AxisFit | None:
    """Least scattered tube that no point lies farther off than `farthest` [mm]; None if there is none.

    points : (n, 3) array in order along the axis, n >= 2, no two neighbours equal
    nearest : no more scatter than that is known not to be enough [mm]
    """
    scatters = [*(least for least in SCATTERS if nearest < least < farthest), farthest]
    shown = [bend_runs(points, scatter) for scatter in scatters]
    counts = [len(runs) for runs in shown]
    fits: dict[tuple[int, ...], list[AxisFit]] = {}
    found: list[Found] = []
    for scatter, runs, fewer in zip(scatters, shown, [*counts[1:], MOST_BENDS], strict=True):
        # Far more bends than points of a little more scatter would show are the scatter itself.
        if len(runs) <= min(2 * fewer + FEW_BENDS, MOST_BENDS):
            hidden = _hidden(points, runs, scatter)
            key = (*(index for run in runs for index in (run.first, run.last)), *hidden.tolist())
            if key not in fits:
                fits[key] = _fits(points, runs, hidden, scatter)
            these = [(fit, runs) for fit in fits[key]]
            found += these
            if any(_follows(fit, scatter) for fit, _ in these):
                return _simplified(*_plainest(found, scatter), points, scatter)
    # Where bends as more scatter shows them lead nowhere, those that less showed may still do.
    for scatter, count in zip(scatters, counts, strict=True):
        fewest = [(fit, runs) for fit, runs in found if len(runs) <= count]
        if any(_follows(fit, scatter) for fit, _ in fewest):
            return _simplified(*_plainest(fewest, scatter), points, scatter)
    return None


def _follows(fit: AxisFit, scatter: float) -> bool:
    """Whether no point lies farther off a fit than that."""
    return bool(fit.distances.max() <= scatter)


def _plainest(found: list[Found], scatter: float) -> Found:
    """Of the fits that points follow, the first of those with fewest bends."""
    return min((one for one in found if _follows(one[0], scatter)), key=lambda one: len(one[1]))


def _simplified(fit: AxisFit, runs: list[Run], points: Array, scatter: float) -> AxisFit:
    """Fit with as few bends: neighbours that may be one bend, as far as the points can tell, become one."""
    bend = 0
    while bend < len(runs) - 1:
        fewer = [*runs[:bend], _joined(runs[bend], runs[bend + 1]), *runs[bend + 2 :]]
        near = fit.straights[bend + 1] < NEAR_SHARE * min(fit.clr[bend], fit.clr[bend + 1])
        tried = _fits(points, fewer, _hidden(points, fewer, scatter), scatter) if near else []
        joined = next((one for one in tried if _follows(one, scatter)), None)
        if joined is not None:
            fit, runs = joined, fewer
        else:
            bend += 1
    return fit


def _joined(run: Run, following: Run) -> Run:
    normal: Array = run.turn * run.normal + following.turn * following.normal
    size = max(float(np.sqrt(normal @ normal)), 1e-9)
    return Run(first=run.first, last=following.last, turn=run.turn + following.turn, normal=normal / size)


def _hidden(points: Array, runs: list[Run], scatter: float) -> NDArray[np.bool_]:
    """Bends so small that scatter hides by how much their arcs pass the corner, and so how large their CLR is."""
    arcs = np.array([float(np.linalg.norm(points[run.last] - points[run.first])) for run in runs])
    turns = np.array([run.turn for run in runs])
    hidden: NDArray[np.bool_] = (arcs * turns / 8.0 < HIDDEN * scatter) & (turns < HIDDEN_TURN)
    return hidden


def _fits(points: Array, runs: list[Run], hidden: NDArray[np.bool_], scatter: float) -> list[AxisFit]:
    """Tubes with those bends; the second, where the first is not within the scatter, with hidden CLR as first guessed.

    A CLR that scatter hides may run away, or lead astray; that of the first guess will do, and is marked unknown.
    """
    fit = _settled_with_pieces(points, runs, np.zeros(len(runs), dtype=bool))
    fits = [] if fit is None else [fit]
    if any(_follows(one, scatter) for one in fits) or not 0 < hidden.sum() <= MOST_HIDDEN:
        return fits
    held = _settled_with_pieces(points, runs, hidden)
    unknown = [] if held is None else [replace(held, clr_within=np.where(hidden, np.inf, held.clr_within))]
    return [*fits, *unknown]


def _settled_with_pieces(points: Array, runs: list[Run], held: NDArray[np.bool_]) -> AxisFit | None:
    """Tube with those bends, fitted, its pieces' ends found anew, fitted again; None where it becomes impossible."""
    rounds = _last_rounds(points, runs, held)
    if not rounds:
        return None
    fit, pieces = min(rounds, key=lambda fitted: distances_of_fit(fitted[0], points, fitted[1]).max())
    rotations = HALF_TURN - np.remainder(HALF_TURN - fit.rotations, 2.0 * np.pi)
    # Nothing shows the CLR of an arc without points; if it is still next to nothing, as first guessed, it is a corner.
    empty = pieces[1:-1:2] == pieces[2::2]
    within = np.where(empty, np.where(fit.clr < CORNER, 0.0, np.inf), clr_within(fit, points, pieces))
    return replace(fit, rotations=rotations, distances=distances_of_fit(fit, points, pieces), clr_within=within)


def _last_rounds(points: Array, runs: list[Run], held: NDArray[np.bool_]) -> list[tuple[AxisFit, NDArray[np.intp]]]:
    """Fits, each with the pieces found by it, where another round changes nothing; none where they become impossible.

    There may be several: a point between two pieces may be found on the one and on the other by turns.
    """
    rounds = [(_first_guess(points, runs), _pieces_of_runs(runs, len(points)))]
    for _ in range(MOST_SETTLINGS):
        fit, pieces = rounds[-1]
        fit = settled(fit, points, pieces, held)
        if not _possible(fit) or distances_of_fit(fit, points, pieces).max() > HOPELESS:
            return []
        found = _pieces_of_fit(fit, points, pieces)
        seen = [np.array_equal(found, earlier) for _, earlier in rounds]
        rounds.append((fit, found))
        if any(seen):
            return rounds[seen.index(True) + 1 :]
    return rounds[-1:]


def _possible(fit: AxisFit) -> bool:
    return bool((fit.clr > 0.0).all() and (fit.angles > 0.0).all() and (fit.angles < 2.0 * np.pi).all())


def _pieces_of_runs(runs: list[Run], count: int) -> NDArray[np.intp]:
    """Index of the first point of each piece, straight and arc by turns, and the number of points at the end."""
    inner = [index for run in runs for index in (run.first, run.last)]
    return np.array([0, *inner, count], dtype=np.intp)


def _pieces_of_fit(fit: AxisFit, points: Array, pieces: NDArray[np.intp]) -> NDArray[np.intp]:
    """Pieces anew: a point is behind a tangent point if it lies behind the plane across the axis there."""
    starts, frames = placed_pieces(fit)
    found = pieces.copy()
    for boundary in range(1, len(pieces) - 1):
        low, high = (pieces[boundary - 1] + pieces[boundary]) // 2, (pieces[boundary] + pieces[boundary + 1]) // 2
        ahead = (points[low:high] - starts[boundary]) @ frames[boundary, :, 0] > 0.0
        found[boundary] = low + (int(np.argmax(ahead)) if ahead.any() else high - low)
    return np.maximum.accumulate(found)


def _first_guess(points: Array, runs: list[Run]) -> AxisFit:
    along = np.concatenate(([0.0], np.cumsum(lengths(np.diff(points, axis=0)))))
    ends = list(zip([0, *(run.last for run in runs)], [*(run.first for run in runs), len(points) - 1], strict=True))
    straights = np.array([along[last] - along[first] for first, last in ends])
    directions = np.array([_direction(points, first, last) for first, last in ends])
    normals = np.array([run.normal for run in runs]).reshape(-1, 3)
    angles = np.array([run.turn for run in runs])
    arcs = np.array([max(along[run.last] - along[run.first], 1e-3) for run in runs])
    rotations = np.zeros(len(runs))
    if len(runs) > 1:
        rotations[1:] = signed_angles_about(directions[1:-1], normals[:-1], normals[1:])
    return AxisFit(
        straights=straights,
        rotations=rotations,
        angles=angles,
        clr=arcs / angles,
        frame=_frame_of_first_bend(directions[0], normals[0] if runs else None),
        shift=points[0],
        distances=np.zeros(len(points)),
        clr_within=np.zeros(len(runs)),
    )


def _direction(points: Array, first: int, last: int) -> Array:
    """Direction of a straight; where it has no length, of the points on both sides of it."""
    step = points[last] - points[first] if last > first else points[min(last + 1, len(points) - 1)] - points[first - 1]
    return unit(step)


def _frame_of_first_bend(direction: Array, normal: Array | None) -> Array:
    """Axes, as columns, along the first straight, towards the inside of the first bend, and along its normal."""
    if normal is None:
        normal = np.eye(3)[int(np.argmin(np.abs(direction)))]
    inward = unit(cross(normal, direction))
    return np.stack((direction, inward, cross(direction, inward)), axis=1)
