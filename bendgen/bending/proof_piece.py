"""A scrap piece that shows on the real bender whether a profile says rightly how its machine turns and feeds."""

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from bendgen.bending.commands import clockwise_sign
from bendgen.bending.shapes import in_own_frame, solid_of_tube
from bendgen.records.bend_program import BendProgram
from bendgen.records.bent_tube import BentTube
from bendgen.records.part import Part, WantedBend, WantedSteps
from bendgen.records.proof import ProofLook, ProofPiece
from bendgen.records.tooling import DieSet
from bendgen.records.tube import Tube
from bendgen.units import Units

ANGLES_DEG = (60.0, 40.0, 25.0)  # unlike, so that a piece bent from the wrong end is seen to be one
# Turning twice tells a machine that counts from the loaded tube from one that counts from the bend before.
ROTATIONS_DEG = (0.0, 90.0, 90.0)
STRAIGHTS = (1.0, 1.3, 1.6, 1.9)  # of what the first bend needs ahead: unlike, so that a wrong feed is seen
LARGEST_SHARE = 0.6  # of the die's largest bend: springback must not take the command past it
ROOM = 20.0  # more straight than clamp and mandrel need, so that rounding breaks no limit [mm]
ROUND_TO = 10.0  # [mm]


def proof_part(die: DieSet, tube: Tube, units: Units) -> Part:
    """Unlike bends a quarter turn apart with unequal straights, as short as the clamp of the die allows."""
    ahead = max(die.clamp, die.mandrel_ahead or 0.0) + ROOM
    *before, rear = (ROUND_TO * math.ceil(share * ahead / ROUND_TO) for share in STRAIGHTS)
    bends = tuple(
        WantedBend(straight=straight, rotation_deg=rotation, angle_deg=min(angle, LARGEST_SHARE * die.largest_bend_deg))
        for straight, rotation, angle in zip(before, ROTATIONS_DEG, ANGLES_DEG, strict=True)
    )
    return Part(
        name="Proof piece: scrap",
        number=f"PROOF-{die.id}",
        revision="A",
        quantity=1,
        units=units,
        tube=tube,
        die=die.id,
        steps=WantedSteps(bends=bends, rear=rear),
    )


def proof_piece(program: BendProgram) -> ProofPiece:
    """What the machine makes of the steps of a proof program when the profile is right, and with each fault."""
    finished = program.finished
    turns = [bend.rotation_deg for bend in finished.bends]
    return ProofPiece(
        right=_look(finished, turns),
        mirrored=_look(finished, [-turn for turn in turns]),
        unturned=_look(finished, [0.0 for _ in turns]),
        other_form=_look(finished, _turns_in_other_form(program)),
        straights=finished.straights,
        angles_deg=tuple(bend.angle_deg for bend in finished.bends),
    )


def _turns_in_other_form(program: BendProgram) -> list[float]:
    """Turns of a machine that takes the rotations it is given in the form that the profile does not name [deg]."""
    output = program.profile.output
    given = [clockwise_sign(output) * step.rotation for step in program.machine_steps]
    if output.rotation == "absolute":
        return given
    return [after - before for before, after in pairwise([0.0, *given])]


def _look(finished: BentTube, turns: Sequence[float]) -> ProofLook:
    """The piece bent with other turns, laid down as `ProofLook` says: in its own frame the first bend is flat."""
    bends = tuple(replace(bend, rotation_deg=turn) for bend, turn in zip(finished.bends, turns, strict=True))
    points = in_own_frame(solid_of_tube(replace(finished, bends=bends))).points
    return ProofLook(height=float(points[-1, 2]), apart=math.dist(points[0], points[-1]))
