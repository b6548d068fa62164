"""What may not change a step: where the part lies, which way the die draws, which hand or end comes first."""

from dataclasses import replace
from itertools import product

import numpy as np
from hypothesis import given, settings

from bendgen.bending.hands import as_bent, mirror_part, part_as_filed, reverse_part
from bendgen.records.bend_program import BendProgram
from bendgen.records.part import Vertex
from bendgen.units import shorter_way
from tests.independent_bender import Array, SpringLaw
from tests.random_jobs import (
    Setting,
    WantedTube,
    laws,
    part_of,
    placements,
    profile_of,
    program_of,
    settings_of_machines,
    step_part_of,
    vertices_of,
    wanted_tubes,
)

SAME = 1e-6  # mm, degrees


def neutral(program: BendProgram) -> Array:
    """Feed, rotation, bend, one row a step."""
    return np.array([(s.feed, s.rotation_deg, s.bend_deg) for s in program.steps])


def bends_of(program: BendProgram) -> Array:
    """Finished angle and formed CLR, one row a bend."""
    return np.array([(bend.angle_deg, bend.clr) for bend in program.finished.bends])


def turned_difference(ours: Array, theirs: Array) -> Array:
    """Difference of rotations, whole turns apart being the same."""
    return np.abs(shorter_way(ours - theirs))


def check_same_steps(ours: BendProgram, theirs: BendProgram) -> None:
    a, b = neutral(ours), neutral(theirs)
    np.testing.assert_allclose(a[:, [0, 2]], b[:, [0, 2]], atol=SAME)
    assert turned_difference(a[:, 1], b[:, 1]).max() < SAME


@given(wanted_tubes(), laws(), settings_of_machines(), placements())
@settings(max_examples=100, deadline=None, derandomize=True)
def test_moving_and_turning_the_part_changes_no_step(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting, placement: tuple[Array, Array]
) -> None:
    vertices = vertices_of(wanted, springs)
    turn, shift = placement
    profile = profile_of(setting, springs)
    here = program_of(part_of(wanted, springs, vertices), profile)
    there = program_of(part_of(wanted, springs, vertices @ turn.T + shift), profile)
    check_same_steps(here, there)


@given(placements())
@settings(max_examples=100, deadline=None, derandomize=True)
def test_a_value_halfway_between_two_steps_of_the_machine_is_rounded_the_same_wherever_the_part_lies(
    placement: tuple[Array, Array],
) -> None:
    # 90° and 2.35° of springback at a resolution of 0.1°: 92.35 lies halfway, and noise must not decide.
    springs = (SpringLaw(die_clr=60.0, lost=2.35), SpringLaw(die_clr=90.0))
    wanted = WantedTube(straights=(50.0, 60.0, 70.0), angles=(90.0, 90.0), rotations=(0.0, 45.25), dies=(0, 0))
    setting = Setting(resolution=0.1, resolution_deg=0.1)
    vertices = vertices_of(wanted, springs)
    turn, shift = placement
    profile = profile_of(setting, springs)
    here = program_of(part_of(wanted, springs, vertices), profile)
    there = program_of(part_of(wanted, springs, vertices @ turn.T + shift), profile)
    np.testing.assert_array_equal(neutral(here), neutral(there))


