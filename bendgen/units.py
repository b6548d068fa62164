"""Units: the only place where a conversion factor stands.

Records hold millimetres and degrees. Radians exist only inside the maths, inches only in files and on sheets.
Arrays are converted by multiplying with the same factors.
"""

import math
from typing import Literal

Units = Literal["mm", "in"]

MM_PER_INCH = 25.4  # exact by definition
MM_PER_UNIT: dict[Units, float] = {"mm": 1.0, "in": MM_PER_INCH}
RADIANS_PER_DEGREE = math.pi / 180.0
DEGREES_PER_RADIAN = 180.0 / math.pi


def mm_from_units(length: float, units: Units) -> float:
    """Length in mm from a length in `units`."""
    return length * MM_PER_UNIT[units]


def units_from_mm(length: float, units: Units) -> float:
    """Length in `units` from a length in mm."""
    return length / MM_PER_UNIT[units]
