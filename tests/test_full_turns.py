"""Turns without their full turns: as a position within half a turn, and as a difference the shorter way round."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bendgen.units import shorter_way, within_half_turn

ANY_TURN = st.floats(-1e6, 1e6)
HALF_A_TURN = st.floats(-180.0, 180.0, exclude_min=True)
FULL_TURNS = st.integers(-1000, 1000)


def test_by_hand() -> None:
    turns = (0.0, 90.0, 180.0, 180.5, 270.0, 360.0, 540.0, -0.1, -90.0, -180.0, -180.5, -270.0, -540.0)
    within = (0.0, 90.0, 180.0, -179.5, -90.0, 0.0, 180.0, -0.1, -90.0, 180.0, 179.5, 90.0, 180.0)
    assert tuple(map(within_half_turn, turns)) == within
    differences = (0.0, 90.0, 180.0, 180.5, 270.0, -90.0, -180.0, -180.5, 359.0)
    assert tuple(map(shorter_way, differences)) == (0.0, 90.0, -180.0, -179.5, -90.0, -90.0, -180.0, 179.5, -1.0)


@given(ANY_TURN)
def test_a_position_lies_in_minus_180_to_180_and_180_belongs_to_it(turn: float) -> None:
    assert -180.0 < within_half_turn(turn) <= 180.0


@pytest.mark.parametrize("turn", [0.0, -0.0, 360.0, -360.0])
def test_no_turn_is_0_and_never_minus_0(turn: float) -> None:
    assert math.copysign(1.0, within_half_turn(turn)) == 1.0


@given(HALF_A_TURN)
def test_what_lies_within_half_a_turn_stays_to_the_last_bit(turn: float) -> None:
    assert within_half_turn(turn) == turn


@given(ANY_TURN)
def test_a_position_is_full_turns_away_to_the_last_bit(turn: float) -> None:
    assert math.remainder(within_half_turn(turn) - turn, 360.0) == 0.0


@given(HALF_A_TURN, FULL_TURNS)
def test_full_turns_make_no_difference(turn: float, turns: int) -> None:
    near_half = abs(turn) > 180.0 - 1e-9  # noise takes one half turn for the other
    assert near_half or math.isclose(within_half_turn(turn + 360.0 * turns), turn, abs_tol=1e-9)
    assert near_half or math.isclose(shorter_way(turn + 360.0 * turns), turn, abs_tol=1e-9)


@given(ANY_TURN)
def test_no_way_round_is_shorter(difference: float) -> None:
    shorter = abs(shorter_way(difference))
    assert shorter <= 180.0
    assert shorter <= min(abs(difference + 360.0 * turns) for turns in range(-2, 3)) + 1e-9


@given(st.lists(ANY_TURN, max_size=8))
def test_the_shorter_way_is_the_same_for_an_array(differences: list[float]) -> None:
    np.testing.assert_array_equal(shorter_way(np.array(differences, dtype=float)), list(map(shorter_way, differences)))
