"""The program of the dryer pipe, worked out by hand in the fixtures, against the planner's.

The hand-worked values follow from 92.7° wound on CLR 100, a setback radius of 103, and 4 mm of elongation a bend.
"""

from dataclasses import astuple

import pytest

from bendgen.bending.planning import plan_part
from bendgen.records.bend_program import BendProgram


@pytest.fixture
def planned_program(example_program: BendProgram) -> BendProgram:
    program = plan_part(example_program.part, example_program.profile).program
    assert program is not None
    return program


def test_steps(planned_program: BendProgram, example_program: BendProgram) -> None:
    assert len(planned_program.steps) == len(example_program.steps)
    for planned, by_hand in zip(planned_program.steps, example_program.steps, strict=True):
        assert (planned.number, planned.die, planned.basis) == (by_hand.number, by_hand.die, by_hand.basis)
        for value in (
            "feed",
            "rotation_deg",
            "bend_deg",
            "carriage_before",
            "carriage_after",
            "passed",
            "straight_ahead",
            "finished_angle_deg",
            "formed_clr",
            "springback_deg",
            "elongation",
            "slope",
        ):
            assert getattr(planned, value) == pytest.approx(getattr(by_hand, value), abs=1e-9), value


def test_machine_steps(planned_program: BendProgram, example_program: BendProgram) -> None:
    for planned, by_hand in zip(planned_program.machine_steps, example_program.machine_steps, strict=True):
        assert astuple(planned)[2:] == pytest.approx(astuple(by_hand)[2:], abs=1e-9)


def test_blank_and_saw_cut(planned_program: BendProgram, example_program: BendProgram) -> None:
    assert planned_program.blank.length == pytest.approx(example_program.blank.length, abs=1e-9)
    assert planned_program.blank.front_trim == 0.0
    assert planned_program.blank.rear_trim == pytest.approx(143.0, abs=1e-9)
    readings = {(mark.end, mark.when, mark.measured_from): mark.distance for mark in planned_program.blank.cut_marks}
    for mark in example_program.blank.cut_marks:
        assert readings[mark.end, mark.when, mark.measured_from] == pytest.approx(mark.distance, abs=1e-9)


def test_shape(planned_program: BendProgram, example_program: BendProgram) -> None:
    for planned, by_hand in zip(planned_program.predicted.points, example_program.predicted.points, strict=True):
        assert planned == pytest.approx(by_hand, abs=1e-6)
    assert planned_program.finished.straights == pytest.approx(example_program.finished.straights, abs=1e-9)
