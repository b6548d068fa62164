"""Lengths that were written in the other unit: an inch where the file says millimetres, or the other way round.

Nothing is changed for it and nothing refused: a question is asked, with the numbers, where the other unit would do.
"""

from collections.abc import Iterator
from dataclasses import replace

from bendgen.bending.job import remark
from bendgen.bending.planning import broken_limits, plan_part
from bendgen.errors import BendgenError
from bendgen.records.findings import Change, Cure, Finding
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part
from bendgen.units import UNIT_NAMES, format_length


def unit_slip(part: Part, in_other_unit: Part, profile: MachineProfile) -> Finding | None:
    """Ask whether the unit is right of a part that breaks limits, or that no die serves; None where it may well be.

    in_other_unit : the same file, read as if it said the other unit
    """
    for what, other, cures in _read_otherwise(part, in_other_unit):
        blank = _blank_without_limits(other, profile)
        if blank is not None:
            units = in_other_unit.units
            numbers = [f"OD {format_length(other.tube.od, units)}"] * (other.tube is in_other_unit.tube)
            numbers.append(f"blank {format_length(blank, units)}")
            text = f"is the unit right? With {what} in {UNIT_NAMES[units]} it breaks no limit: {', '.join(numbers)}"
            return replace(remark("unit", "caution", None, text), cures=cures)
    return None


def _read_otherwise(part: Part, other: Part) -> Iterator[tuple[str, Part, tuple[Cure, ...]]]:
    """The whole file in the other unit, or only the tube, or only its path."""
    change = Change(key="units", value=other.units)
    yield (
        "all its lengths",
        other,
        (Cure(text=f"let the file say that it is in {UNIT_NAMES[other.units]}", change=change),),
    )
    yield "the tube alone", replace(part, tube=other.tube), ()
    path = replace(part, centreline=other.centreline, steps=other.steps, offset=other.offset, route=other.route)
    yield "its path alone", path, ()


def _blank_without_limits(part: Part, profile: MachineProfile) -> float | None:
    """Length of the blank [mm] of a part that can be bent as it stands; cures of one that cannot are not waited for."""
    try:
        if broken_limits(part, profile):
            return None
        program = plan_part(part, profile).program
    except BendgenError:
        return None
    return program.blank.length if program is not None else None
