"""Lengths as text: millimetres, decimal inches and the fractions of an inch shop."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.units import MM_PER_INCH, Units, format_inch_fraction, format_length, format_number


@pytest.mark.parametrize(
    ("length", "units", "decimals", "text"),
    [
        (110.0, "mm", None, "110 mm"),
        (110.256, "mm", None, "110.26 mm"),
        (0.0, "mm", None, "0 mm"),
        (-0.001, "mm", None, "0 mm"),
        (-12.5, "mm", None, "-12.5 mm"),
        (110.0, "mm", 1, "110.0 mm"),
        (1.0e6, "mm", None, "1000000 mm"),
        (1.0e-9, "in", None, "0 in"),
        (254.0, "in", None, "10 in"),
        (254.0, "in", 3, "10.000 in"),
        (114.3, "in", None, "4.5 in"),
    ],
)
def test_length_text(length: float, units: Units, decimals: int | None, text: str) -> None:
    assert format_length(length, units, decimals) == text


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_no_sheet_shows_a_value_that_is_no_number(value: float) -> None:
    with pytest.raises(ValueError, match="is no number to show to a person"):
        format_number(value, 1)


@pytest.mark.parametrize(
    ("inches", "denominator", "text"),
    [
        (0.0, 32, "0 in"),
        (0.5, 32, "1/2 in"),
        (4.5, 32, "4 1/2 in"),
        (32.0, 32, "32 in"),
        (32.0 + 27.0 / 32.0, 32, "32 27/32 in"),
        (32.85, 32, "32 27/32 in + 0.006 in"),
        (32.84, 32, "32 27/32 in - 0.004 in"),
        (0.99, 32, "1 in - 0.010 in"),
        (32.85, 64, "32 27/32 in + 0.006 in"),
        (32.86, 64, "32 55/64 in + 0.001 in"),
    ],
)
def test_inch_fraction(inches: float, denominator: int, text: str) -> None:
    assert format_inch_fraction(inches * MM_PER_INCH, denominator) == text


@given(length=st.floats(min_value=0.0, max_value=1.0e6), denominator=st.sampled_from([16, 32, 64]))
@settings(max_examples=200)
def test_fraction_and_remainder_add_up_to_the_length(length: float, denominator: int) -> None:
    words = format_inch_fraction(length, denominator).replace(" in", "").replace("+ ", "+").replace("- ", "-").split()
    total = sum(_value(word) for word in words)
    assert total * MM_PER_INCH == pytest.approx(length, abs=0.0006 * MM_PER_INCH)


def _value(word: str) -> float:
    numerator, _, denominator = word.partition("/")
    return float(numerator) / float(denominator or 1.0)
