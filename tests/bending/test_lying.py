"""How the tube lies before each bend, against the independent bender and by hand."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings

from bendgen.bending.lying import lying_before_bends
from bendgen.records.bend_program import BendProgram
from tests.independent_bender import Keyed, SpringLaw
from tests.lying_on_bender import lying_on_bender
from tests.random_jobs import (
    Setting,
    WantedTube,
    bender_of,
    laws,
    part_of,
    profile_of,
    program_of,
    settings_of_machines,
    wanted_tubes,
)


@given(wanted_tubes(most=5), laws(), settings_of_machines())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_the_tube_lies_where_the_independent_bender_has_it(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    program = program_of(part_of(wanted, springs), profile_of(setting, springs))
    table = [Keyed(die=s.die, feed=s.feed, rotation=s.rotation, bend=s.bend) for s in program.machine_steps]
    made = bender_of(setting, springs).make(table, program.blank.length)
    for lies, theirs in zip(lying_before_bends(program), lying_on_bender(made, setting.side), strict=True):
        ours = np.array(lies.axis)
        distances = np.linalg.norm(ours[:, None] - theirs[None], axis=2)
        assert distances.min(axis=0).max() < 1e-6
        assert np.all(np.diff(distances.argmin(axis=0)) > 0), "in order from the front"
        way = np.linalg.norm(np.diff(ours, axis=0), axis=1).sum()
        made_before = program.steps[: lies.number - 1]
        arcs = sum(math.radians(step.finished_angle_deg) * step.formed_clr for step in made_before)
        assert way == pytest.approx(sum(step.feed for step in program.steps[: lies.number]) + arcs, rel=0.01)


def test_after_a_bend_of_90_and_a_quarter_turn_clockwise_the_front_leg_stands_up(example_program: BendProgram) -> None:
    # Drawn to the left and seen from the carriage, the leg points left; a quarter turn clockwise takes left to up.
    first, second = lying_before_bends(example_program)
    np.testing.assert_allclose(first.axis, [(197.0, 0.0, 0.0), (0.0, 0.0, 0.0)], atol=1e-9)
    assert first.bent_at == ()
    np.testing.assert_allclose(second.axis[0], (154.0 + 103.0, 0.0, 103.0 + 197.0), atol=1e-9)
    across = 103.0 * math.cos(math.radians(45.0))
    np.testing.assert_allclose(second.bent_at[0], (154.0 + across, 0.0, 103.0 - across), atol=0.3)


def test_a_machine_that_draws_right_has_its_leg_down_after_the_same_turn(example_program: BendProgram) -> None:
    profile = example_program.profile
    right = replace(example_program, profile=replace(profile, bend=replace(profile.bend, side="right")))
    np.testing.assert_allclose(lying_before_bends(right)[1].axis[0], (257.0, 0.0, -300.0), atol=1e-9)


def test_the_front_trim_is_still_on(example_program: BendProgram) -> None:
    trimmed = replace(example_program, blank=replace(example_program.blank, front_trim=30.0))
    assert lying_before_bends(trimmed)[0].axis[0] == (197.0, 0.0, 0.0)


def test_where_nothing_is_bent_nothing_lies_before_a_bend(blank_program: BendProgram) -> None:
    assert lying_before_bends(blank_program) == ()
