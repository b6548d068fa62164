"""A part with one change, and how changed lengths are rounded and written."""

import math
from dataclasses import dataclass

from bendgen.records.findings import Change
from bendgen.records.part import Part
from bendgen.units import Units, format_number, mm_from_units, units_from_mm

GRAIN_DECIMALS = 3
GRAIN = 10.0**GRAIN_DECIMALS  # changed lengths and angles are whole thousandths of the file's unit
NOISE = 1e-5  # in thousandths: rounding noise that must not cost a whole one


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedPart:
    """A part with one change: as it will be planned, and what to write into its file; text: in a person's words."""

    part: Part
    change: Change
    text: str


def rounded_up(length: float, units: Units) -> float:
    """Length [mm], up to the next thousandth of the file's unit, so that a cure reaches its limit."""
    return mm_from_units(math.ceil(units_from_mm(length, units) * GRAIN - NOISE) / GRAIN, units)


def rounded_down(length: float, units: Units) -> float:
    """Length [mm], down to the next thousandth of the file's unit."""
    return mm_from_units(math.floor(units_from_mm(length, units) * GRAIN + NOISE) / GRAIN, units)


def in_words(length: float, units: Units) -> str:
    """Changed length [mm] to its last thousandth: a person who types it in gets what the change gives."""
    return f"{format_number(units_from_mm(length, units), GRAIN_DECIMALS).rstrip('0').rstrip('.')} {units}"
