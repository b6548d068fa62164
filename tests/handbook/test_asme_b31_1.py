"""ASME B31.1, Power Piping: table 102.4.5 and bend factors, as reprinted in UFC 4-159-01, table 5-4.

Tolerance: half a unit of the last printed digit.
"""

import pytest

from bendgen.bending.b31_1 import extrados_factor, intrados_factor, thickness_factor


@pytest.mark.parametrize(("diameters", "factor"), [(3.0, 1.25), (4.0, 1.14), (5.0, 1.08), (6.0, 1.06), (9.0, 1.06)])
def test_thickness_before_bending(diameters: float, factor: float) -> None:
    assert thickness_factor(diameters * 60.3, 60.3) == pytest.approx(factor, abs=0.005)


@pytest.mark.parametrize(("diameters", "factor"), [(3.5, 1.195), (4.5, 1.11), (5.5, 1.07)])
def test_halfway_between_rows_is_their_mean(diameters: float, factor: float) -> None:
    assert thickness_factor(diameters, 1.0) == pytest.approx(factor)


def test_no_factor_for_a_bend_tighter_than_three_diameters() -> None:
    assert thickness_factor(2.99, 1.0) is None


@pytest.mark.parametrize(
    ("od", "clr", "inside", "outside"),
    [
        (60.3, 76.2, 1.33, 0.86),
        (88.9, 114.3, 1.32, 0.86),
        (114.3, 152.4, 1.30, 0.86),
        (168.3, 228.6, 1.29, 0.87),
        (273.0, 381.0, 1.28, 0.87),
        (508.0, 762.0, 1.25, 0.88),
    ],
)
def test_bend_factors(od: float, clr: float, inside: float, outside: float) -> None:
    half_a_unit = 0.005 + 1e-12  # 0.875 is printed 0.88: off by half a unit exactly
    assert intrados_factor(clr, od) == pytest.approx(inside, abs=half_a_unit)
    assert extrados_factor(clr, od) == pytest.approx(outside, abs=half_a_unit)