@given(wanted_tubes(largest=179.0), laws(), settings_of_machines())
@settings(max_examples=100, deadline=None, derandomize=True)
def test_a_mirrored_part_has_opposite_rotations_and_all_else_the_same(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    profile = profile_of(setting, springs)
    for part in (part_of(wanted, springs), step_part_of(wanted, springs)):
        ours, theirs = neutral(program_of(part, profile)), neutral(program_of(mirror_part(part), profile))
        np.testing.assert_allclose(ours[:, [0, 2]], theirs[:, [0, 2]], atol=SAME)
        assert turned_difference(ours[:, 1], -theirs[:, 1]).max() < SAME
        half_turns = np.abs(ours[:, 1] - 180.0) < 1e-9
        assert np.all(theirs[half_turns, 1] > 179.0)


@given(wanted_tubes(largest=179.0), laws(), settings_of_machines())
@settings(max_examples=100, deadline=None, derandomize=True)
def test_a_reversed_part_has_the_same_rotations_and_all_else_in_reverse(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    profile = profile_of(setting, springs)
    for part in (part_of(wanted, springs), step_part_of(wanted, springs)):
        ours, theirs = program_of(part, profile), program_of(reverse_part(part), profile)
        np.testing.assert_allclose(ours.finished.straights, theirs.finished.straights[::-1], atol=SAME)
        np.testing.assert_allclose(bends_of(ours), bends_of(theirs)[::-1], atol=SAME)
        np.testing.assert_allclose(neutral(ours)[:, 2], neutral(theirs)[::-1, 2], atol=SAME)
        assert turned_difference(neutral(ours)[1:, 1], neutral(theirs)[:0:-1, 1]).max(initial=0.0) < SAME


@given(wanted_tubes(largest=179.0), laws(), settings_of_machines())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_a_die_on_the_other_side_takes_the_same_steps_to_the_same_part(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    part = part_of(wanted, springs)
    left = program_of(part, profile_of(replace(setting, side="left"), springs))
    right = program_of(part, profile_of(replace(setting, side="right"), springs))
    assert left.machine_steps == right.machine_steps
    np.testing.assert_allclose(left.predicted.points, right.predicted.points, atol=SAME)


@given(wanted_tubes(largest=179.0), laws())
@settings(max_examples=100, deadline=None, derandomize=True)
def test_hand_and_end_are_undone_by_doing_them_again(wanted: WantedTube, springs: tuple[SpringLaw, ...]) -> None:
    for part in (part_of(wanted, springs), step_part_of(wanted, springs)):
        trimmed = replace(part, trim="front", front_trim=3.0, tube=replace(part.tube, seam_deg=30.0))
        assert mirror_part(mirror_part(trimmed)) == trimmed
        assert reverse_part(reverse_part(trimmed)) == trimmed
        for mirrored, from_rear in product((False, True), repeat=2):
            bent = as_bent(trimmed, mirrored=mirrored, from_rear=from_rear)
            assert (bent.mirrored, bent.from_rear) == (mirrored, from_rear)
            assert part_as_filed(bent) == trimmed


@given(wanted_tubes(), laws(), settings_of_machines())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_a_vertex_on_a_straight_is_a_mark_and_no_bend(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    part = part_of(wanted, springs)
    assert part.centreline is not None
    corners = list(part.centreline.vertices)
    a, b = corners[0], corners[1]
    halfway = Vertex(x=(a.x + b.x) / 2.0, y=(a.y + b.y) / 2.0, z=(a.z + b.z) / 2.0)
    marked = replace(part, centreline=replace(part.centreline, vertices=(a, halfway, *corners[1:])))
    profile = profile_of(setting, springs)
    plain, with_mark = program_of(part, profile), program_of(marked, profile)
    check_same_steps(plain, with_mark)
    (mark,) = with_mark.marks
    whole = np.linalg.norm(np.array([b.x - a.x, b.y - a.y, b.z - a.z]))
    assert mark.straight == 1
    assert abs(mark.from_front - whole / 2.0) < SAME


@given(wanted_tubes(largest=179.0), laws(), settings_of_machines())
@settings(max_examples=100, deadline=None, derandomize=True)
def test_neutral_rotations_lie_in_one_turn_and_nothing_is_minus_zero(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    coarse = replace(setting, resolution=1.0, resolution_deg=0.5)
    program = program_of(part_of(wanted, springs), profile_of(coarse, springs))
    rotations = neutral(program)[:, 1]
    assert np.all((rotations > -180.0) & (rotations <= 180.0))
    machine = np.array([(s.feed, s.rotation, s.bend) for s in program.machine_steps])
    for numbers in (neutral(program), machine):
        assert not np.any(np.signbit(numbers) & (numbers == 0.0))


@given(wanted_tubes(largest=179.0), laws(), settings_of_machines())
@settings(max_examples=100, deadline=None, derandomize=True)
def test_neutral_values_are_the_machines_own_converted(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    coarse = replace(setting, units="mm", resolution=1.0, resolution_deg=0.5)
    program = program_of(part_of(wanted, springs), profile_of(coarse, springs))
    machine = np.array([(s.feed, s.rotation, s.bend) for s in program.machine_steps])
    np.testing.assert_allclose(machine, np.round(machine / (1.0, 0.5, 0.5)) * (1.0, 0.5, 0.5), atol=1e-9)
    ours = neutral(program)
    turns = machine[:, 1] if setting.clockwise else -machine[:, 1]
    if setting.rotation == "absolute":
        turns = np.diff(turns, prepend=0.0)
    assert turned_difference(ours[:, 1], turns).max() < 1e-9
    np.testing.assert_array_equal(ours[:, 2], machine[:, 2])
    passed = np.array([step.passed for step in program.steps])
    expected = {
        "incremental": ours[:, 0],
        "summed": np.cumsum(ours[:, 0]),
        "passed": passed,
        "carriage": program.blank.length - profile_of(coarse, springs).carriage.grip - passed,
    }
    np.testing.assert_allclose(machine[:, 0], expected[setting.feed], atol=1e-9)
