"""The proof piece, bent on a bender that shares nothing with the planner: right, and with the fault it is to show."""

import math
from itertools import combinations, pairwise
from pathlib import Path

import pytest

from bendgen.bending.planning import plan_part
from bendgen.bending.proof_piece import proof_part, proof_piece
from bendgen.files.profile_folder import read_profile
from bendgen.records.bend_program import BendProgram
from bendgen.records.proof import ProofLook
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


def on_independent_bender(program: BendProgram, rotations: list[float], form: str) -> ProofLook:
    """The piece on a machine that counts rotations in its own form, springback left out."""
    finished = program.finished
    laws = {f"bend {i}": SpringLaw(die_clr=bend.clr) for i, bend in enumerate(finished.bends)}
    bender = IndependentBender(
        laws=laws, side="left", feed="incremental", rotation=form, clockwise=True, grip=0.0, mm=1.0
    )
    table = [
        Keyed(die=f"bend {i}", feed=finished.straights[i], rotation=rotations[i], bend=bend.angle_deg)
        for i, bend in enumerate(finished.bends)
    ]
    arcs = sum(math.radians(bend.angle_deg) * bend.clr for bend in finished.bends)
    ends = seen_from_front(bender.make(table, sum(finished.straights) + arcs).vertices())[[0, -1]]
    return ProofLook(height=float(ends[1][2]), apart=math.dist(ends[0], ends[1]))


def agree(ours: ProofLook, theirs: ProofLook) -> bool:
    return (ours.height, ours.apart) == pytest.approx((theirs.height, theirs.apart), abs=1e-6)


@pytest.mark.parametrize(("folder", "die_id"), DIES)
def test_right_and_wrong_are_those_of_the_independent_bender(folder: str, die_id: str) -> None:
    program = program_on(folder, die_id)
    piece, output = proof_piece(program), program.profile.output
    sign = 1.0 if output.rotation_positive == "clockwise_from_carriage" else -1.0
    given = [sign * step.rotation for step in program.machine_steps]
    other = {"absolute": "incremental", "incremental": "absolute"}[output.rotation]
    assert agree(piece.right, on_independent_bender(program, given, output.rotation))
    assert agree(piece.mirrored, on_independent_bender(program, [-turn for turn in given], output.rotation))
    assert agree(piece.other_form, on_independent_bender(program, given, other))
    assert agree(piece.unturned, on_independent_bender(program, [0.0] * 3, "incremental"))


@pytest.mark.parametrize(("folder", "die_id"), DIES)
def test_nobody_can_take_one_for_the_other(folder: str, die_id: str) -> None:
    piece = proof_piece(program_on(folder, die_id))
    heights = [look.height for look in (piece.right, piece.mirrored, piece.other_form, piece.unturned)]
    assert min(abs(one - other) for one, other in combinations(heights, 2)) > 50.0
    assert min(before - after for before, after in pairwise(piece.angles_deg)) > 10.0
    assert min(after - before for before, after in pairwise(piece.straights)) > 20.0
