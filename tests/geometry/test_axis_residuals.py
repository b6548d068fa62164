"""How a fit's squares change with its measures, against differences of the squares themselves."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.geometry.axis_residuals import AxisFit, distances_of_fit, normal_equations, squares_of_fit
from bendgen.geometry.axis_settling import moved
from bendgen.geometry.bent_axes import bent_axes, frames_of_tube
from bendgen.geometry.rotations import rotation_about
from bendgen.geometry.vectors import Array

STEP = 1e-4  # mm or rad; a difference to both sides is off by the square of that


def random_fit(bends: int, seed: int) -> AxisFit:
    rng = np.random.default_rng(seed)
    return AxisFit(
        straights=rng.uniform(0.0, 200.0, bends + 1),
        rotations=np.concatenate((np.zeros(min(bends, 1)), rng.uniform(-np.pi, np.pi, max(bends - 1, 0)))),
        angles=rng.uniform(0.05, 5.0, bends),
        clr=rng.uniform(20.0, 300.0, bends),
        frame=rotation_about(rng.normal(0.0, 1.0, 3)),
        shift=rng.normal(0.0, 500.0, 3),
        distances=np.zeros(0),
        clr_within=np.zeros(bends),
    )


def scattered_points(fit: AxisFit, seed: int) -> tuple[Array, np.ndarray]:
    """Some points near each piece, none near the third unless that is the last."""
    starts, _ = bent_axes(fit.straights[None], fit.rotations[None], fit.angles[None], fit.clr[None])
    corners = starts[0] @ fit.frame.T + fit.shift
    counts = np.array([0 if piece == 2 < len(corners) - 2 else 4 for piece in range(len(corners) - 1)])
    rng = np.random.default_rng(seed)
    shares = rng.uniform(0.0, 1.0, (int(counts.sum()), 1))
    piece = np.repeat(np.arange(len(counts)), counts)
    points = corners[piece] + shares * (corners[piece + 1] - corners[piece]) + rng.normal(0.0, 2.0, (len(piece), 3))
    return points, np.concatenate(([0], np.cumsum(counts)))


@given(bends=st.integers(0, 6), seed=st.integers(0, 2**32 - 1))
@settings(max_examples=60)
def test_slopes_are_those_of_the_squares(bends: int, seed: int) -> None:
    fit = random_fit(bends, seed)
    points, pieces = scattered_points(fit, seed)
    equations = normal_equations(fit, points, pieces)
    assert equations.squares == pytest.approx(squares_of_fit(fit, points, pieces), rel=1e-9)
    both = [
        [squares_of_fit(moved(fit, sign * STEP * change), points, pieces) for sign in (1.0, -1.0)]
        for change in np.eye(len(equations.slopes))
    ]
    differences = np.array([(more - less) / (4.0 * STEP) for more, less in both])
    # What a coordinate changes by at the end of a tube of metres, times its distance, is what a slope is made of.
    size = np.sqrt(np.diagonal(equations.curvatures) * equations.squares)
    assert np.abs(equations.slopes - differences) / np.maximum(size, 1.0) == pytest.approx(0.0, abs=1e-4)


@given(bends=st.integers(1, 6), seed=st.integers(0, 2**32 - 1))
@settings(max_examples=40)
def test_curvatures_are_those_of_points_on_the_tube(bends: int, seed: int) -> None:
    """Where nothing is off, the squares of a tube moved a little are the square form of the move."""
    fit = random_fit(bends, seed)
    on_axis, pieces = scattered_points(fit, seed)
    starts, frames = frames_of_tube(fit.straights, fit.rotations, fit.angles, fit.clr)
    piece = np.repeat(np.arange(len(pieces) - 1), np.diff(pieces))
    swept = np.linspace(0.1, 0.9, len(piece)) * fit.angles[np.minimum(piece // 2, bends - 1)]
    clr = fit.clr[np.minimum(piece // 2, bends - 1)]
    arc = np.column_stack((clr * np.sin(swept), clr * (1.0 - np.cos(swept)), 0.0 * clr))
    local = np.where((piece % 2 == 1)[:, None], arc, np.eye(3)[0] * np.linspace(0.0, 50.0, len(piece))[:, None])
    inside = np.einsum("pij,pj->pi", frames[piece], local) + starts[piece]
    on_axis[1:-1] = (inside @ fit.frame.T + fit.shift)[1:-1]
    on_axis[[0, -1]] = starts[[0, -1]] @ fit.frame.T + fit.shift
    assert distances_of_fit(fit, on_axis, pieces) == pytest.approx(0.0, abs=1e-9)
    change = 1e-6 * np.random.default_rng(seed).normal(0.0, 1.0, 4 * bends + 6)
    equations = normal_equations(fit, on_axis, pieces)
    expected = change @ equations.curvatures @ change
    assert squares_of_fit(moved(fit, change), on_axis, pieces) == pytest.approx(expected, rel=1e-3)
