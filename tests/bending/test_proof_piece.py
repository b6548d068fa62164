"""The proof piece, bent on a bender that shares nothing with the planner: right, and with the fault it is to show."""

import math
from pathlib import Path

import pytest

from bendgen.bending.planning import plan_part
from bendgen.bending.proof_piece import proof_part, proof_shape
from bendgen.files.profile_folder import read_profile
from bendgen.records.bend_program import BendProgram
from bendgen.records.tube import Tube
from tests.independent_bender import IndependentBender, Keyed, SpringLaw, seen_from_front

PROFILES = Path(__file__).parents[2] / "machine_profiles"
DIES = [("bay2", "d50-r100"), ("bay2", "d38-r57"), ("bay5_inch", "2in-r4")]


def program_on(folder: str, die_id: str) -> BendProgram:
    profile = read_profile(PROFILES / folder)
    die = profile.die(die_id)
    table = next(table for table in profile.tables if table.die == die_id and not table.perforated)
    tube = Tube(od=die.tube_od, wall=table.wall, material=table.material, temper=table.temper, lot=table.lot)
    plan = plan_part(proof_part(die, tube, profile.units), profile)
    assert plan.program is not None
    return plan.program


def rear_height(program: BendProgram, second_rotation: float) -> float:
    """Height of the rear end over the plane of the first bend, on the independent bender, springback left out."""
    finished = program.finished
    springs = {f"bend {i}": SpringLaw(die_clr=bend.clr) for i, bend in enumerate(finished.bends)}
    bender = IndependentBender(
        laws=springs, side="left", feed="incremental", rotation="incremental", clockwise=True, grip=0.0, mm=1.0
    )
    rotations = (0.0, second_rotation)
    table = [
        Keyed(die=f"bend {i}", feed=finished.straights[i], rotation=rotations[i], bend=bend.angle_deg)
        for i, bend in enumerate(finished.bends)
    ]
    arcs = sum(math.radians(bend.angle_deg) * bend.clr for bend in finished.bends)
    made = bender.make(table, sum(finished.straights) + arcs)
    return float(seen_from_front(made.vertices())[-1][2])


@pytest.mark.parametrize(("folder", "die_id"), DIES)
def test_right_and_wrong_heights_are_those_of_the_independent_bender(folder: str, die_id: str) -> None:
    program = program_on(folder, die_id)
    shape = proof_shape(program.finished)
    assert shape.right == pytest.approx(rear_height(program, program.finished.bends[1].rotation_deg), abs=1e-6)
    assert shape.mirrored == pytest.approx(rear_height(program, -program.finished.bends[1].rotation_deg), abs=1e-6)
    assert shape.unrotated == pytest.approx(rear_height(program, 0.0), abs=1e-6)


@pytest.mark.parametrize(("folder", "die_id"), DIES)
def test_nobody_can_take_one_for_the_other(folder: str, die_id: str) -> None:
    program = program_on(folder, die_id)
    shape, finished = proof_shape(program.finished), program.finished
    assert shape.right > 50.0
    assert shape.mirrored < -50.0
    assert abs(shape.unrotated) < 1e-9
    assert finished.bends[0].angle_deg > finished.bends[1].angle_deg + 15.0
    assert len({round(straight) for straight in finished.straights}) == 3
