"""Misses of feed, turn and release reach the tube as they do on a bender that shares no formula with the package."""

import math
from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.bending.foretold import foretold_of_program
from bendgen.bending.misses import Misses, missed_tubes
from bendgen.geometry.bent_axes import bent_axes
from bendgen.records.bend_program import BendProgram
from tests.independent_bender import Array, Keyed, Made, SpringLaw, cut, seen_from_front
from tests.random_jobs import (
    Setting,
    WantedTube,
    bender_of,
    laws,
    profile_of,
    program_of,
    settings_of_machines,
    step_part_of,
    wanted_tubes,
)

MISSES = st.tuples(st.floats(-1.0, 1.0), st.floats(-1.0, 1.0), st.floats(-0.8, 0.8), st.floats(-0.5, 0.5))
MADE_WITHIN = 1e-6  # mm


def other_law(law: SpringLaw, springback: float, gained: float) -> SpringLaw:
    return replace(law, lost=law.lost + springback, gained=law.gained + gained)


def keyed_with_misses(program: BendProgram, setting: Setting, feeds: Array, turns: Array) -> list[Keyed]:
    """What a machine with those misses might as well have been told; forward on the carriage is towards less."""
    forward = -1.0 if setting.feed == "carriage" else 1.0
    mm = 25.4 if setting.units == "in" else 1.0
    clockwise = 1.0 if setting.clockwise else -1.0
    return [
        Keyed(
            die=step.die,
            feed=step.feed + forward * feed / mm,
            rotation=step.rotation + clockwise * turn,
            bend=step.bend,
        )
        for step, feed, turn in zip(program.machine_steps, feeds, turns, strict=True)
    ]


def sawn(made: Made, program: BendProgram) -> Made:
    rear = program.finished.straights[-1] if program.blank.rear_trim > 0.0 else None
    return cut(made, front=program.blank.front_trim, rear_after_last_bend=rear)


def misses_of_laws(program: BendProgram, was: tuple[SpringLaw, ...], now: tuple[SpringLaw, ...]) -> Array:
    """Angle [deg], developed length and blank used [mm] that each bend gives beyond its prediction, (n, 3)."""
    of_die = {f"r{law.die_clr:g}": (law, other) for law, other in zip(was, now, strict=True)}
    pairs = [[law.released(step.bend_deg) for law in of_die[step.die]] for step in program.steps]
    return np.array([np.subtract(after, before) for before, after in pairs])


@given(wanted_tubes(), laws(), settings_of_machines(), MISSES, st.integers(0, 2**32 - 1))
@settings(max_examples=100, deadline=None, derandomize=True)
def test_a_missed_tube_is_the_one_that_the_missing_bender_makes(
    wanted: WantedTube,
    springs: tuple[SpringLaw, ...],
    setting: Setting,
    miss: tuple[float, float, float, float],
    seed: int,
) -> None:
    program = program_of(step_part_of(wanted, springs), profile_of(setting, springs))
    rng = np.random.default_rng(seed)
    feeds, turns = rng.normal(0.0, abs(miss[0]), len(program.steps)), rng.normal(0.0, abs(miss[1]), len(program.steps))
    shifted = tuple(other_law(law, miss[2], miss[3]) for law in springs)
    table = keyed_with_misses(program, setting, feeds, turns)
    made = sawn(bender_of(setting, shifted).make(table, program.blank.length), program)
    angles, arcs, used = misses_of_laws(program, springs, shifted).T
    misses = Misses(
        angles=np.radians(angles)[None],
        rotations=np.radians(turns)[None],
        feeds=feeds[None],
        arcs=arcs[None],
        used=used[None],
    )
    tubes = missed_tubes(foretold_of_program(program), misses)
    points, _ = bent_axes(tubes.straights, tubes.rotations, tubes.angles, tubes.clr)
    ours, theirs = seen_from_front(points[0]), seen_from_front(np.array(made.points))
    assert float(np.linalg.norm(ours - theirs, axis=1).max()) < MADE_WITHIN
    np.testing.assert_allclose(np.degrees(tubes.angles[0]), made.finished_deg, atol=1e-9)
    assert math.isclose(tubes.straights[0].sum(), sum(made.straights()), abs_tol=MADE_WITHIN)
