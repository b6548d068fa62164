"""The monotone cubic against SciPy's, and the straight lines beyond the rows."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator

from bendgen.geometry.interpolation import Array, evaluate, monotone_slopes, smallest_slopes


@st.composite
def tables(draw: st.DrawFn) -> tuple[Array, Array]:
    """Rising places and two columns, level stretches and turns included."""
    m = draw(st.integers(2, 8))
    steps = draw(st.lists(st.floats(0.5, 40.0), min_size=m, max_size=m))
    value = st.one_of(st.sampled_from((0.0, 1.0, 2.0)), st.integers(-5000, 10000).map(lambda n: n / 1000.0))
    column = st.lists(value, min_size=m, max_size=m)
    return np.cumsum(steps), np.array([draw(column), draw(column)]).T


@given(tables())
@settings(max_examples=150, deadline=None, derandomize=True)
def test_between_rows_it_is_scipys(table: tuple[Array, Array]) -> None:
    x, y = table
    at = np.linspace(x[0], x[-1], 41)
    value, derivative = evaluate(x, y, monotone_slopes(x, y), at)
    theirs = PchipInterpolator(x, y)
    np.testing.assert_allclose(value, theirs(at), atol=1e-9)
    inner = at[1:-1]
    np.testing.assert_allclose(derivative[1:-1], theirs(inner, 1), atol=1e-7)


@given(tables())
@settings(max_examples=100, deadline=None, derandomize=True)
def test_beyond_rows_it_is_the_line_through_the_two_nearest(table: tuple[Array, Array]) -> None:
    x, y = table
    value, derivative = evaluate(x, y, monotone_slopes(x, y), np.array([x[0] - 7.0, x[-1] + 7.0]))
    first, last = (y[1] - y[0]) / (x[1] - x[0]), (y[-1] - y[-2]) / (x[-1] - x[-2])
    np.testing.assert_allclose(value, [y[0] - 7.0 * first, y[-1] + 7.0 * last], atol=1e-9)
    np.testing.assert_allclose(derivative, [first, last], atol=1e-12)


@given(tables())
@settings(max_examples=100, deadline=None, derandomize=True)
def test_rows_are_met_exactly(table: tuple[Array, Array]) -> None:
    x, y = table
    np.testing.assert_allclose(evaluate(x, y, monotone_slopes(x, y), x)[0], y, rtol=0, atol=1e-12)


@given(tables())
@settings(max_examples=100, deadline=None, derandomize=True)
def test_smallest_slopes_are_those_of_a_fine_scan(table: tuple[Array, Array]) -> None:
    x, y = table
    slopes = monotone_slopes(x, y)
    found = smallest_slopes(x, y, slopes)
    derivative = PchipInterpolator(x, y).derivative()
    for i in range(len(x) - 1):
        nearly = 1e-9 * (x[i + 1] - x[i])
        scanned = derivative(np.linspace(x[i] + nearly, x[i + 1] - nearly, 2001)).min(axis=0)
        np.testing.assert_allclose(found[i], scanned, atol=1e-4)


def test_two_rows_are_a_line() -> None:
    x, y = np.array([10.0, 30.0]), np.array([[1.0], [2.0]])
    value, derivative = evaluate(x, y, monotone_slopes(x, y), np.array([10.0, 20.0, 30.0, 40.0]))
    assert value[:, 0] == pytest.approx([1.0, 1.5, 2.0, 2.5])
    assert derivative[:, 0] == pytest.approx([0.05] * 4)
