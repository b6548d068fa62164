"""Commands by hand numbers: rounding of feeds in each form, turns of the collet, where the carriage stands."""

from dataclasses import replace

import numpy as np
import pytest

from bendgen.bending.commands import collet_positions, rounded_turns
from bendgen.bending.planning import plan_part
from bendgen.records.bend_program import BendProgram
from bendgen.records.machine import FeedForm, MachineProfile, RotationForm, RotationPositive
from bendgen.records.part import Part, WantedBend, WantedSteps


def profile_that_turns(
    profile: MachineProfile,
    *,
    allowed: tuple[float, float] | None = None,
    form: RotationForm = "incremental",
    positive: RotationPositive = "clockwise_from_carriage",
    resolution: float = 0.5,
) -> MachineProfile:
    return replace(
        profile,
        rotation=replace(profile.rotation, range_deg=allowed, resolution_deg=resolution),
        output=replace(profile.output, rotation=form, rotation_positive=positive),
    )


def positions(profile: MachineProfile, *rotations: float) -> list[float]:
    found: list[float] = collet_positions(np.array(rotations), profile).tolist()
    return found


def test_a_free_collet_just_adds_up(metric_profile: MachineProfile) -> None:
    assert positions(profile_that_turns(metric_profile), 0.0, 170.0, 170.0, 170.0) == [0.0, 170.0, 340.0, 510.0]


def test_a_limited_collet_goes_the_other_way_round(metric_profile: MachineProfile) -> None:
    profile = profile_that_turns(metric_profile, allowed=(-180.0, 180.0))
    # 170 + 170 = 340 is out of range: 20° back of the start instead, which is -20.
    assert positions(profile, 0.0, 170.0, 170.0) == [0.0, 170.0, -20.0]
    assert positions(profile, 0.0, -170.0, -170.0) == [0.0, -170.0, 20.0]
    assert positions(profile, 0.0, 180.0, 0.0) == [0.0, 180.0, 180.0]


def test_a_collet_that_cannot_get_there_says_where_it_would_stand(
    metric_profile: MachineProfile, dryer_part: Part
) -> None:
    profile = profile_that_turns(metric_profile, allowed=(-90.0, 90.0))
    assert positions(profile, 0.0, 120.0) == [0.0, 120.0]
    bends = tuple(WantedBend(straight=200.0, rotation_deg=r, angle_deg=60.0) for r in (0.0, 120.0, -120.0, -100.0))
    part = replace(dryer_part, centreline=None, steps=WantedSteps(bends=bends, rear=400.0))
    found = [f for f in plan_part(part, profile).findings if f.rule == "rotation"]
    assert [(f.step, f.value, f.limit) for f in found] == [(2, 120.0, 90.0), (4, -100.0, -90.0)]
    assert found[0].text == "collet would stand at 120.00°; its range is -90° to 90°"


@pytest.mark.parametrize(
    ("form", "positive", "given"),
    [
        ("incremental", "clockwise_from_carriage", [0.0, 45.5, -90.0, 180.0]),
        ("incremental", "counterclockwise_from_carriage", [0.0, -45.5, 90.0, -180.0]),
        ("absolute", "clockwise_from_carriage", [0.0, 45.5, -45.0, 135.0]),
        ("absolute", "counterclockwise_from_carriage", [0.0, -45.5, 45.0, -135.0]),
    ],
)
def test_forms_and_signs_of_rotation(
    metric_profile: MachineProfile, form: RotationForm, positive: RotationPositive, given: list[float]
) -> None:
    # 45.3 is 45.5 at half a degree; its sum with -90.2, -44.9, is -45.0; with 180 more, 135.1 is 135.0.
    machine, turned = rounded_turns(
        np.array([0.0, 45.3, -90.2, 180.0]), profile_that_turns(metric_profile, form=form, positive=positive)
    )
    assert machine.tolist() == given
    absolute = [0.0, 45.5, -90.5, 180.0]
    assert turned.tolist() == (absolute if form == "absolute" else [0.0, 45.5, -90.0, 180.0])
    assert not np.signbit(machine[0])


