"""Tables whose rows do not make sense together, and tables that are merely odd."""

from datetime import date
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator

from bendgen.files.table_checks import check_rows, check_springback
from bendgen.records.allowances import AllowanceRow, AllowanceTable

Pairs = list[tuple[float, float]]


def rows_of(pairs: Pairs) -> dict[int, AllowanceRow]:
    return {
        index: AllowanceRow(angle_deg=angle, springback_deg=springback)
        for index, (angle, springback) in enumerate(pairs)
    }


def cautions_of(*rows: AllowanceRow) -> list[str]:
    table = AllowanceTable(
        file="tables/a.toml",
        die="d50-r100",
        material="304L",
        wall=1.5,
        perforated=False,
        source="invented",
        issued=date(2026, 3, 14),
        rows=rows,
    )
    return [str(caution) for caution in check_springback(table)]


def row(angle: float, springback: float, spread: float | None = None) -> AllowanceRow:
    return AllowanceRow(angle_deg=angle, springback_deg=springback, spread_deg=spread)


def test_two_rows_whose_commanded_angle_falls() -> None:
    # 30 + 65 = 95 down to 90 + 2 = 92, over 60: -3/60 = -0.05
    (flaw,) = check_rows(rows_of([(30.0, 65.0), (90.0, 2.0)]), 2)
    assert flaw.place == (1, "springback")
    assert flaw.expected == "angle + springback to rise everywhere between rows 1 and 2"
    assert flaw.found == "a slope of -0.050"


def test_a_commanded_angle_that_stands_still_does_not_rise() -> None:
    (flaw,) = check_rows(rows_of([(30.0, 62.0), (90.0, 2.0)]), 2)
    assert flaw.found == "a slope of 0.000"


def test_a_cubic_that_falls_between_rows_that_rise() -> None:
    # The rows' commanded angles rise, 31, 60.5, 61.5, 91: only the curve between them does not, near 45°.
    pairs = [(30.0, 1.0), (45.0, 15.5), (60.0, 1.5), (90.0, 1.0)]
    commanded = [angle + springback for angle, springback in pairs]
    assert commanded == sorted(commanded)
    assert [flaw.place for flaw in check_rows(rows_of(pairs), 4)] == [(2, "springback")]


def test_no_curve_is_drawn_through_rows_that_are_not_all_there() -> None:
    assert list(check_rows(rows_of([(30.0, 65.0), (90.0, 2.0)]), 3)) == []


@given(st.lists(st.tuples(st.integers(1, 170), st.integers(-2000, 6000)), min_size=3, max_size=7))
@settings(max_examples=200, deadline=None)
def test_intervals_that_fall_are_those_of_an_independent_cubic(hundredths: list[tuple[int, int]]) -> None:
    pairs = [(float(angle), springback / 100.0) for angle, springback in sorted(hundredths)]
    angle = np.array([angle for angle, _ in pairs])
    assume((np.diff(angle) > 0.5).all())
    slope = PchipInterpolator(angle, [springback for _, springback in pairs]).derivative()
    smallest = np.array([1.0 + slope(np.linspace(a, b, 2001)).min() for a, b in pairwise(angle)])
    assume((np.abs(smallest) > 1e-3).all())  # nearer to 0 the sampled minimum decides nothing
    wanted = [(int(index) + 1, "springback") for index in np.flatnonzero(smallest < 0.0)]
    assert [flaw.place for flaw in check_rows(rows_of(pairs), len(pairs))] == wanted


@pytest.mark.parametrize("spreads", [(0.06, 0.06), (0.06, None), (None, 0.06), (0.06, 0.01)])
def test_springback_may_fall_by_two_spreads(spreads: tuple[float | None, float | None]) -> None:
    assert cautions_of(row(30.0, 1.75, spreads[0]), row(60.0, 1.64, spreads[1])) == []
    assert cautions_of(row(30.0, 1.75, spreads[0]), row(60.0, 1.62, spreads[1])) == [
        "tables/a.toml: row[2].springback: springback falls by 0.13 from row 1 to 2, more than 2 spreads"
    ]


def test_without_a_spread_any_fall_is_a_caution() -> None:
    assert cautions_of(row(30.0, 1.5), row(60.0, 1.5), row(90.0, 1.25)) == [
        "tables/a.toml: row[3].springback: springback falls by 0.25 from row 2 to 3, with no spread given"
    ]


def test_negative_springback_is_a_caution() -> None:
    assert cautions_of(row(30.0, -0.5), row(60.0, 0.0)) == [
        "tables/a.toml: row[1].springback: springback is negative (-0.5): the bend closes on release"
    ]
