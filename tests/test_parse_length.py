"""Lengths as shops write them. Expected values: 1 in is 25.4 mm exactly, so each is arithmetic on paper."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.units import Units, parse_length


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("85-1/2 in", 2171.7),
        ("1-1/64 in", 25.796875),
        ("4'-8 3/8\"", 1431.925),
        ("10 3/8 in", 263.525),
        ("4 1/2", 114.3),
        ("11/4", 69.85),
    ],
)
def test_inch_fractions_of_public_questions(text: str, mm: float) -> None:
    assert parse_length(text, "in") == pytest.approx(mm, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "units", "mm"),
    [
        ("12.5 mm", "in", 12.5),
        ("12.5 mm", "mm", 12.5),
        ("12.5", "mm", 12.5),
        ("4-1/2", "in", 114.3),
        ("1'-2 3/8\"", "in", 365.125),
        ("1'-2 3/8\"", "mm", 365.125),
        ("1' 2", "mm", 355.6),
        ("5'", "in", 1524.0),
        ("5 ft", "mm", 1524.0),
        ("5ft 2 in", "mm", 1574.8),
        ("1′ 2″", "mm", 355.6),
        ("1’2”", "mm", 355.6),
        ("3 1/2''", "mm", 88.9),
        ("-1/2", "in", -12.7),
        ("-4-1/2", "in", -114.3),
        ("+4", "mm", 4.0),
        (".5", "in", 12.7),
        ("5.", "mm", 5.0),
        ("  7  ", "mm", 7.0),
        ("1/2 mm", "in", 0.5),
        ("0", "in", 0.0),
    ],
)
def test_each_way_to_write_a_length(text: str, units: Units, mm: float) -> None:
    assert parse_length(text, units) == pytest.approx(mm, rel=1e-15)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "in",
        "'",
        "x",
        "12,5",
        "1e3",
        "nan",
        "inf",
        "4-",
        "--4",
        "4 - 1/2",
        "4 1.5",
        "1/2/3",
        "1/2'",
        "5'-",
        "4 5/4",
        "4 4/4",
        "1/0",
        "1'-12",
        "1' 2 mm",
        "12 cm",
        "1 2 3",
        "٣",
        "½",
        "9" * 400,
    ],
)
def test_anything_else_is_no_length(text: str) -> None:
    with pytest.raises(ValueError, match=r"^(no (finite )?length|no fraction|feet with more than 12 inches)"):
        parse_length(text, "in")


@given(st.text() | st.text(alphabet="0123456789./-+ '\"′″infmt", max_size=20), st.sampled_from(["mm", "in"]))
@settings(max_examples=200, deadline=None)
def test_any_text_is_a_finite_length_or_no_length(text: str, units: Units) -> None:
    try:
        length = parse_length(text, units)
    except ValueError:
        return
    assert math.isfinite(length)


@given(st.integers(0, 99), st.integers(0, 11), st.integers(0, 63))
@settings(max_examples=100, deadline=None)
def test_feet_inches_and_sixty_fourths_add_up(feet: int, inches: int, parts: int) -> None:
    text = f"{feet}'-{inches} {parts}/64\""
    assert parse_length(text, "mm") == pytest.approx(25.4 * (12 * feet + inches + parts / 64), rel=1e-14)
