"""Units: the only place where a conversion factor stands.

Records hold millimetres and degrees. Radians exist only inside the maths, inches only in files and on sheets.
"""

import math
from typing import Literal, TypeVar

Units = Literal["mm", "in"]

MM_PER_INCH = 25.4  # exact by definition
MM_PER_UNIT: dict[str, float] = {"mm": 1.0, "in": MM_PER_INCH}
RADIANS_PER_DEGREE = math.pi / 180.0
DEGREES_PER_RADIAN = 180.0 / math.pi

Number = TypeVar("Number")  # a float or an array of them: both multiply by a factor


def mm_from_units(value: Number, units: Units) -> Number:
    """Length in mm from a length in `units`."""
    return value * MM_PER_UNIT[units]  # type: ignore[operator, no-any-return]


def units_from_mm(length: Number, units: Units) -> Number:
    """Length in `units` from a length in mm."""
    return length / MM_PER_UNIT[units]  # type: ignore[operator, no-any-return]


def radians_from_degrees(angle_deg: Number) -> Number:
    """Angle in radians from degrees."""
    return angle_deg * RADIANS_PER_DEGREE  # type: ignore[operator, no-any-return]


def degrees_from_radians(angle: Number) -> Number:
    """Angle in degrees from radians."""
    return angle * DEGREES_PER_RADIAN  # type: ignore[operator, no-any-return]
