"""B-spline curves and surfaces against scipy, and the circle that a rational one is."""

import numpy as np
from scipy.interpolate import BSpline

from bendgen.geometry.b_splines import basis_functions, curve_points, parameter_range, surface_points

CLAMPED = np.array([0.0, 0.0, 0.0, 0.0, 1.0, 2.5, 2.5, 4.0, 4.0, 4.0, 4.0])
ROOT = np.sqrt(0.5)
QUARTER = np.array([[1.0, 0.0, 0.0], [1.0, 1.0, 0.0], [0.0, 1.0, 0.0]])


def test_basis_functions_are_those_of_scipy_and_sum_to_one() -> None:
    at = np.linspace(0.0, 4.0, 41)
    ours = basis_functions(CLAMPED, 3, at)
    theirs = BSpline.design_matrix(at, CLAMPED, 3).toarray()
    assert np.allclose(ours, theirs, atol=1e-14)
    assert np.allclose(ours.sum(axis=1), 1.0, atol=1e-14)


def test_the_range_of_knots_that_do_not_repeat_at_the_ends() -> None:
    assert parameter_range(np.arange(8.0), 2) == (2.0, 5.0)


def test_a_rational_quarter_circle_is_round() -> None:
    basis = basis_functions(np.array([0.0, 0.0, 0.0, 1.0, 1.0, 1.0]), 2, np.linspace(0.0, 1.0, 9))
    points = curve_points(QUARTER, np.array([1.0, ROOT, 1.0]), basis)
    assert np.allclose(np.linalg.norm(points, axis=1), 1.0, atol=1e-15)
    assert np.allclose(points[[0, -1]], QUARTER[[0, -1]], atol=1e-15)


def test_a_quarter_cylinder() -> None:
    control = np.stack((QUARTER, QUARTER + np.array([0.0, 0.0, 5.0])), axis=1)
    weights = np.array([[1.0, 1.0], [ROOT, ROOT], [1.0, 1.0]])
    round_basis = basis_functions(np.array([0.0, 0.0, 0.0, 1.0, 1.0, 1.0]), 2, np.array([0.0, 0.3, 1.0]))
    long_basis = basis_functions(np.array([0.0, 0.0, 1.0, 1.0]), 1, np.array([0.0, 0.25]))
    grid = surface_points(control, weights, round_basis, long_basis)
    assert grid.shape == (3, 2, 3)
    assert np.allclose(np.hypot(grid[..., 0], grid[..., 1]), 1.0, atol=1e-15)
    assert np.allclose(grid[..., 2], [[0.0, 1.25]] * 3, atol=1e-15)
