"""Tubes found again in points along their axis; the points come from a moving frame of the tests' own."""

import numpy as np
import pytest

from bendgen.geometry.axis_fit import fitted_axis
from bendgen.geometry.axis_residuals import AxisFit
from tests.sampled_axis import sampled_axis

Bends = list[tuple[float, float, float]]

TUBES: dict[str, tuple[list[float], Bends]] = {
    "straight": ([500.0], []),
    "two bends": ([300.0, 150.0, 200.0], [(0.0, 90.0, 100.0), (90.0, 90.0, 100.0)]),
    "six bends": (
        [200.0, 120.0, 220.0, 260.0, 240.0, 300.0, 200.0],
        [
            *((0.0, 56.0, 100.0), (40.0, 45.0, 100.0), (-70.0, 70.0, 100.0)),
            *((120.0, 60.0, 100.0), (180.0, 80.0, 100.0), (30.0, 50.0, 100.0)),
        ],
    ),
    "170 degrees": ([300.0, 500.0, 500.0, 300.0], [(0.0, 70.0, 40.0), (90.0, 170.0, 40.0), (-90.0, 70.0, 40.0)]),
    "half a turn": ([300.0, 200.0, 300.0], [(0.0, 180.0, 60.0), (180.0, 45.0, 60.0)]),
    "more than half a turn": ([300.0, 200.0, 300.0], [(0.0, 210.0, 60.0), (90.0, 45.0, 60.0)]),
    "a short straight": ([100.0, 12.0, 100.0], [(0.0, 60.0, 50.0), (60.0, 60.0, 50.0)]),
    "no straight, another plane": ([100.0, 0.0, 100.0], [(0.0, 60.0, 50.0), (90.0, 60.0, 50.0)]),
    "two radii": ([300.0, 200.0, 300.0], [(0.0, 30.0, 400.0), (180.0, 20.0, 100.0)]),
    "small bends": ([300.0, 200.0, 300.0], [(0.0, 5.0, 100.0), (180.0, 3.0, 100.0)]),
}


def fitted(points: np.ndarray, farthest: float = 0.3) -> AxisFit:
    fit = fitted_axis(points, farthest)
    assert fit is not None
    return fit


@pytest.mark.parametrize("spacing", [0.5, 4.0, 11.0])
@pytest.mark.parametrize("name", TUBES)
def test_exact_points(name: str, spacing: float) -> None:
    straights, bends = TUBES[name]
    fit = fitted(sampled_axis(straights, bends, spacing))
    assert fit.distances.max() < 1e-3
    assert len(fit.clr) == len(bends)
    assert fit.straights == pytest.approx(straights, abs=0.05)
    assert np.degrees(fit.angles) == pytest.approx([bend[1] for bend in bends], abs=0.02)
    assert np.degrees(fit.rotations) == pytest.approx([bend[0] for bend in bends], abs=0.02)
    assert fit.clr == pytest.approx([bend[2] for bend in bends], rel=2e-3)


@pytest.mark.parametrize("name", ["two bends", "six bends", "170 degrees", "half a turn"])
def test_points_with_straights_of_two_points_are_exact(name: str) -> None:
    """A drawing broken up into chords has no points inside its straights."""
    straights, bends = TUBES[name]
    points = sampled_axis(straights, bends, 6.0)
    steps = np.diff(points, axis=0)
    directions = steps / np.linalg.norm(steps, axis=1)[:, None]
    turns = np.linalg.norm(np.diff(directions, axis=0), axis=1) > 1e-9
    fit = fitted(points[np.concatenate(([True], turns, [True]))])
    assert fit.straights == pytest.approx(straights, abs=1e-6)
    assert np.degrees(fit.angles) == pytest.approx([bend[1] for bend in bends], abs=1e-7)


