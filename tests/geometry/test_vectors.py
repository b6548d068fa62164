"""Lengths and angles of vectors."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.geometry.vectors import Array, angles_between, cross, lengths, signed_angles_about

X, Y, Z = np.eye(3)[:, None, :]


def test_lengths_and_cross_products_by_hand() -> None:
    assert lengths(np.array([(3.0, 4.0, 0.0), (0.0, 0.0, 0.0)])).tolist() == [5.0, 0.0]
    np.testing.assert_array_equal(cross(X, Y), Z)
    np.testing.assert_array_equal(cross(Y, X), -Z)


@given(st.lists(st.tuples(*[st.floats(-1e3, 1e3)] * 6), min_size=1, max_size=5))
@settings(max_examples=50, deadline=None, derandomize=True)
def test_cross_products_are_numpys(rows: list[tuple[float, ...]]) -> None:
    a, b = np.array(rows)[:, :3], np.array(rows)[:, 3:]
    np.testing.assert_allclose(cross(a, b), np.cross(a, b), atol=1e-9)


@pytest.mark.parametrize("angle", [0.0, 1e-9, 1e-4, 1.0, math.pi / 2, math.pi - 1e-6, math.pi])
def test_angles_between_keep_their_digits(angle: float) -> None:
    turned = np.array([(math.cos(angle), math.sin(angle), 0.0)])
    assert float(angles_between(X, turned)[0]) == pytest.approx(angle, abs=1e-15, rel=1e-9)


def test_equal_and_opposite_are_exact() -> None:
    odd = np.array([(0.6, 0.8, 0.0)])
    assert angles_between(odd, odd)[0] == 0.0
    assert angles_between(odd, -odd)[0] == math.pi


def test_signed_angles_are_right_handed_about_the_axis() -> None:
    assert signed_angles_about(X, Y, Z)[0] == pytest.approx(math.pi / 2)
    assert signed_angles_about(-X, Y, Z)[0] == pytest.approx(-math.pi / 2)
    assert signed_angles_about(X, Y + 5.0 * X, Z - 3.0 * X)[0] == pytest.approx(math.pi / 2)


@pytest.mark.parametrize("noise", [0.0, 1e-13, -1e-13])
def test_half_a_turn_is_positive_whatever_the_noise(noise: float) -> None:
    opposite: Array = np.array([(0.0, -1.0, noise)])
    assert signed_angles_about(X, Y, opposite)[0] == pytest.approx(math.pi)


def test_a_little_short_of_half_a_turn_keeps_its_sign() -> None:
    short = np.array([(0.0, math.cos(-3.1), math.sin(-3.1))])
    assert signed_angles_about(X, Y, short)[0] == pytest.approx(-3.1)
