"""Readings for QA: legs, offsets, widths and the box, each worked out by hand on bends without springback."""

import math
from dataclasses import replace

import pytest

from bendgen.bending.checks import apex_leg, outer_apex_leg
from bendgen.geometry.legs import crown_leg
from bendgen.records.bend_program import BendProgram, Check
from bendgen.records.part import Centreline, Part, Tolerance, Vertex, WantedBend, WantedSteps
from tests.independent_bender import SpringLaw
from tests.random_jobs import Setting, part_for, profile_of, program_of

PROFILE = profile_of(Setting(), (SpringLaw(die_clr=60.0),))  # tube OD 30


def drawn(*corners: tuple[float, float, float]) -> Part:
    return part_for(Centreline(vertices=tuple(Vertex(x=x, y=y, z=z) for x, y, z in corners)))


def checks_of(part: Part) -> dict[str, Check]:
    program: BendProgram = program_of(part, PROFILE)
    return {check.id: check for check in program.checks}


def test_the_box_of_steps_lies_along_axes_that_can_be_found_on_the_part() -> None:
    """A file of steps has no x, y and z: 200 and 150 mm of straight, 90° on CLR 60, OD 30."""
    bends = (WantedBend(straight=200.0, rotation_deg=0.0, angle_deg=90.0),)
    of_steps = checks_of(part_for(WantedSteps(bends=bends, rear=150.0)))
    assert of_steps["box-x"].quantity == "overall box over the OD, along the last straight"
    assert of_steps["box-x"].predicted == pytest.approx(150.0 + 60.0 + 15.0)
    assert of_steps["box-y"].quantity == "overall box over the OD, along the way in which the last bend goes"
    assert of_steps["box-y"].predicted == pytest.approx(200.0 + 60.0 + 15.0)
    of_file = checks_of(drawn((0, 0, 0), (300, 0, 0), (300, 300, 0)))
    assert of_file["box-x"].quantity == "overall box over the OD, along x of the part's file"


def test_legs_by_hand() -> None:
    # 60°: tan 30° is 0.57735.
    assert apex_leg(100.0, 60.0, 60.0) == pytest.approx(100.0 + 34.6410, abs=1e-4)
    assert outer_apex_leg(100.0, 60.0, 60.0, 30.0) == pytest.approx(100.0 + 34.6410 + 8.6603, abs=1e-4)
    assert crown_leg(100.0, 60.0, 30.0) == 175.0


def test_checks_of_an_elbow_in_order() -> None:
    found = checks_of(drawn((0, 0, 0), (300, 0, 0), (300, 200, 0)))
    readings = {name: check.predicted for name, check in found.items()}
    rear_trim = readings.pop("rear-cut", None)
    assert rear_trim is None  # nothing to cut: the rear straight of 140 holds grip and closest
    assert readings == pytest.approx(
        {
            "blank": 240.0 + 140.0 + 60.0 * math.pi / 2.0,
            "angle-1": 90.0,
            "apex-leg-front": 300.0,
            "outer-apex-leg-front": 315.0,
            "crown-leg-front": 315.0,
            "apex-leg-rear": 200.0,
            "outer-apex-leg-rear": 215.0,
            "crown-leg-rear": 215.0,
            "box-x": 315.0,
            "box-y": 215.0,
            "box-z": 30.0,
        }
    )
    assert next(iter(found)) == "blank"
    assert found["angle-1"].when == "after bending"
    assert found["angle-1"].unit == "deg"


@pytest.mark.parametrize(("angle", "has_crown"), [(84.9, False), (85.1, True), (94.9, True), (95.1, False)])
def test_the_crown_is_measured_only_near_a_right_angle(angle: float, has_crown: bool) -> None:  # noqa: FBT001
    bend = WantedBend(straight=200.0, rotation_deg=0.0, angle_deg=angle)
    found = checks_of(part_for(WantedSteps(bends=(bend,), rear=200.0)))
    assert ("crown-leg-front" in found) is has_crown


