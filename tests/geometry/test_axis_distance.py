"""Points on and off the axis of a bent tube, by places known beforehand."""

import numpy as np
import pytest

from bendgen.geometry.axis_distance import Axis, fitted_to_axis, nearest_on_axis
from bendgen.geometry.rotations import rotation_about

# 100 mm along x, a quarter circle of 50 mm towards y, 80 mm along y.
ELBOW = Axis(
    points=np.array([(0.0, 0, 0), (100, 0, 0), (150, 50, 0), (150, 130, 0)]),
    directions=np.array([(1.0, 0, 0), (0, 1, 0)]),
    angles=np.array([np.pi / 2]),
    clr=np.array([50.0]),
)
HALF = 50.0 * np.sqrt(0.5)


@pytest.mark.parametrize(
    ("point", "nearest", "piece"),
    [
        ((40.0, 3.0, 4.0), (40.0, 0.0, 0.0), 0),
        ((-7.0, 2.0, 0.0), (0.0, 0.0, 0.0), 0),
        ((150.0, 200.0, 1.0), (150.0, 130.0, 0.0), 2),
        ((100.0 + 1.2 * HALF, 50.0 - 1.2 * HALF, 5.0), (100.0 + HALF, 50.0 - HALF, 0.0), 1),
        ((101.0, 49.0, 0.0), (100.0 + HALF, 50.0 - HALF, 0.0), 1),
        ((155.0, 90.0, 0.0), (150.0, 90.0, 0.0), 2),
    ],
)
def test_nearest_point(point: tuple[float, ...], nearest: tuple[float, ...], piece: int) -> None:
    found, pieces = nearest_on_axis(np.array([point]), ELBOW)
    np.testing.assert_allclose(found[0], nearest, atol=1e-12)
    assert pieces[0] == piece


def test_an_arc_ends_at_its_tangent_points() -> None:
    """Beyond a half circle the nearer end is nearest."""
    half_turn = Axis(
        points=np.array([(0.0, 0, 0), (10, 0, 0), (10, 40, 0), (0, 40, 0)]),
        directions=np.array([(1.0, 0, 0), (-1, 0, 0)]),
        angles=np.array([np.pi]),
        clr=np.array([20.0]),
    )
    found, _ = nearest_on_axis(np.array([(5.0, 21.0, 0.0), (5.0, 19.0, 0.0)]), half_turn)
    np.testing.assert_allclose(found, [(5.0, 40.0, 0.0), (5.0, 0.0, 0.0)], atol=1e-12)


def test_points_from_anywhere_are_laid_back_on_their_axis() -> None:
    at = np.linspace(0.0, np.pi / 2, 40)
    points = np.concatenate(
        (
            np.column_stack((np.linspace(0.0, 100.0, 50), np.zeros((50, 2)))),
            np.column_stack((100.0 + 50.0 * np.sin(at), 50.0 - 50.0 * np.cos(at), np.zeros(40))),
            np.column_stack((np.full(50, 150.0), np.linspace(50.0, 130.0, 50), np.zeros(50))),
        )
    )
    turn = rotation_about(np.array([0.7, -1.9, 0.4]))
    np.testing.assert_allclose(fitted_to_axis(points @ turn + (300.0, -20.0, 55.0), ELBOW), points, atol=1e-6)


def test_a_rotation_about_an_axis_is_that_about_z_where_it_is_z() -> None:
    turned = rotation_about(np.array([0.0, 0.0, np.pi / 2])) @ (1.0, 0.0, 0.0)
    np.testing.assert_allclose(turned, (0.0, 1.0, 0.0), atol=1e-15)
    np.testing.assert_allclose(rotation_about(np.zeros(3)), np.eye(3))