@pytest.mark.parametrize("noise", [0.001, 0.05])
@pytest.mark.parametrize("name", ["straight", "six bends", "half a turn"])
def test_scattered_points(name: str, noise: float) -> None:
    """No more can be asked than that the tube is as near as the points scatter."""
    straights, bends = TUBES[name]
    fit = fitted(sampled_axis(straights, bends, 2.0, noise=noise))
    assert len(fit.clr) == len(bends)
    assert fit.distances.max() < 6.0 * noise
    assert np.degrees(fit.angles) == pytest.approx([bend[1] for bend in bends], abs=2.0 * noise)
    assert fit.clr == pytest.approx([bend[2] for bend in bends], abs=8.0 * noise)


SMALL = [(5.0, 3.0, 0.02, 1.0), (3.0, 3.0, 0.02, 1.0), (3.0, 3.0, 0.02, 4.0), (10.0, 5.0, 0.05, 1.0)]


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize(("first", "second", "noise", "spacing"), SMALL)
def test_small_bends_in_scattered_points(first: float, second: float, noise: float, spacing: float, seed: int) -> None:
    """Arcs that pass their corners by no more than the scatter: the angles are told, the CLR as well as may be."""
    bends = [(0.0, first, 100.0), (180.0, second, 100.0)]
    fit = fitted(sampled_axis([300.0, 200.0, 300.0], bends, spacing, noise=noise, seed=seed))
    assert np.degrees(fit.angles) == pytest.approx([first, second], abs=0.05)
    assert (np.abs(fit.clr - 100.0) < 2.0 * fit.clr_within).all()


def test_how_well_a_clr_is_known() -> None:
    """The half width holds about 95 of 100 fits of points that scatter anew (a normal distribution's two sigma)."""
    fits = [
        fitted(
            sampled_axis([200.0, 150.0, 200.0], [(0.0, 60.0, 100.0), (90.0, 20.0, 100.0)], 5.0, noise=0.03, seed=seed)
        )
        for seed in range(40)
    ]
    held = np.array([np.abs(fit.clr - 100.0) < fit.clr_within for fit in fits])
    assert 0.85 <= held.mean() < 1.0
    spread = 2.0 * np.std([fit.clr for fit in fits], axis=0)
    assert np.mean([fit.clr_within for fit in fits], axis=0) == pytest.approx(spread, rel=0.35)


@pytest.mark.parametrize("seed", range(6))
def test_a_small_bend_between_points_far_apart_is_not_taken_for_a_large_radius(seed: int) -> None:
    """Two points on an arc of 5 mm: whatever CLR comes out, the true one lies within what the points leave open."""
    bends = [(0.0, 60.0, 100.0), (90.0, 3.0, 100.0)]
    fit = fitted(sampled_axis([300.0, 150.0, 350.0], bends, 8.0, noise=0.02, seed=seed))
    assert np.degrees(fit.angles) == pytest.approx([60.0, 3.0], abs=0.05)
    assert (np.abs(fit.clr - 100.0) < 2.0 * fit.clr_within).all()


def test_exact_points_leave_nothing_open() -> None:
    straights, bends = TUBES["two bends"]
    assert fitted(sampled_axis(straights, bends, 3.0)).clr_within.max() < 1e-6


def test_vertices_lie_where_the_straights_meet() -> None:
    straights, bends = TUBES["two bends"]
    points = sampled_axis(straights, bends, 3.0)
    vertices = fitted(points).vertices()
    assert vertices[[0, -1]] == pytest.approx(points[[0, -1]], abs=1e-9)
    legs = np.linalg.norm(np.diff(vertices, axis=0), axis=1)
    assert legs == pytest.approx([400.0, 350.0, 300.0], abs=1e-9)  # a right angle's tangent length is its CLR


def test_points_that_follow_no_tube() -> None:
    spiral = np.linspace(0.3, 6.0, 200)[:, None]
    points = np.hstack((spiral**2 * np.cos(spiral), spiral**2 * np.sin(spiral), spiral)) * 40.0
    assert fitted_axis(points, 0.05) is None
