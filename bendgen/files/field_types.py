"""Types of the values that files hold: lengths, which come out in mm, numbers, texts.

Each names what it expects in one phrase, and that phrase is the whole of its error message.
"""

import math
import unicodedata
from collections.abc import Callable
from typing import Annotated, TypedDict

from pydantic import AfterValidator, BeforeValidator, PlainValidator, ValidationInfo

from bendgen.files.validation import unfit
from bendgen.units import MM_PER_DRAWN_UNIT, DrawnUnits, Units, mm_from_units, parse_length

LARGEST_NUMBER = 1e6  # mm, or whatever the number counts: far beyond any tube, far below where doubles grow coarse
LONGEST_TEXT = 2000  # characters: what a sheet can still hold
TEXT_DIRECTION = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")  # they reorder what is read
CONTROL_CATEGORIES = frozenset({"Cc", "Cs", "Zl", "Zp"})


class FileContext(TypedDict):
    """What a value cannot know by itself: the unit its file declares."""

    units: Units


def context_from_data(data: object) -> FileContext:
    """Context of a file; mm where its `units` are wrong or missing, which is a flaw of its own."""
    return {"units": "in" if isinstance(data, dict) and data.get("units") == "in" else "mm"}


def _finite(value: object, expected: str) -> float:
    """Finite float of reasonable size; true and false are no numbers."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise unfit(expected)
    if isinstance(value, float) and not math.isfinite(value):
        raise unfit(expected)
    if abs(value) > LARGEST_NUMBER:
        raise unfit(f"a number of at most {LARGEST_NUMBER:,.0f}")
    return float(value)


def largest_in(units: DrawnUnits) -> str:
    """The largest length that a file may hold, in words."""
    return f"{LARGEST_NUMBER / MM_PER_DRAWN_UNIT[units]:,.0f} {units}"


def _mm_from_value(value: object, units: Units, expected: str) -> float:
    """Length in mm from a number, or from a text as an inch shop writes it."""
    if not isinstance(value, str):
        mm = mm_from_units(_finite(value, expected), units)
    else:
        try:
            mm = parse_length(value, units)
        except ValueError:
            raise unfit(expected) from None
    if abs(mm) > LARGEST_NUMBER:
        raise unfit(f"a length of at most {largest_in(units)}")
    return mm


def length(expected: str, fits: Callable[[float], bool]) -> PlainValidator:
    """Type of a length; fits: of the length in mm."""

    def in_mm(value: object, info: ValidationInfo[FileContext]) -> float:
        mm = _mm_from_value(value, info.context["units"], expected)
        if not fits(mm):
            raise unfit(expected)
        return mm

    return PlainValidator(in_mm)


def number(expected: str, fits: Callable[[float], bool]) -> PlainValidator:
    """Type of an angle or another number without a unit of length."""

    def as_float(value: object) -> float:
        checked = _finite(value, expected)
        if not fits(checked):
            raise unfit(expected)
        return checked

    return PlainValidator(as_float)


def _count(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= LARGEST_NUMBER:
        raise unfit(f"a whole number from 1 to {LARGEST_NUMBER:,.0f}")
    return value


def _text(value: object) -> str:
    if not isinstance(value, str) or not value.strip():
        raise unfit("a text that is not empty")
    if len(value) > LONGEST_TEXT:
        raise unfit(f"a text of at most {LONGEST_TEXT:,} characters")
    if any(unicodedata.category(letter) in CONTROL_CATEGORIES or letter in TEXT_DIRECTION for letter in value):
        raise unfit("a text without control or text-direction characters")
    return value


def sized(expected: str, *sizes: int) -> BeforeValidator:
    """Check that a list has one of these sizes."""

    def check_size(value: object) -> object:
        if not isinstance(value, list) or len(value) not in sizes:
            raise unfit(expected)
        return value

    return BeforeValidator(check_size)


def not_below(smaller: str) -> AfterValidator:
    """Check that a number is not below the key `smaller`, which stands before it in the same model."""

    def check_size(value: float, info: ValidationInfo[FileContext]) -> float:
        other = info.data.get(smaller)
        if other is not None and value < other:
            raise unfit(f"a number not below '{smaller}'")
        return value

    return AfterValidator(check_size)


def _rising(pair: list[float]) -> list[float]:
    if pair[0] > pair[1]:
        raise unfit("the smallest value first", "the largest first")
    return pair


Text = Annotated[str, PlainValidator(_text)]
Count = Annotated[int, PlainValidator(_count)]

Length = Annotated[float, length("a number", lambda _: True)]
LengthFromZero = Annotated[float, length("a number of 0 or more", lambda mm: mm >= 0.0)]
PositiveLength = Annotated[float, length("a number greater than 0", lambda mm: mm > 0.0)]

Number = Annotated[float, number("a number", lambda _: True)]
NumberFromZero = Annotated[float, number("a number of 0 or more", lambda value: value >= 0.0)]
PositiveNumber = Annotated[float, number("a number greater than 0", lambda value: value > 0.0)]
Percentage = Annotated[float, number("a number greater than 0 and less than 100", lambda value: 0.0 < value < 100.0)]
HardeningExponent = Annotated[float, number("a number greater than 0 and less than 1", lambda n: 0.0 < n < 1.0)]

# Angles in degrees
FinishedAngle = Annotated[float, number("a number greater than 0 and less than 360", lambda deg: 0.0 < deg < 360.0)]
TurnLimit = Annotated[float, number("a number greater than 0 and at most 360", lambda deg: 0.0 < deg <= 360.0)]
Rotation = Annotated[float, number("a number greater than -180 and at most 180", lambda deg: -180.0 < deg <= 180.0)]
ClockPosition = Annotated[float, number("a number greater than -360 and less than 360", lambda deg: abs(deg) < 360.0)]
MergeAngle = Annotated[float, number("a number greater than 0 and less than 90", lambda deg: 0.0 < deg < 90.0)]

LengthRange = Annotated[list[PositiveLength], sized("[smallest, largest]", 2), AfterValidator(_rising)]
NumberRange = Annotated[list[Number], sized("[smallest, largest]", 2), AfterValidator(_rising)]
