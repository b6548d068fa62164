"""Springback, radius and elongation from tables: on rows, between, beyond, and back from a commanded bend."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator

from bendgen.bending.allowances import allowances_at, basis_at, curves_of_table, degrees_beyond, finished_angles
from bendgen.records.allowances import AllowanceRow, AllowanceTable
from bendgen.records.bend_program import Basis


def table_of(*rows: AllowanceRow) -> AllowanceTable:
    return AllowanceTable(
        file="tables/invented.toml",
        die="d50-r100",
        material="304L",
        wall=1.5,
        perforated=False,
        source="invented",
        issued=date(2026, 1, 5),
        rows=rows,
    )


ROWS = (
    AllowanceRow(angle_deg=30.0, springback_deg=1.0, elongation=1.0, clr=104.0),
    AllowanceRow(angle_deg=60.0, springback_deg=1.6, elongation=2.5, clr=103.0),
    AllowanceRow(angle_deg=90.0, springback_deg=2.8, elongation=4.0, clr=102.5),
)
FULL = curves_of_table(table_of(*ROWS), 100.0)
SPARSE = curves_of_table(table_of(*(replace(row, clr=None, elongation=None) for row in ROWS)), 100.0)


def test_a_row_gives_what_was_measured() -> None:
    at = allowances_at(FULL, np.array([60.0]))
    assert (at.springback_deg[0], at.elongation[0]) == (1.6, 2.5)
    assert at.clr[0] == pytest.approx(103.0)
    assert basis_at(FULL, 60.0) == Basis(springback="measured", formed_clr="measured", elongation="measured")


def test_between_rows_arc_length_is_what_is_interpolated() -> None:
    angles = np.array([row.angle_deg for row in ROWS])
    developed = PchipInterpolator(angles, np.radians(angles) * np.array([104.0, 103.0, 102.5]))
    at = allowances_at(FULL, np.array([47.0]))
    assert at.clr[0] * np.radians(47.0) == pytest.approx(float(developed(47.0)), abs=1e-9)
    assert basis_at(FULL, 47.0) == Basis(springback="between", formed_clr="between", elongation="between")


def test_beyond_the_rows_all_goes_on_straight() -> None:
    # From 60 to 90 springback rises by 1.2, elongation by 1.5: another 10° adds a third of that.
    at = allowances_at(FULL, np.array([100.0]))
    assert at.springback_deg[0] == pytest.approx(3.2)
    assert at.elongation[0] == pytest.approx(4.5)
    assert at.slope[0] == pytest.approx(1.04)
    assert basis_at(FULL, 100.0).springback == "beyond"
    assert basis_at(FULL, 29.9).springback == "beyond"
    assert degrees_beyond(FULL, 100.0) == 10.0
    assert degrees_beyond(FULL, 20.0) == 0.0


def test_springback_never_falls_below_nothing() -> None:
    # The line through 1.0 at 30 and 4.0 at 60 meets 0 at 20.
    steep = curves_of_table(
        table_of(AllowanceRow(angle_deg=30.0, springback_deg=1.0), AllowanceRow(angle_deg=60.0, springback_deg=4.0)),
        100.0,
    )
    at = allowances_at(steep, np.array([25.0, 20.0, 10.0]))
    assert at.springback_deg == pytest.approx([0.5, 0.0, 0.0])
    assert at.slope == pytest.approx([1.1, 1.1, 1.0])
    falling = curves_of_table(
        table_of(AllowanceRow(angle_deg=30.0, springback_deg=2.0), AllowanceRow(angle_deg=60.0, springback_deg=1.0)),
        100.0,
    )
    assert allowances_at(falling, np.array([75.0, 90.0, 120.0])).springback_deg == pytest.approx([0.5, 0.0, 0.0])


def test_a_measured_negative_springback_is_kept_and_does_not_jump() -> None:
    odd = curves_of_table(
        table_of(AllowanceRow(angle_deg=30.0, springback_deg=0.5), AllowanceRow(angle_deg=60.0, springback_deg=-0.1)),
        100.0,
    )
    assert allowances_at(odd, np.array([60.0, 60.001, 80.0])).springback_deg == pytest.approx([-0.1, -0.1, -0.1])


def test_without_a_radius_the_wound_arc_keeps_its_length() -> None:
    at = allowances_at(SPARSE, np.array([90.0]))
    assert at.clr[0] * 90.0 == pytest.approx(100.0 * 92.8)
    assert at.elongation[0] == 0.0
    assert basis_at(SPARSE, 90.0) == Basis(springback="measured", formed_clr="arc kept", elongation="not measured")


def test_no_bend_at_all_has_no_arc_but_a_finite_radius() -> None:
    at = allowances_at(FULL, np.array([0.0]))
    assert np.isfinite(at.clr[0])


@given(st.floats(0.1, 200.0))
@settings(max_examples=100, deadline=None, derandomize=True)
def test_finished_angles_invert_commanded_ones(angle: float) -> None:
    commanded = np.array([angle]) + allowances_at(FULL, np.array([angle])).springback_deg
    assert finished_angles(FULL, commanded)[0] == pytest.approx(angle, abs=1e-9)


@given(
    st.lists(st.tuples(st.floats(2.0, 40.0), st.floats(-0.9, 3.0)), min_size=2, max_size=6),
    st.lists(st.floats(0.0, 190.0), min_size=1, max_size=5),
)
@settings(max_examples=150, deadline=None, derandomize=True)
def test_every_rising_table_is_inverted(rows: list[tuple[float, float]], angles: list[float]) -> None:
    """Tables whose finished and springback angles rise together, which is what a profile's reader lets in."""
    places = np.cumsum([step for step, _ in rows])
    springback = np.cumsum([0.3 * step * rise if rise < 0 else 0.1 * rise for step, rise in rows])
    curves = curves_of_table(
        table_of(
            *(
                AllowanceRow(angle_deg=float(a), springback_deg=float(s))
                for a, s in zip(places, springback, strict=True)
            )
        ),
        100.0,
    )
    wanted = np.array(angles)
    at = allowances_at(curves, wanted)
    commanded = wanted + at.springback_deg
    rises = np.all(at.slope > 0.05)
    found = finished_angles(curves, commanded)
    if rises and np.all(commanded >= 0.0):
        again = found + allowances_at(curves, found).springback_deg
        reachable = commanded >= allowances_at(curves, np.zeros(1)).springback_deg[0]
        np.testing.assert_allclose(again[reachable], commanded[reachable], atol=1e-9)


def test_a_command_smaller_than_its_springback_leaves_no_bend() -> None:
    # Below the rows the line keeps 0.4° of springback at no bend: a command of 0.2° is all taken back.
    assert allowances_at(FULL, np.array([0.0])).springback_deg[0] == pytest.approx(0.4)
    assert finished_angles(FULL, np.array([0.2]))[0] == pytest.approx(0.0, abs=1e-9)
