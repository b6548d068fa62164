"""Capability with its bounds, drift, and what too few pieces cannot tell."""

from math import sqrt

import numpy as np
import pytest
from scipy import stats

from bendgen.bending.series import series_of
from bendgen.records.bent_tube import BentTube
from bendgen.records.comparison import Comparison, Deviation
from bendgen.records.series import CheckSeries


def piece(number: int, off: float, *, tolerance: float = 6.0) -> Comparison:
    deviation = Deviation(
        check="offset",
        quantity="offset",
        line=number,
        measured=14.0 + off,
        predicted=14.0,
        wanted=14.0,
        tolerance=tolerance,
        unit="mm",
    )
    return Comparison(
        piece=str(number),
        lot=None,
        deviations=(deviation,),
        made=BentTube(straights=(14.0,), bends=()),
        fit=None,
        ovality=(),
        causes=(),
        explained=0.0,
    )


def series(*off: float, tolerance: float = 6.0) -> CheckSeries:
    (found,) = series_of([piece(i, value, tolerance=tolerance) for i, value in enumerate(off, start=1)])
    return found


def with_mean_and_spread(mean: float, spread: float, count: int) -> list[float]:
    values = np.random.default_rng(5).normal(size=count)
    values = (values - values.mean()) / values.std(ddof=1)
    return [float(value) for value in mean + spread * values]


def test_the_handbooks_process() -> None:
    """[NIST2012] 6.1.6 (from memory): limits 8 and 20, mean 16, standard deviation 2: Cp 1.0, Cpk 0.6667."""
    found = series(*with_mean_and_spread(2.0, 2.0, 50)).capability
    assert found is not None
    assert found.cp == pytest.approx(1.0)
    assert found.cpk == pytest.approx(0.6667, abs=5e-5)


def test_bounds_against_scipys_own_distributions() -> None:
    count = 20
    values = with_mean_and_spread(1.0, 2.0, count)
    found = series(*values)
    assert found.capability is not None
    low, high = (sqrt(stats.chi2.ppf(q, count - 1) / (count - 1)) for q in (0.025, 0.975))
    assert found.capability.cp_bounds == pytest.approx((low, high))
    interval = stats.t.interval(0.95, count - 1, loc=1.0, scale=2.0 / sqrt(count))
    assert found.mean_bounds == pytest.approx(interval)


def test_bounds_of_cpk_hold_the_true_one_in_about_19_of_20_samples() -> None:
    """Drawn from a process whose Cpk is 1: the normal approximation of 25 pieces holds it in 92 to 98 %."""
    rng = np.random.default_rng(42)
    held = 0
    for _ in range(400):
        found = series(*rng.normal(0.0, 1.0, 25).tolist(), tolerance=3.0).capability
        assert found is not None
        held += found.cpk_bounds[0] <= 1.0 <= found.cpk_bounds[1]
    assert 0.92 <= held / 400 <= 0.98


def test_drift_is_shown_where_it_is_more_than_chance() -> None:
    rng = np.random.default_rng(1)
    still = rng.normal(0.0, 0.1, 12)
    drifting = still + 0.1 * np.arange(12)
    assert not series(*still.tolist()).drift_shown
    found = series(*drifting.tolist())
    assert found.drift_shown
    assert found.drift == pytest.approx(stats.linregress(np.arange(12), drifting).slope)


def test_drift_is_seen_by_chance_in_about_one_of_a_hundred_series() -> None:
    rng = np.random.default_rng(9)
    seen = sum(series(*rng.normal(0.0, 1.0, 8).tolist()).drift_shown for _ in range(1000))
    assert 2 <= seen <= 22


def test_few_pieces_tell_little() -> None:
    assert series_of([piece(1, 0.2)]) == ()
    two = series(0.1, 0.3)
    assert two.capability is None
    assert two.drift is None
    assert two.spread == pytest.approx(0.2 / sqrt(2))
    same = series(*[0.5] * 6)
    assert same.capability is None
    assert not same.drift_shown
