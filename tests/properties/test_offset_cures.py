"""Every cure of an offset that does not fit, written into the part's file as it says, makes it fit."""

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, event, given, settings
from hypothesis import strategies as st

from bendgen.bending.planning import plan_part
from bendgen.errors import GeometryError
from bendgen.files.profile_folder import read_profile
from bendgen.records.bend_program import Plan
from bendgen.records.findings import Finding
from bendgen.records.machine import MachineProfile
from tests.part_edits import PartData, edited, part_of_data

PROFILES = Path(__file__).parents[2] / "machine_profiles"
MACHINES = {
    "bay2": ("d50-r100", {"od": 50.0, "wall": 1.5, "material": "304L"}, "mm", 1.0),
    "bay5_inch": ("2in-r4", {"od": 2.0, "wall": 0.065, "material": "304L"}, "in", 1.0 / 25.4),
}


@cache
def profile_named(name: str) -> MachineProfile:
    return read_profile(PROFILES / name)


@st.composite
def offset_files(draw: st.DrawFn, machine: str) -> PartData:
    """Data of a part's file with an offset that may or may not fit."""
    die, tube, units, unit = MACHINES[machine]

    def length(low: float, high: float) -> float:
        return round(draw(st.floats(low, high)) * unit, 2)

    offset: dict[str, Any] = {"length": length(150.0, 700.0), "shortest_end": length(0.0, 250.0)}
    if draw(st.booleans()):
        offset["rise"] = length(0.5, 400.0)
    else:
        for end in ("front", "rear"):
            offset[end] = {"out": length(0.0, 150.0), "clock": round(draw(st.floats(-400.0, 400.0)), 1)}
    choice = draw(st.sampled_from(("nothing", "nothing", "angle", "between", "prefer")))
    if choice == "angle":
        offset["angle"] = round(draw(st.floats(0.5, 90.0)), 1)
    elif choice == "between":
        offset["between"] = length(0.0, 400.0)
    elif choice == "prefer":
        offset["prefer"] = "gentle"
    part = {"name": "Dryer guard", "number": "GD-9", "revision": "A", "quantity": 2, "die": die}
    part["trim"] = draw(st.sampled_from(("both", "both", "both", "none")))
    return {"units": units, "part": part, "tube": dict(tube), "offset": offset}


def limits(plan: Plan) -> Iterator[Finding]:
    return (finding for finding in plan.findings if finding.level == "limit")


@pytest.mark.parametrize("machine", MACHINES)
@given(data=st.data())
@settings(max_examples=60, deadline=None)
def test_every_cure_of_an_offset_makes_it_fit(machine: str, data: st.DataObject) -> None:
    profile = profile_named(machine)
    file = data.draw(offset_files(machine))
    options = frozenset(data.draw(st.sets(st.sampled_from(("--mirror", "--from-rear")))))
    try:
        plan = plan_part(part_of_data(file, options), profile)
    except GeometryError:  # in line, and yet an angle or a straight between
        return
    broken = list(limits(plan))
    event(f"limits: {', '.join(sorted({finding.rule for finding in broken})) or 'none'}")
    assert (plan.program is None) == bool(broken)
    for finding in broken:
        for cure in finding.cures:
            event(cure.change.key)
            cured = plan_part(part_of_data(*edited(file, options, cure.change)), profile)
            left = [(f.rule, f.step) for f in limits(cured)]
            assert (finding.rule, finding.step) not in left, (finding, cure)
            if "still to cure" not in cure.text:
                assert {rule for rule, _ in left} <= {f.rule for f in broken} - {"offset"}, (finding, cure)


@pytest.mark.parametrize("machine", MACHINES)
@given(data=st.data())
@settings(max_examples=40, deadline=None)
def test_an_offset_with_too_little_room_can_always_be_longer(machine: str, data: st.DataObject) -> None:
    file = data.draw(offset_files(machine))
    file["part"]["trim"] = "both"
    for choice in ("angle", "between", "prefer"):
        file["offset"].pop(choice, None)
    plan = plan_part(part_of_data(file), profile_named(machine))
    misfits = [finding for finding in limits(plan) if finding.rule == "offset"]
    assume(misfits)
    assume("leave" in misfits[0].text)  # the ends are short; a rise may also be too small for any bend
    keys = {cure.change.key for cure in misfits[0].cures}
    assert "offset.length" in keys, misfits
