"""The machine's own steps, number by number as text: what the operator reads is what the machine's file holds."""

import math

from bendgen.records.bend_program import MachineStep
from bendgen.records.machine import Column, MachineProfile
from bendgen.units import format_number, units_from_mm

MOST_DECIMALS = 6


def machine_cells(step: MachineStep, profile: MachineProfile) -> tuple[str, ...]:
    """One text for each column of the profile's output: values at the machine's resolution, no exponent, no -0."""
    values = {"feed": step.feed, "rotation": step.rotation, "bend": step.bend}
    texts: dict[Column, str] = {"number": str(step.number), "die": step.die}
    for column, decimals in _column_decimals(profile).items():
        texts[column] = format_number(values[column], decimals)
    return tuple(texts[column] for column in profile.output.columns)


def _column_decimals(profile: MachineProfile) -> dict[Column, int]:
    return {
        "feed": decimals_from_resolution(units_from_mm(profile.feed.resolution, profile.output.units)),
        "rotation": decimals_from_resolution(profile.rotation.resolution_deg),
        "bend": decimals_from_resolution(profile.bend.resolution_deg),
    }


def decimals_from_resolution(resolution: float) -> int:
    """Decimals that show every multiple of a resolution; one place finer where no six decimals hold it (1/25.4)."""
    for decimals in range(MOST_DECIMALS + 1):
        if math.isclose(round(resolution, decimals), resolution, rel_tol=1e-9):
            return decimals
    return max(0, math.ceil(-math.log10(resolution)) + 1)
