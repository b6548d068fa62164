"""Room of each step against a sweep done in many small moves, point by point."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.bending.envelope import swings
from bendgen.bending.modelled_machine import Moves, Played, play
from bendgen.records.bend_program import Swing

OD = 30.0
R = 100.0


def played_of(feeds: list[float], rotations: list[float], angles: list[float], side: str = "left") -> Played:
    return play(
        Moves(
            feeds=np.array(feeds),
            rotations_deg=np.array(rotations),
            angles_deg=np.array(angles),
            clr=np.full(len(feeds), R),
            front_trim=0.0,
            rear=100.0,
            side=side,
        )
    )


def swings_of(feeds: list[float], rotations: list[float], angles: list[float], side: str = "left") -> tuple[Swing, ...]:
    played = played_of(feeds, rotations, angles, side)
    return swings(played, np.array(rotations), np.full(len(feeds), R), OD, side)


def swept(
    feeds: list[float], rotations: list[float], angles: list[float], side: str
) -> list[tuple[float, float, float]]:
    """Radius, lowest point and reach of the tube's axis alone, found by moving many points of it little by little."""
    axis = np.zeros((1, 3))  # points ahead of the tangent line, in the machine's frame
    to_die = 1.0 if side == "left" else -1.0
    found = []
    for feed, rotation, angle in zip(feeds, rotations, angles, strict=True):
        axis = np.vstack(
            (axis + np.array([feed, 0, 0]), np.column_stack((np.linspace(0, feed, 40), np.zeros((40, 2)))))
        )
        lowest = min(axis[:, 2].min(), 0.0)
        for _ in range(180):
            axis = _spun(axis, 1, 2, rotation / 180.0)
            lowest = min(lowest, axis[:, 2].min())
        reach = axis[:, 0].max()
        about_die = axis - np.array([0, to_die * R, 0])
        radius = np.hypot(about_die[:, 0], about_die[:, 1]).max()
        found.append((radius, lowest, reach))
        axis = _spun(about_die, 0, 1, to_die * angle) + np.array([0, to_die * R, 0])
        turns = np.radians(np.linspace(0, angle, 60))
        arc = np.column_stack((R * np.sin(turns), to_die * R * (1 - np.cos(turns)), 0 * turns))
        axis = np.vstack((axis, arc))
    return found


def _spun(points: np.ndarray, i: int, j: int, angle: float) -> np.ndarray:
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    turned = points.copy()
    turned[:, i] = c * points[:, i] - s * points[:, j]
    turned[:, j] = s * points[:, i] + c * points[:, j]
    return turned


@given(
    st.lists(st.tuples(st.floats(5.0, 400.0), st.floats(-180.0, 180.0), st.floats(3.0, 180.0)), min_size=1, max_size=4),
    st.sampled_from(("left", "right")),
)
@settings(max_examples=60, deadline=None, derandomize=True)
def test_room_is_that_of_a_brute_force_sweep(bends: list[tuple[float, float, float]], side: str) -> None:
    feeds, rotations, angles = ([bend[i] for bend in bends] for i in range(3))
    found = swept(feeds, rotations, angles, side)
    for step, (swing, (radius, lowest, reach)) in enumerate(
        zip(swings_of(feeds, rotations, angles, side), found, strict=True), start=1
    ):
        flat_end = 0.0 if step == 1 else OD / 2.0
        # The polygon around an arc of half a turn stands off it by at most 1 - 1 / cos(7.5°), 0.9 % of the radius.
        assert radius - 0.1 <= swing.radius - OD / 2.0 <= radius + 0.01 * R
        assert lowest + 0.1 >= swing.lowest + OD / 2.0 >= lowest - 0.01 * R - 0.1
        assert reach - 0.1 <= swing.reach - flat_end <= reach + 0.01 * R


def test_first_bend_swings_a_straight_tube() -> None:
    # The end of 300 mm goes round the die's axis, 100 mm aside: hypot(300, 100) = 316.228, and 15 mm of tube outside.
    (swing,) = swings_of([300.0], [0.0], [90.0])
    assert swing.radius == pytest.approx(331.2278, abs=1e-4)
    assert swing.lowest == -15.0
    assert swing.reach == 300.0


def test_a_leg_that_hangs_down_is_lowest() -> None:
    # After 90° the leg of 200 mm stands off by 100 + 200; turned clockwise by -90° from +Y it hangs straight down.
    second = swings_of([200.0, 50.0], [0.0, -90.0], [90.0, 90.0])[1]
    assert second.lowest == pytest.approx(-300.0 - 15.0)


def test_a_leg_that_only_passes_below_is_lowest_on_its_way() -> None:
    # From +Y to -Y anticlockwise: it ends level, but has hung straight down halfway.
    feeds, angles = [200.0, 50.0], [90.0, 90.0]
    played = played_of(feeds, [0.0, 180.0], angles)
    down = swings(played, np.array([0.0, -180.0]), np.full(2, R), OD, "left")[1]
    up = swings(played, np.array([0.0, 180.0]), np.full(2, R), OD, "left")[1]
    assert down.lowest == pytest.approx(-300.0 - 15.0)
    assert up.lowest == pytest.approx(-15.0)


def test_half_a_turn_stays_close_to_the_die() -> None:
    # A hairpin's vertex lies at infinity; its tube does not: 200 mm of leg come back beside the die.
    second = swings_of([200.0, 50.0], [0.0, 0.0], [180.0, 30.0])[1]
    assert second.reach <= 50.0 + 100.0 + 15.0 + 1.0
    assert second.radius < 250.0
