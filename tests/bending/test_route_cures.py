"""Cures of routes, each written into the part's file as it says: after every one the part gets its steps."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from bendgen.bending.planning import plan_part
from bendgen.files.profile_folder import read_profile
from bendgen.records.findings import Cure, Finding
from tests.part_edits import edited, part_of_data

BAY2 = read_profile(Path(__file__).parents[2] / "machine_profiles" / "bay2")
ENDS = {"shortest_front": 60.0, "shortest_rear": 80.0}
SIDE_BY_SIDE = {  # two ports that face each other, too near for two bends
    "front": {"at": [0, 0, 0], "towards": [1, 0, 0]},
    "rear": {"at": [150, 60, 30], "towards": [-1, 0, 0]},
    "bends": 2,
}
SQUARE = {"front": {"at": [0, 0, 0], "towards": [1, 0, 0]}, "rear": {"at": [600, 500, 7], "towards": [0, -1, 0]}}
AROUND = {  # past a beam that leaves no room for two bends
    "front": {"at": [0, 0, 0], "towards": [1, 0, 0]},
    "rear": {"at": [900, 500, 300], "towards": [0, 0, -1]},
    "keep_out": [[450, -100, 0, 550, 700, 250]],
    "clearance": 250.0,
    "bends": 2,
}
FAR = {"front": {"at": [0, 0, 0], "towards": [1, 0, 0]}, "rear": {"at": [3400, 500, 300], "towards": [0, 0, -1]}}


def file_of(route: Mapping[str, Any], **part: str) -> dict[str, Any]:
    """Data of an invented part's file."""
    named = {"name": "Link", "number": "GD-127", "revision": "A", "quantity": 1, "die": "d50-r100", **part}
    tube = {"od": 50.0, "wall": 1.5, "material": "304L"}
    return {"units": "mm", "part": named, "tube": tube, "route": {**ENDS, **route}}


def limits(data: Mapping[str, Any], *options: str) -> list[Finding]:
    plan = plan_part(part_of_data(data, frozenset(options)), BAY2)
    return [finding for finding in plan.findings if finding.level == "limit"]


def after(data: Mapping[str, Any], cure: Cure, *options: str) -> list[str]:
    """Rules still broken once the file says what the cure says."""
    changed, changed_options = edited(data, frozenset(options), cure.change)
    return [finding.rule for finding in limits(changed, *changed_options)]


@pytest.mark.parametrize(
    ("route", "options", "keys"),
    [
        (SIDE_BY_SIDE, (), {"route.bends", "route.rear.at"}),
        (SIDE_BY_SIDE, ("--from-rear",), {"route.bends", "route.front.at"}),
        (SIDE_BY_SIDE, ("--from-rear", "--mirror"), {"route.bends", "route.front.at"}),
        ({**SQUARE, "bends": 1}, ("--mirror",), {"route.bends", "route.rear.at"}),
        (AROUND, (), {"route.bends", "route.keep_out", "route.clearance"}),
    ],
)
def test_every_cure_lets_a_route_fit(route: Mapping[str, Any], options: tuple[str, ...], keys: set[str]) -> None:
    """Ports that face each other too near, axes that pass each other, a box in the way."""
    data = file_of(route)
    (finding,) = limits(data, *options)
    assert {cure.change.key for cure in finding.cures} >= keys
    for cure in finding.cures:
        left = after(data, cure, *options)
        assert "route" not in left
        assert not left or cure.text.endswith(f"; still to cure then: {', '.join(dict.fromkeys(left))}")


def test_how_much_straight_an_end_can_keep() -> None:
    """Axes that meet at a right angle: CLR 100 opens to 103.3 on release, which 600 and 200 leave 496.7 and 96.7."""
    data = file_of({**SQUARE, "rear": {"at": [600, 200, 0], "towards": [0, -1, 0]}, "bends": 1, "shortest_rear": 150.0})
    (finding,) = limits(data)
    cure = next(cure for cure in finding.cures if cure.change.key == "route.shortest_rear")
    assert isinstance(cure.change.value, float)
    assert 96.0 < cure.change.value < 96.8
    assert cure.text == f"straight at the rear end of {cure.change.value:g} mm"
    assert after(data, cure) == []
    moved = next(cure for cure in finding.cures if cure.change.key == "route.rear.at")
    assert moved.change.value == pytest.approx((600.0, 253.3, 0.0), abs=0.1)


def test_limits_of_the_machine_are_cured_without_touching_vertices() -> None:
    """A part with a route has no vertices in its file: its ports move instead."""
    data = file_of(FAR)
    found = limits(data)
    assert {finding.rule for finding in found} == {"feed", "carriage", "blank"}
    for finding in found:
        assert {cure.change.key for cure in finding.cures} == {"route.rear.at"}
        assert finding.rule not in after(data, finding.cures[0])


def test_another_die_set_and_allowed_trim() -> None:
    """CLR 75 finds room where 100 does not; the cut at the front is what the part forbids."""
    tight = {**SQUARE, "rear": {"at": [150, 400, 0], "towards": [0, -1, 0]}, "bends": 1}
    assert "part.die" in {cure.change.key for cure in limits(file_of(tight))[0].cures}
    clamped = {**SQUARE, "rear": {"at": [200, 700, 0], "towards": [0, -1, 0]}, "bends": 1}
    (finding,) = limits(file_of(clamped, trim="none"))
    assert "part.trim" in {cure.change.key for cure in finding.cures}
