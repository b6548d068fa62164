"""Lengths as drawings write them: in the shop's unit, which is stated once on the drawing."""

from bendgen.reports.sheet.numbers import SheetNumbers
from bendgen.units import Units, format_inch_fraction

UNIT_NOTES: dict[Units, str] = {
    "mm": "lengths in mm",
    "in": "lengths in inches: nearest 1/32, and what is left over",
}


def length_words(length: float, numbers: SheetNumbers) -> str:
    """Length [mm] without its unit; inches as the nearest fraction and what is left over."""
    return format_inch_fraction(length).replace(" in", "") if numbers.units == "in" else numbers.bare(length)
