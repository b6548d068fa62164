"""Bounds on angles of rounded paths, against derivatives taken by differences."""

from collections.abc import Callable

import numpy as np
import pytest

from bendgen.geometry.polylines import plane_rotations, segments, turning_angles
from bendgen.geometry.rounding_reach import rotation_reach, turn_reach
from bendgen.geometry.vectors import Array

PATH = np.array([(0.0, 0, 0), (300, 10, 0), (350, 220, 40), (300, 300, 260), (-40, 350, 200), (-100, 340, 500)])
SMALL = 1e-5


def by_differences(angles: Callable[[Array], Array]) -> Array:
    total = np.zeros_like(angles(PATH))
    for place in np.ndindex(*PATH.shape):
        up, down = PATH.copy(), PATH.copy()
        up[place] += SMALL
        down[place] -= SMALL
        total += np.abs(angles(up) - angles(down)) / (2.0 * SMALL)
    return total


def test_reach_of_turns() -> None:
    found = by_differences(lambda path: turning_angles(segments(path)[1]))
    np.testing.assert_allclose(turn_reach(PATH), found, rtol=1e-6)


def test_reach_of_rotations() -> None:
    found = by_differences(lambda path: plane_rotations(segments(path)[1]))
    np.testing.assert_allclose(rotation_reach(PATH), found, rtol=1e-6)


def test_reach_of_a_right_angle_by_hand() -> None:
    # Legs of 100 and 50 along x and y: the first vertex counts 1/100 across, the last 1/50 across, the corner both.
    path = np.array([(0.0, 0, 0), (100, 0, 0), (100, 50, 0)])
    assert turn_reach(path)[0] == pytest.approx(2.0 * (1.0 / 100.0 + 1.0 / 50.0))
    assert rotation_reach(path).shape == (0,)
