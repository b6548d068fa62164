"""Tangent lengths and what they leave of the segments."""

import math

import numpy as np

from bendgen.geometry.fillets import straights_between, tangent_lengths


def test_tangents_by_hand() -> None:
    angles = np.radians([0.0, 60.0, 90.0, 120.0])
    # 100 · tan of 0°, 30°, 45°, 60°
    expected = [0.0, 100.0 / math.sqrt(3.0), 100.0, 100.0 * math.sqrt(3.0)]
    np.testing.assert_allclose(tangent_lengths(angles, np.full(4, 100.0)), expected)


def test_tangents_near_half_a_turn_run_away() -> None:
    assert tangent_lengths(np.array([math.pi - 1e-6]), np.array([1.0]))[0] > 1e6


def test_straights_left_and_overlap() -> None:
    segment_lengths = np.array([300.0, 150.0, 200.0])
    straights = straights_between(segment_lengths, np.array([100.0, 60.0]))
    assert straights.tolist() == [200.0, -10.0, 140.0]
    assert segment_lengths.tolist() == [300.0, 150.0, 200.0]  # left as it was
    assert straights_between(np.array([80.0]), np.zeros(0)).tolist() == [80.0]
