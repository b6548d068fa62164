"""A bend drawn as two angles has two readings; values computed twice elsewhere for 15° up and 10° back."""

import math

import numpy as np
import pytest

from bendgen.geometry.view_angles import bend_from_turns, bend_from_views

UP, BACK = math.radians(15.0), math.radians(10.0)


def test_angles_of_two_views() -> None:
    bend, roll = bend_from_views(UP, BACK)
    assert math.degrees(bend) == pytest.approx(17.78424, abs=5e-6)
    assert math.degrees(roll) == pytest.approx(33.34737, abs=5e-6)


def test_angles_one_after_the_other() -> None:
    assert math.degrees(bend_from_turns(UP, BACK)[0]) == pytest.approx(17.96386, abs=5e-6)


def test_a_direction_seen_in_two_views() -> None:
    bend, roll = bend_from_views(UP, BACK)
    along = math.cos(bend)
    across = math.sin(bend) * np.array([math.cos(roll), math.sin(roll)])
    assert np.degrees(np.arctan(across / along)) == pytest.approx([15.0, 10.0])


def test_turns_one_after_the_other_with_matrices() -> None:
    first = np.array([[math.cos(UP), -math.sin(UP), 0.0], [math.sin(UP), math.cos(UP), 0.0], [0.0, 0.0, 1.0]])
    second = np.array([[math.cos(BACK), 0.0, -math.sin(BACK)], [0.0, 1.0, 0.0], [math.sin(BACK), 0.0, math.cos(BACK)]])
    direction = first @ second @ np.array([1.0, 0.0, 0.0])
    bend, roll = bend_from_turns(UP, BACK)
    assert math.cos(bend) == pytest.approx(direction[0])
    assert math.tan(roll) == pytest.approx(direction[2] / direction[1])


@pytest.mark.parametrize("read", [bend_from_views, bend_from_turns])
def test_one_angle_alone_has_one_reading(read: object) -> None:
    assert callable(read)
    assert read(UP, 0.0) == pytest.approx((UP, 0.0))
    assert read(0.0, BACK) == pytest.approx((BACK, math.pi / 2.0))
    assert read(-UP, 0.0) == pytest.approx((UP, math.pi))
