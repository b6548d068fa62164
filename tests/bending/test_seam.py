"""The first rotation for a weld seam, against a search over all rotations."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bendgen.bending.seam import first_rotation, seam_positions

ANGLE = st.floats(1.0, 170.0)
TURN = st.floats(-179.0, 180.0)


def strain(first: float, angles: list[float], rotations: list[float], seam: float) -> float:
    clock = seam + first
    total = 0.0
    for i, (angle, rotation) in enumerate(zip(angles, rotations, strict=True)):
        clock += rotation if i else 0.0
        total += angle * math.sin(math.radians(clock)) ** 2
    return total


@given(bends=st.lists(st.tuples(ANGLE, TURN), min_size=1, max_size=8), seam=TURN)
def test_no_other_first_rotation_keeps_the_seam_farther_from_inside_and_outside(
    bends: list[tuple[float, float]], seam: float
) -> None:
    angles, rotations = [angle for angle, _ in bends], [rotation for _, rotation in bends]
    first = first_rotation(np.array(angles), np.array(rotations), seam)
    assert -90.0 < first <= 90.0
    best = min(strain(other, angles, rotations, seam) for other in range(-90, 91))
    assert strain(first, angles, rotations, seam) <= best + 1e-9 * sum(angles)


def test_two_equal_bends_a_quarter_turn_apart_leave_nothing_to_choose() -> None:
    assert first_rotation(np.array([90.0, 90.0]), np.array([0.0, 90.0]), 30.0) == 0.0


def test_a_seam_on_the_outside_of_a_single_bend_is_turned_a_quarter() -> None:
    assert first_rotation(np.array([90.0]), np.array([0.0]), 90.0) == pytest.approx(90.0)


def test_the_seam_is_carried_along_the_part() -> None:
    assert seam_positions(90.0, (-90.0, 180.0, 45.0)) == pytest.approx((0.0, 180.0, -135.0))
