"""The tube of straights and arcs for which the squared distances of points are least, from one that is near it."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from bendgen.geometry.axis_residuals import AxisFit, clr_places, normal_equations, squares_of_fit
from bendgen.geometry.rotations import rotation_about
from bendgen.geometry.vectors import Array

POINTS_A_PIECE = 100  # a fit takes no more from each straight or arc; distances are taken of all
MOST_STEPS = 30
MOST_HALVINGS = 8
MOST_SLOW_STEPS = 5  # steps that win less than half: points that follow the tube take hardly any
SETTLED = 1e-9  # share of the squares' sum that a step may still win
RANK = 1e-13  # share of the largest singular value below which a combination of unknowns does nothing
COVERAGE = 2.0  # k of an expanded uncertainty
NOISE = 1e-18  # mm², a point: below it the last digits are all that is left


def settled(fit: AxisFit, points: Array, pieces: NDArray[np.intp], held: NDArray[np.bool_]) -> AxisFit:
    """Fit whose squared distances no small change makes less, from a fit near it; by damped Gauss-Newton steps.

    pieces : index of the first point of each straight and arc by turns, and the number of points
    held : (n,) array, the CLR that stay as they are
    """
    points, pieces = _thinned(points, pieces)
    slow_steps = 0
    for _ in range(MOST_STEPS):
        equations = normal_equations(fit, points, pieces)
        change = _newton_change(equations.slopes, equations.curvatures, clr_places(len(held))[held])
        for halving in range(MOST_HALVINGS):
            tried = moved(fit, 0.5**halving * change)
            squares = squares_of_fit(tried, points, pieces)
            if squares < equations.squares:
                break
        else:
            return fit
        fit = tried
        slow_steps += squares > 0.5 * equations.squares
        won_nothing = equations.squares - squares <= SETTLED * equations.squares
        if won_nothing or equations.squares < NOISE * len(points) or slow_steps >= MOST_SLOW_STEPS:
            return fit
    return fit


def clr_within(fit: AxisFit, points: Array, pieces: NDArray[np.intp]) -> Array:
    """Half width (k = 2) of each CLR of a settled fit, (n,) [mm], by linear propagation of the points' own scatter.

    References
    ----------
    [JCGM100], 5.1
    """
    points, pieces = _thinned(points, pieces)
    equations = normal_equations(fit, points, pieces)
    # Of every point two coordinates say something, the one along the axis does not.
    spare = max(2 * len(points) + 2 - len(equations.slopes), 1)
    size = _sizes(equations.curvatures)
    inverse = np.linalg.pinv(equations.curvatures / np.outer(size, size), rcond=RANK, hermitian=True)
    variances = np.diagonal(inverse) * equations.squares / spare / size**2
    half_widths: Array = COVERAGE * np.sqrt(np.maximum(variances[clr_places(len(fit.clr))], 0.0))
    return half_widths


def _newton_change(slopes: Array, curvatures: Array, held: NDArray[np.intp]) -> Array:
    """Change of the unknowns that takes most of the squares away, by normal equations with columns of one size.

    A factorisation of the thousands of distances would be more exact than iteration needs.
    """
    slopes[held], curvatures[held], curvatures[:, held] = 0.0, 0.0, 0.0
    size = _sizes(curvatures)
    change: Array = np.linalg.lstsq(curvatures / np.outer(size, size), -slopes / size, rcond=RANK)[0] / size
    return change


def _sizes(curvatures: Array) -> Array:
    """How much each unknown does to the distances, 1 for one that does nothing."""
    size: Array = np.sqrt(np.diagonal(curvatures))
    size[size == 0.0] = 1.0
    return size


def _thinned(points: Array, pieces: NDArray[np.intp]) -> tuple[Array, NDArray[np.intp]]:
    """At most so many points of each piece, evenly, its ends among them."""
    kept = [
        np.unique(np.linspace(first, last - 1, min(last - first, POINTS_A_PIECE)).astype(np.intp))
        for first, last in zip(pieces[:-1].tolist(), pieces[1:].tolist(), strict=True)
    ]
    starts = np.concatenate(([0], np.cumsum([len(piece) for piece in kept])))
    return points[np.concatenate(kept)], starts


def moved(fit: AxisFit, change: Array) -> AxisFit:
    """Fit whose unknowns, in the order of `normal_equations`, are changed."""
    n = len(fit.clr)
    parts = np.split(change, np.cumsum([n + 1, max(n - 1, 0), n, n, 3]))
    straights, later_rotations, angles, clr, turn, shift = parts
    return replace(
        fit,
        straights=fit.straights + straights,
        rotations=fit.rotations + np.concatenate((np.zeros(min(n, 1)), later_rotations)),
        angles=fit.angles + angles,
        clr=fit.clr + clr,
        frame=rotation_about(turn) @ fit.frame,
        shift=fit.shift + shift,
    )