def test_positions_without_a_range_do_not_grow_turn_by_turn(metric_profile: MachineProfile) -> None:
    profile = profile_that_turns(metric_profile, form="absolute")
    machine, turned = rounded_turns(np.array([0.0, 150.0, 150.0, 150.0, -150.0]), profile)
    assert machine.tolist() == [0.0, 150.0, -60.0, 90.0, -60.0]
    # The collet goes from 150 to -60 the long way back: the same place, and so the same part.
    assert turned.tolist() == [0.0, 150.0, -210.0, 150.0, -150.0]


def program_of(part: Part, profile: MachineProfile, form: FeedForm, resolution: float) -> BendProgram:
    machine = replace(
        profile,
        feed=replace(profile.feed, resolution=resolution),
        output=replace(profile.output, feed=form),
    )
    plan = plan_part(part, machine)
    assert plan.program is not None, plan.findings
    return plan.program


@pytest.mark.parametrize(
    ("form", "machine"),
    [
        # Straights 197 and 154; a bend uses 157.792; the blank is 966.584 and the grip 60. At 5 mm:
        ("incremental", [195.0, 155.0]),  # sums 197 and 351 become 195 and 350
        ("summed", [195.0, 350.0]),
        ("passed", [195.0, 510.0]),  # 351 + 157.792 = 508.79
        ("carriage", [710.0, 400.0]),  # 966.584 - 60 - 197 = 709.58 and 397.79
    ],
)
def test_each_form_rounds_what_the_machine_is_given(
    dryer_part: Part, metric_profile: MachineProfile, form: FeedForm, machine: list[float]
) -> None:
    program = program_of(dryer_part, metric_profile, form, 5.0)
    assert [step.feed for step in program.machine_steps] == machine


@pytest.mark.parametrize("form", ["incremental", "summed", "passed", "carriage"])
def test_the_carriage_stands_where_the_blank_leaves_it(
    dryer_part: Part, metric_profile: MachineProfile, form: FeedForm
) -> None:
    program = program_of(dryer_part, metric_profile, form, 5.0)
    reach = program.blank.length - 60.0
    for step in program.steps:
        assert step.carriage_before == pytest.approx(reach - step.passed)
        arc = step.formed_clr * np.radians(step.finished_angle_deg)
        assert step.carriage_before - step.carriage_after == pytest.approx(arc - step.elongation)
    first, second = program.steps
    assert second.passed - first.passed == pytest.approx(first.carriage_before - first.carriage_after + second.feed)


def test_what_is_left_at_an_uncut_rear_end_is_predicted(dryer_part: Part, metric_profile: MachineProfile) -> None:
    # Closest 97 leaves just the wanted rear straight: no cut, so feeds of 195 and 155 leave it 1 mm longer.
    roomy = replace(
        metric_profile,
        carriage=replace(metric_profile.carriage, closest=97.0),
        dies=(replace(metric_profile.dies[0], pressure_die=None),),
    )
    program = program_of(dryer_part, roomy, "incremental", 5.0)
    assert program.blank.cut_marks == ()
    assert program.finished.straights == pytest.approx((195.0, 155.0, 158.0))


def test_the_collet_opens_only_before_a_last_bend_that_needs_it(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    opening = replace(metric_profile, carriage=replace(metric_profile.carriage, open_before_last=True, last_rear=30.0))
    profile = replace(opening, dies=(replace(opening.dies[0], pressure_die=None),))
    assert [s.collet_open for s in program_of(dryer_part, profile, "incremental", 0.1).steps] == [False, True]
    held = program_of(replace(dryer_part, rear_trim=200.0), profile, "incremental", 0.1)
    assert [s.collet_open for s in held.steps] == [False, False]
