"""Readings of thousands of tubes at once are those that the sheet states for each."""

from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import given, settings

from bendgen.bending.check_values import Tubes, check_values, finished_tubes, wanted_readings
from bendgen.bending.foretold import foretold_of_program
from bendgen.bending.planning import plan_part
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part, WantedBend, WantedSteps
from tests.independent_bender import SpringLaw
from tests.pages import large_bender, planned, winding_part
from tests.random_jobs import (
    Setting,
    WantedTube,
    laws,
    part_of,
    profile_of,
    program_of,
    settings_of_machines,
    step_part_of,
    vertices_of,
    wanted_tubes,
)


@given(wanted_tubes(), laws(), settings_of_machines())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_a_drawn_part_reads_as_its_checks_say(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    program = program_of(part_of(wanted, springs, vertices_of(wanted, springs)), profile_of(setting, springs))
    foretold = foretold_of_program(program)
    read = check_values(foretold, finished_tubes(foretold))
    np.testing.assert_allclose(read, [[check.predicted for check in program.checks]], atol=1e-6)


@given(wanted_tubes(largest=190.0), laws(), settings_of_machines())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_a_part_given_as_steps_reads_as_its_checks_say(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    program = program_of(step_part_of(wanted, springs), profile_of(setting, springs))
    foretold = foretold_of_program(program)
    read = check_values(foretold, finished_tubes(foretold))
    np.testing.assert_allclose(read, [[check.predicted for check in program.checks]], atol=1e-6)


@given(wanted_tubes(most=3), laws())
@settings(max_examples=20, deadline=None, derandomize=True)
def test_many_tubes_read_as_each_alone(wanted: WantedTube, springs: tuple[SpringLaw, ...]) -> None:
    program = program_of(part_of(wanted, springs, vertices_of(wanted, springs)), profile_of(Setting(), springs))
    foretold = foretold_of_program(program)
    own = finished_tubes(foretold)
    stretched = Tubes(**{**{f.name: getattr(own, f.name) for f in fields(own)}, "angles": 1.01 * own.angles})
    both = Tubes(**{f.name: np.concatenate((getattr(own, f.name), getattr(stretched, f.name))) for f in fields(own)})
    apart = np.concatenate((check_values(foretold, own), check_values(foretold, stretched)))
    np.testing.assert_allclose(check_values(foretold, both), apart, atol=1e-9)


def test_a_part_without_bends_reads_as_its_checks_say(dryer_part: Part, metric_profile: MachineProfile) -> None:
    part = replace(dryer_part, centreline=None, steps=WantedSteps(bends=(), rear=700.0))
    program = plan_part(part, metric_profile).program
    assert program is not None
    foretold = foretold_of_program(program)
    read = check_values(foretold, finished_tubes(foretold))
    np.testing.assert_allclose(read, [[check.predicted for check in program.checks]], atol=1e-6)


@given(wanted_tubes(), laws())
@settings(max_examples=40, deadline=None, derandomize=True)
def test_a_perfect_piece_of_a_part_given_as_steps_reads_what_is_wanted(
    wanted: WantedTube, springs: tuple[SpringLaw, ...]
) -> None:
    """Straights, rotations, angles, and the legs by which the end straights are measured."""
    foretold = foretold_of_program(program_of(step_part_of(wanted, springs), profile_of(Setting(), springs)))
    kinds = ("straight", "rotation", "angle", "apex-leg", "outer-apex-leg", "crown-leg")
    pairs = zip(foretold.checks, wanted_readings(foretold), strict=True)
    told = np.array([(check.predicted, value) for check, value in pairs if check.id.startswith(kinds)])
    assert len(told) >= len(wanted.angles)
    np.testing.assert_allclose(told[:, 0], told[:, 1], atol=1e-4)


def test_the_leg_of_a_held_straight_is_wanted_on_the_radius_that_forms() -> None:
    # By hand: CLR 100, 90 deg finished and 2.93 deg of springback: R = 100 (92.93 / 90) = 103.256; 220 + R tan 45 deg.
    bend = WantedBend(straight=220.0, rotation_deg=0.0, angle_deg=90.0)
    part = replace(winding_part(1), steps=WantedSteps(bends=(bend,), rear=420.0))
    foretold = foretold_of_program(planned(part, large_bender()))
    wanted = dict(zip((check.id for check in foretold.checks), wanted_readings(foretold), strict=True))
    assert wanted["apex-leg-front"] == pytest.approx(323.256, abs=0.01)
    assert wanted["apex-leg-rear"] == pytest.approx(523.256, abs=0.01)
