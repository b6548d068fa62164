"""Units: the only place where a conversion factor stands, and where an angle is told from its full turns.

Records hold millimetres and degrees. Radians exist only inside the maths, inches only in files and on sheets.
Arrays are converted by multiplying with the same factors.
"""

import math
import re
from collections.abc import Iterable
from typing import Literal, Protocol, Self, TypeVar

Units = Literal["mm", "in"]
DrawnUnits = Literal["mm", "cm", "m", "in", "ft"]  # what drawings and files from elsewhere are in

UNIT_NAMES: dict[Units, str] = {"mm": "millimetres", "in": "inches"}
MM_PER_INCH = 25.4  # exact by definition
MM_PER_UNIT: dict[Units, float] = {"mm": 1.0, "in": MM_PER_INCH}
INCHES_PER_FOOT = 12.0
MM_PER_DRAWN_UNIT: dict[DrawnUnits, float] = {
    "mm": 1.0,
    "cm": 10.0,
    "m": 1000.0,
    "in": MM_PER_INCH,
    "ft": INCHES_PER_FOOT * MM_PER_INCH,
}
ROUNDED_SHARE = 0.01  # what a shop rounds off a size that it writes in the other unit
FINE_DECIMALS: dict[Units, int] = {"mm": 2, "in": 3}  # what a caliper or a good tape can tell apart, and a digit more
RADIANS_PER_DEGREE = math.pi / 180.0
DEGREES_PER_RADIAN = 180.0 / math.pi
FULL_TURN_DEG = 360.0


class Degrees(Protocol):
    """What full turns can be taken from: a float, or an array of them."""

    def __add__(self, other: float, /) -> Self: ...
    def __sub__(self, other: float, /) -> Self: ...
    def __mod__(self, other: float, /) -> Self: ...


SomeDegrees = TypeVar("SomeDegrees", bound=Degrees)

_LENGTH = re.compile(
    r"""(?P<sign>[-+]?)\s*
    (?:(?P<feet>[0-9]+)\s*(?:'(?!')|[′’]|ft)(?:[\s-]*(?=[0-9.])|$))?
    (?:
        (?:(?P<whole>[0-9]+)(?:\s+|-))?(?P<numerator>[0-9]+)/(?P<denominator>[0-9]+)
        | (?P<decimal>[0-9]+\.?[0-9]*|\.[0-9]+)
    )?
    \s*(?P<unit>mm|in|"|[″”]|'')?""",
    re.VERBOSE,
)


def mm_from_units(length: float, units: Units) -> float:
    """Length in mm from a length in `units`."""
    return length * MM_PER_UNIT[units]


def units_from_mm(length: float, units: Units) -> float:
    """Length in `units` from a length in mm."""
    return length / MM_PER_UNIT[units]


def shop_units(drawn: DrawnUnits) -> Units:
    """Unit in which a shop writes down what was drawn in another."""
    return "in" if drawn in ("in", "ft") else "mm"


def within_half_turn(turn_deg: float) -> float:
    """Turn or position that comes to the same, in (-180, 180]: a half turn is +180, nothing is -0."""
    turned = math.remainder(turn_deg, FULL_TURN_DEG)
    return 180.0 if turned == -180.0 else turned + 0.0


def shorter_way(difference_deg: SomeDegrees) -> SomeDegrees:
    """Difference of two turns the shorter way round, in [-180, 180); the two ways of a half turn are as long."""
    return (difference_deg + 180.0) % FULL_TURN_DEG - 180.0


def parse_length(text: str, units: Units) -> float:
    r"""Length in mm from the way a shop writes it; a text without a unit mark is in `units`.

    Read are "12.5", "-3", "11/4", "4 1/2", "4-1/2 in", "1'-2 3/8\"", "5 ft", "12.5 mm". After a whole number the
    fraction must be below 1, and after feet the inches below 12: anything else is more likely a slip than a length.

    Raises
    ------
    ValueError
        The text is no such length, or a finite number cannot hold it.
    """
    found = _LENGTH.fullmatch(text.strip())
    if not found or not (found["feet"] or found["decimal"] or found["numerator"]):
        raise ValueError(f"no length: {text!r}")
    number = float(found["decimal"] or 0.0) + _fraction(found)
    if found["feet"]:
        if number >= INCHES_PER_FOOT or found["unit"] == "mm":
            raise ValueError(f"feet with more than 12 inches, or with mm: {text!r}")
        number += float(found["feet"]) * INCHES_PER_FOOT
    length = mm_from_units(number, _marked_units(found, units))
    if not math.isfinite(length):
        raise ValueError(f"no finite length: {text!r}")
    return -length if found["sign"] == "-" else length


def _fraction(found: re.Match[str]) -> float:
    """Value of a plain or mixed fraction, 0 if the text has none."""
    if not found["numerator"]:
        return 0.0
    numerator, denominator = float(found["numerator"]), float(found["denominator"])
    if denominator == 0.0 or (found["whole"] and numerator >= denominator):
        raise ValueError(f"no fraction: {found[0]!r}")
    return float(found["whole"] or 0.0) + numerator / denominator


def _marked_units(found: re.Match[str], units: Units) -> Units:
    """Units that the text itself names, else `units`."""
    if found["unit"] == "mm":
        return "mm"
    return "in" if found["unit"] or found["feet"] else units


def format_number(value: float, decimals: int) -> str:
    """`value` with that many decimals, never as -0; raises ValueError unless it is finite."""
    if not math.isfinite(value):
        raise ValueError(f"{value} is no number to show to a person")
    return f"{value:z.{decimals}f}"


def unit_question(length: float, known: Iterable[float]) -> str:
    """Ask for the unit, "is the unit right? 2 in is 50.8 mm", where its number in the other unit is a known length.

    length, known : [mm]; empty text where the other unit gives none of those known
    """
    readings: tuple[tuple[Units, Units, float], ...] = (("in", "mm", MM_PER_INCH), ("mm", "in", 1.0 / MM_PER_INCH))
    lengths = tuple(known)
    for meant, written, factor in readings:
        if any(abs(length * factor - other) <= ROUNDED_SHARE * other for other in lengths):
            number = units_from_mm(length, written)
            return f"is the unit right? {number:.4g} {meant} is {format_length(length * factor, written)}"
    return ""


def counted(number: int, thing: str) -> str:
    """Number and thing, "1 bend", "2 bends"."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def format_length(length: float, units: Units, decimals: int | None = None) -> str:
    """Length in mm as text in `units`, "110 mm"; without `decimals` to 0.01 mm or 0.001 in and no trailing zeros."""
    number = format_number(units_from_mm(length, units), FINE_DECIMALS[units] if decimals is None else decimals)
    if decimals is None:
        number = number.rstrip("0").rstrip(".")
    return f"{number} {units}"


def format_inch_fraction(length: float, denominator: int = 32) -> str:
    """Length in mm, 0 or more, as inches, nearest fraction and what is left over: "32 27/32 in + 0.006 in".

    denominator : finest division of the rule, a power of two
    """
    inches = length / MM_PER_INCH
    divisions = round(inches * denominator)
    left_over = inches - divisions / denominator
    whole, part = divmod(divisions, denominator)
    common = math.gcd(part, denominator)
    fraction = f"{part // common}/{denominator // common}" if part else ""
    words = [str(whole) if whole or not part else "", fraction, "in", _left_over_text(left_over)]
    return " ".join(word for word in words if word)


def _left_over_text(inches: float) -> str:
    size = format_number(abs(inches), FINE_DECIMALS["in"])
    return "" if float(size) == 0.0 else f"{'+' if inches > 0.0 else '-'} {size} in"
