"""Programs keyed into an independent bender, as the operator would, give the wanted part."""

import math
from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.records.bend_program import BendProgram
from tests.independent_bender import IndependentBender, Keyed, Made, SpringLaw, cut, seen_from_front
from tests.random_jobs import (
    Setting,
    WantedTube,
    bender_of,
    laws,
    part_of,
    profile_of,
    program_of,
    settings_of_machines,
    step_part_of,
    vertices_of,
    wanted_tubes,
)

MADE_WITHIN = 1e-6  # mm

COARSE = st.tuples(st.sampled_from((0.1, 0.5, 1.0)), st.sampled_from((0.05, 0.1, 0.5)))


def keyed(program: BendProgram) -> list[Keyed]:
    return [Keyed(die=s.die, feed=s.feed, rotation=s.rotation, bend=s.bend) for s in program.machine_steps]


def sawn(made: Made, program: BendProgram) -> Made:
    """Cut where the sheet's marks say."""
    front = sum(m.distance for m in program.blank.cut_marks if (m.end, m.when) == ("front", "before_bending"))
    rear = [m.distance for m in program.blank.cut_marks if m.measured_from == "last_bend_end"]
    return cut(made, front=front, rear_after_last_bend=rear[0] if rear else None)


def largest_distance(ours: np.ndarray, theirs: np.ndarray) -> float:
    return float(np.linalg.norm(seen_from_front(ours) - seen_from_front(theirs), axis=1).max())


@given(wanted_tubes(), laws(), settings_of_machines())
@settings(max_examples=200, deadline=None, derandomize=True)
def test_before_rounding_the_wanted_vertices_are_made(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    vertices = vertices_of(wanted, springs)
    program = program_of(part_of(wanted, springs, vertices), profile_of(setting, springs))
    made = sawn(bender_of(setting, springs).make(keyed(program), program.blank.length), program)
    assert largest_distance(made.vertices(), vertices) < MADE_WITHIN
    assert program.largest_deviation < MADE_WITHIN


@given(wanted_tubes(largest=179.0), laws(), settings_of_machines())
@settings(max_examples=100, deadline=None, derandomize=True)
def test_before_rounding_the_wanted_straights_and_angles_are_made(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    program = program_of(step_part_of(wanted, springs), profile_of(setting, springs))
    made = sawn(bender_of(setting, springs).make(keyed(program), program.blank.length), program)
    np.testing.assert_allclose(made.straights(), wanted.straights, atol=MADE_WITHIN)
    np.testing.assert_allclose(made.finished_deg, wanted.angles, atol=1e-9)
    np.testing.assert_allclose(
        _rotations(made)[1:], [math.remainder(r, 360.0) for r in wanted.rotations[1:]], atol=1e-6
    )


def _rotations(made: Made) -> list[float]:
    """Turn from bend plane to bend plane, in (-180, 180] but for noise; by projecting the legs onto a plane."""
    found = [0.0]
    for before, middle, after in zip(made.directions, made.directions[1:], made.directions[2:], strict=False):
        near, far = -before + (before @ middle) * middle, after - (after @ middle) * middle
        up = np.cross(middle, near)
        angle = math.degrees(math.atan2(float(far @ up), float(far @ near)))
        found.append(math.remainder(angle, 360.0))
    return [abs(r) if abs(abs(r) - 180.0) < 1e-6 else r for r in found]


@given(wanted_tubes(largest=179.0), laws(), settings_of_machines(), COARSE, st.booleans())
@settings(max_examples=200, deadline=None, derandomize=True)
def test_after_rounding_exactly_the_predicted_part_is_made(
    wanted: WantedTube,
    springs: tuple[SpringLaw, ...],
    setting: Setting,
    coarse: tuple[float, float],
    given_as_steps: bool,  # noqa: FBT001 - drawn by Hypothesis
) -> None:
    setting = replace(setting, resolution=coarse[0], resolution_deg=coarse[1])
    part = step_part_of(wanted, springs) if given_as_steps else part_of(wanted, springs)
    program = program_of(part, profile_of(setting, springs))
    whole = bender_of(setting, springs).make(keyed(program), program.blank.length)
    made = sawn(whole, program)
    assert largest_distance(np.array(made.points), np.array(program.predicted.points)) < MADE_WITHIN
    np.testing.assert_allclose([s.passed for s in program.steps], whole.passed, atol=MADE_WITHIN)
    np.testing.assert_allclose([s.carriage_before for s in program.steps], whole.carriage, atol=MADE_WITHIN)
    np.testing.assert_allclose([s.finished_angle_deg for s in program.steps], made.finished_deg, atol=1e-9)
    np.testing.assert_allclose(program.finished.straights, made.straights(), atol=MADE_WITHIN)


@given(wanted_tubes(largest=179.0), laws(), settings_of_machines(), COARSE)
@settings(max_examples=100, deadline=None, derandomize=True)
def test_the_neutral_steps_make_the_same_part_as_the_machines_own(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting, coarse: tuple[float, float]
) -> None:
    setting = replace(setting, resolution=coarse[0], resolution_deg=coarse[1])
    program = program_of(part_of(wanted, springs), profile_of(setting, springs))
    neutral = IndependentBender(
        side="left",
        feed="incremental",
        rotation="incremental",
        clockwise=True,
        grip=20.0,
        laws=bender_of(setting, springs).laws,
    )
    rows = [Keyed(die=s.die, feed=s.feed, rotation=s.rotation_deg, bend=s.bend_deg) for s in program.steps]
    theirs = bender_of(setting, springs).make(keyed(program), program.blank.length)
    ours = neutral.make(rows, program.blank.length)
    assert largest_distance(np.array(ours.points), np.array(theirs.points)) < MADE_WITHIN


@given(wanted_tubes(largest=179.0), laws(), settings_of_machines())
@settings(max_examples=100, deadline=None, derandomize=True)
def test_straights_and_arcs_are_the_blank_less_trims_with_elongation(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    program = program_of(part_of(wanted, springs), profile_of(replace(setting, resolution=0.5), springs))
    arcs = [s.formed_clr * math.radians(s.finished_angle_deg) for s in program.steps]
    developed = sum(program.finished.straights) + sum(arcs)
    blank = program.blank
    gained = sum(step.elongation for step in program.steps)
    if setting.feed in ("incremental", "summed"):
        # A machine that feeds the straights themselves leaves every rounding of the arcs to the rear trim.
        waste = blank.length - program.steps[-1].passed - (arcs[-1] - program.steps[-1].elongation)
        cut_off = blank.front_trim + waste - program.finished.straights[-1]
        assert math.isclose(developed, blank.length - cut_off + gained, abs_tol=1e-6)
    exact = program_of(part_of(wanted, springs), profile_of(setting, springs))
    arcs = [s.formed_clr * math.radians(s.finished_angle_deg) for s in exact.steps]
    developed = sum(exact.finished.straights) + sum(arcs)
    gained = sum(step.elongation for step in exact.steps)
    left = exact.blank.length - exact.blank.front_trim - exact.blank.rear_trim
    assert math.isclose(developed, left + gained, abs_tol=1e-6)
