"""Rigid fits undo a move exactly and never mirror."""

import numpy as np
import pytest
from hypothesis import given, settings

from bendgen.geometry.rigid_fit import rigid_fit
from tests.independent_bender import Array
from tests.random_jobs import placements

HOOK = np.array([(0.0, 0, 0), (100, 0, 0), (100, 60, 0), (140, 60, 30)])


@given(placements())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_a_moved_shape_is_laid_back(placement: tuple[Array, Array]) -> None:
    turn, shift = placement
    rotation, translation = rigid_fit(HOOK @ turn.T + shift, HOOK)
    np.testing.assert_allclose((HOOK @ turn.T + shift) @ rotation + translation, HOOK, atol=1e-9)
    assert np.linalg.det(rotation) == pytest.approx(1.0)


def test_a_mirrored_shape_is_not_matched() -> None:
    rotation, translation = rigid_fit(HOOK * (1, 1, -1), HOOK)
    left = HOOK * (1, 1, -1) @ rotation + translation - HOOK
    assert np.linalg.det(rotation) == pytest.approx(1.0)
    assert np.abs(left).max() > 5.0


@pytest.mark.parametrize(
    "points",
    [np.array([(5.0, 6.0, 7.0)]), np.array([(0.0, 0, 0), (9, 0, 0)]), np.array([(0.0, 0, 0), (9, 0, 0), (9, 9, 0)])],
)
def test_points_lines_and_flat_shapes_still_get_a_proper_fit(points: Array) -> None:
    turned = points[:, [1, 2, 0]] + 4.0
    rotation, translation = rigid_fit(turned, points)
    np.testing.assert_allclose(turned @ rotation + translation, points, atol=1e-12)
    assert np.linalg.det(rotation) == pytest.approx(1.0)
