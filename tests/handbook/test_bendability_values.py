"""Thinning, strain and ovality against values derived elsewhere or read in public manuals."""

import pytest

from bendgen.geometry.bendability import (
    bend_ratio,
    outer_strain,
    ovality_of_mean,
    ovality_of_nominal,
    roundness_ratio,
    thinning_share,
    wall_factor,
)


@pytest.mark.parametrize(("ratio", "left"), [(1.5, 0.75000), (2.0, 0.80000), (3.0, 0.85714), (5.0, 0.90909)])
def test_volume_kept_wall(ratio: float, left: float) -> None:
    """Derived: t R / (R + OD / 2). It is not the thickness rule of B31.1, whose factors stand elsewhere."""
    assert 1.0 - thinning_share(50.0, ratio * 50.0) == pytest.approx(left, abs=5e-6)


@pytest.mark.parametrize(("ratio", "strain"), [(1.5, 0.3333), (2.0, 0.25), (3.0, 0.1667)])
def test_outer_strain(ratio: float, strain: float) -> None:
    """Derived: OD / (2 R)."""
    assert outer_strain(40.0, ratio * 40.0) == pytest.approx(strain, abs=5e-5)


def test_thin_tube_on_a_wide_radius() -> None:
    """Derived: 3/4 × 0.049 in on R 3 in."""
    assert bend_ratio(0.75, 3.0) == pytest.approx(4.0)
    assert wall_factor(0.75, 0.049) == pytest.approx(15.306, abs=5e-4)
    assert outer_strain(0.75, 3.0) == pytest.approx(0.125)
    assert 100.0 * thinning_share(0.75, 3.0) == pytest.approx(11.1, abs=0.05)


def test_ovality_of_a_measured_section() -> None:
    """Derived: 51.6 by 49.2 on a nominal 50.8, in per cent of the nominal."""
    assert 100.0 * ovality_of_nominal(51.6, 49.2, 50.8) == pytest.approx(4.7244, abs=5e-5)


def test_ovality_rules_differ() -> None:
    """Derived: a ratio of 0.9 is 10.526 % of the mean; 8 % of the mean is a ratio of 0.92308."""
    assert 100.0 * ovality_of_mean(1.0, 0.9) == pytest.approx(10.526, abs=5e-4)
    assert roundness_ratio(1.04, 0.96) == pytest.approx(0.92308, abs=5e-6)
    assert 100.0 * ovality_of_mean(1.04, 0.96) == pytest.approx(8.0)


def test_aircraft_rule_in_its_own_terms() -> None:
    """FAA-H-8083-30 (seen): the small diameter of the flattened part at or above 75 % of the original OD."""
    original, flattened = 25.4, 0.75 * 25.4
    assert roundness_ratio(original, flattened) == pytest.approx(0.75)
