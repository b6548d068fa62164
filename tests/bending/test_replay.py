"""Step lists played forward: programs come back as they were predicted, and what is not said is asked for."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.bending.replay import replay_steps
from bendgen.errors import ToolingError
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part
from bendgen.records.step_list import ListedStep, StepList
from bendgen.records.tube import Tube
from tests.independent_bender import SpringLaw, seen_from_front
from tests.random_jobs import (
    TUBE,
    Setting,
    WantedTube,
    laws,
    part_of,
    profile_of,
    program_of,
    settings_of_machines,
    wanted_tubes,
)

PROFILE = profile_of(Setting(), (SpringLaw(die_clr=60.0),))
QUARTER = 60.0 * math.pi / 2.0


def listed(*steps: tuple[float, float, float], blank: float | None = None, tube: Tube | None = TUBE) -> StepList:
    return StepList(
        steps=tuple(
            ListedStep(number=i, feed=feed, rotation_deg=rotation, bend_deg=bend)
            for i, (feed, rotation, bend) in enumerate(steps, start=1)
        ),
        angles="finished",
        blank=blank,
        tube=tube,
    )


@given(wanted_tubes(largest=179.0), laws(), settings_of_machines(), st.floats(0.0, 40.0))
@settings(max_examples=60, deadline=None, derandomize=True)
def test_a_program_comes_back_as_it_was_predicted(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting, front_trim: float
) -> None:
    profile = profile_of(replace(setting, resolution=0.5, resolution_deg=0.1), springs)
    part: Part = replace(part_of(wanted, springs), front_trim=front_trim)
    program = program_of(part, profile)
    steps = StepList(
        steps=tuple(
            ListedStep(number=s.number, feed=s.feed, rotation_deg=s.rotation_deg, bend_deg=s.bend_deg, die=s.die)
            for s in program.steps
        ),
        angles="commanded",
        front_trim=front_trim,
        tube=part.tube,
    )
    replayed = replay_steps(steps, profile, rear=program.finished.straights[-1])
    np.testing.assert_allclose(replayed.tube.straights, program.finished.straights, atol=1e-9)
    ours, theirs = (np.array(shape.points) for shape in (replayed.shape, program.predicted))
    np.testing.assert_allclose(seen_from_front(ours), seen_from_front(theirs), atol=1e-6)


def test_an_elbow_by_hand() -> None:
    # Fed 140, a quarter at 60, and 40 left of the blank: x from 0 to 200 and half the OD, y to 100.
    made = replay_steps(listed((140.0, 0.0, 90.0), blank=180.0 + QUARTER), PROFILE)
    np.testing.assert_allclose(made.shape.points, [(0, 0, 0), (140, 0, 0), (200, 60, 0), (200, 100, 0)], atol=1e-9)
    assert made.shape.vertices is not None
    np.testing.assert_allclose(made.shape.vertices, [(0, 0, 0), (200, 0, 0), (200, 100, 0)], atol=1e-9)
    assert made.box == pytest.approx((215.0, 115.0, 30.0))
    assert made.blank == pytest.approx(180.0 + QUARTER)


def test_trims_are_cut_off() -> None:
    steps = replace(listed((140.0, 0.0, 90.0), blank=200.0 + QUARTER), front_trim=30.0, rear_trim=20.0)
    assert replay_steps(steps, PROFILE).tube.straights == pytest.approx((110.0, 40.0))


def test_a_rear_straight_in_place_of_a_blank() -> None:
    made = replay_steps(replace(listed((140.0, 0.0, 90.0)), rear_trim=20.0), PROFILE, rear=40.0)
    assert made.blank == pytest.approx(200.0 + QUARTER)


def test_a_first_bend_of_half_a_turn_shows_its_side_by_the_far_end() -> None:
    made = replay_steps(listed((100.0, 0.0, 180.0), (50.0, 90.0, 90.0)), PROFILE, rear=70.0)
    assert made.shape.vertices is None
    np.testing.assert_allclose(made.shape.points[0], (0, 0, 0), atol=1e-12)
    np.testing.assert_allclose(made.shape.points[1], (100, 0, 0), atol=1e-9)
    assert made.shape.points[-1][2] == pytest.approx(0.0, abs=1e-9)


def test_a_list_without_bends_is_a_straight_tube() -> None:
    made = replay_steps(listed(blank=300.0), PROFILE)
    np.testing.assert_allclose(made.shape.points, [(0, 0, 0), (300, 0, 0)], atol=1e-12)
    assert made.box == pytest.approx((300.0, 30.0, 30.0))


@pytest.mark.parametrize(
    ("steps", "message"),
    [
        (listed((140.0, 0.0, 90.0), blank=500.0, tube=None), "a replay needs the tube: say its OD, wall and material"),
        (
            replace(listed((140.0, 0.0, 90.0), blank=500.0), angles=None),
            "a replay needs to know whether the angles are commanded or finished",
        ),
        (listed((140.0, 0.0, 90.0)), "a replay needs the blank or the rear straight"),
        (listed((140.0, 0.0, 90.0), blank=234.0), "the steps use 234.25 mm of tube, the blank is 234 mm"),
    ],
)
def test_what_is_not_said_is_asked_for(steps: StepList, message: str) -> None:
    with pytest.raises(ToolingError) as refused:
        replay_steps(steps, PROFILE)
    assert str(refused.value) == message


def test_dies_by_name(metric_profile: MachineProfile) -> None:
    steps = listed((200.0, 0.0, 90.0), blank=600.0, tube=Tube(od=50.0, wall=1.5, material="304L"))
    by_name = replace(steps, steps=(replace(steps.steps[0], die="d50-r100"),), angles="commanded")
    # Commanded 90° is finished 87.4: s(87.4) is between 1.9 at 60 and 2.7 at 90.
    made = replay_steps(by_name, metric_profile)
    assert 87.3 < made.tube.bends[0].angle_deg < 87.5