def test_straights_and_rotations_between_bends() -> None:
    found = checks_of(drawn((0, 0, 0), (300, 0, 0), (300, 200, 0), (300, 200, 250)))
    assert found["straight-2"].predicted == pytest.approx(80.0)
    assert found["rotation-2"].predicted == pytest.approx(90.0)
    assert (found["straight-2"].start, found["straight-2"].end) == ("end of bend 1", "start of bend 2")
    assert found["angle-1"].when == "after step 1"
    between = [(found[f"angle-{i}"].start, found[f"angle-{i}"].end) for i in (1, 2)]
    assert between == [("straight 1", "straight 2"), ("straight 2", "straight 3")]


def test_an_offset_and_its_rolling_cousin() -> None:
    # Ends along x, 30 aside and 40 up: 50 apart.
    found = checks_of(drawn((0, 0, 0), (300, 0, 0), (500, 30, 40), (800, 30, 40)))
    assert found["offset"].predicted == pytest.approx(50.0)
    assert found["offset"].tolerance == 1.0
    assert not [name for name in found if name.startswith("width")]


def test_a_width_in_three_ways() -> None:
    found = checks_of(drawn((0, 0, 0), (300, 0, 0), (300, 250, 0), (0, 250, 0)))
    widths = [found[f"width-{datum}"].predicted for datum in ("outside", "centreline", "inside")]
    assert widths == pytest.approx([280.0, 250.0, 220.0])
    assert "offset" not in found


def test_ends_that_are_not_parallel_have_neither() -> None:
    found = checks_of(drawn((0, 0, 0), (300, 0, 0), (500, 100, 0), (800, 110, 0)))
    assert not [name for name in found if name.startswith(("offset", "width"))]


def test_a_bend_of_half_a_turn_has_no_angle_between_straights() -> None:
    bends = (
        WantedBend(straight=200.0, rotation_deg=0.0, angle_deg=180.0),
        WantedBend(straight=200.0, rotation_deg=90.0, angle_deg=30.0),
    )
    part = part_for(WantedSteps(bends=bends, rear=200.0))
    program = program_of(part, PROFILE)
    found = {check.id: check for check in program.checks}
    assert "angle-1" not in found
    assert "angle-2" in found
    assert program.wanted.vertices is None
    assert program.predicted.vertices is None


def test_a_cut_rear_end_is_checked_by_its_mark() -> None:
    found = checks_of(replace(drawn((0, 0, 0), (300, 0, 0), (300, 200, 0)), rear_trim=12.0))
    assert found["rear-cut"].predicted == 12.0
    assert found["rear-cut"].tolerance == 1.0


def test_a_straight_part_has_a_length() -> None:
    found = checks_of(drawn((0, 0, 0), (300, 400, 0)))
    assert found["length"].predicted == 500.0
    assert set(found) == {"blank", "length", "box-x", "box-y", "box-z"}


def test_tolerances_by_class_follow_each_size() -> None:
    part = drawn((0, 0, 0), (110, 0, 0), (110, 1500, 0))
    found = checks_of(replace(part, tolerance=Tolerance(iso2768="m", source="part")))
    assert found["apex-leg-front"].tolerance == 0.3  # 30 to 120
    assert found["outer-apex-leg-front"].tolerance == 0.5  # 125 is in 120 to 400
    assert found["apex-leg-rear"].tolerance == 1.2  # 1000 to 2000
    assert found["angle-1"].tolerance == pytest.approx(20.0 / 60.0)  # shorter leg 110, apex to apex


def test_a_box_is_of_the_tube_where_the_file_puts_it() -> None:
    found = checks_of(drawn((0, 0, 0), (0, 0, 300), (0, 200, 300)))
    assert [found[f"box-{axis}"].predicted for axis in "xyz"] == pytest.approx([30.0, 215.0, 315.0])
