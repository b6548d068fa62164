"""Closest places of segments and of paths, against trying them all."""

import math
import tracemalloc

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.geometry.clearances import BLOCK_ROWS, closest_approach, segment_distances
from bendgen.geometry.vectors import Array, lengths

POINT = st.tuples(*[st.integers(-20, 20).map(float)] * 3)


def along_path(points: Array) -> Array:
    return np.concatenate(([0.0], np.cumsum(lengths(np.diff(points, axis=0)))))


@given(st.lists(st.tuples(POINT, POINT, POINT, POINT), min_size=1, max_size=4))
@settings(max_examples=60, deadline=None, derandomize=True)
def test_segments_against_a_grid_of_places(quadruples: list[tuple[tuple[float, ...], ...]]) -> None:
    a, b, c, d = np.array(quadruples).transpose(1, 0, 2)
    found = segment_distances(a, b, c, d)
    share = np.linspace(0.0, 1.0, 101)[:, None]
    for i in range(len(a)):
        one, other = a[i] + share * (b[i] - a[i]), c[i] + share * (d[i] - c[i])
        tried = np.linalg.norm(one[:, None] - other[None], axis=2).min()
        assert found[i] <= tried + 1e-9
        assert found[i] >= tried - 0.01 * (np.linalg.norm(b[i] - a[i]) + np.linalg.norm(d[i] - c[i]))


@given(st.lists(POINT, min_size=2, max_size=12, unique=True), st.floats(0.0, 60.0))
@settings(max_examples=100, deadline=None, derandomize=True)
def test_a_path_against_every_pair(corners: list[tuple[float, ...]], apart: float) -> None:
    points = np.array(corners)
    along = along_path(points)
    pairs = [
        math.dist(points[i], points[j])
        for i in range(len(points))
        for j in range(i + 1, len(points))
        if along[j] - along[i] >= apart
    ]
    distance, first, second = closest_approach(points, along, max(apart, 1e-9))
    assert distance == pytest.approx(min(pairs, default=math.inf), abs=1e-6)
    if pairs:
        assert along[second] - along[first] >= apart


def test_the_closest_places_may_lie_in_different_blocks() -> None:
    # A hairpin: out along x, across, and back 7 above, coming 3 nearer at the far end.
    n = 2 * BLOCK_ROWS
    x = np.linspace(0.0, 1000.0, n)
    out, back = np.column_stack((x, 0 * x, 0 * x)), np.column_stack((x[::-1], 7.0 - 3.0 * x / 1000.0, 0 * x))
    points = np.vstack((out, back))
    distance, first, second = closest_approach(points, along_path(points), 100.0)
    assert distance == pytest.approx(4.0, abs=1e-3)
    assert (first, second) == (0, 2 * n - 1)


def test_a_long_thin_tube_needs_little_memory() -> None:
    points = np.column_stack((np.linspace(0.0, 6000.0, 8000), np.zeros((8000, 2))))
    tracemalloc.start()
    closest_approach(points, points[:, 0], 10.0)
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < 150e6  # all pairs at once would be 1.5 GB


def test_a_path_too_short_has_no_such_places() -> None:
    points = np.array([(0.0, 0, 0), (5, 0, 0)])
    assert closest_approach(points, along_path(points), 6.0) == (math.inf, 0, 0)
