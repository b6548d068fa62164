"""A scrap piece that shows on the real bender whether a profile's rotation sign is right."""

import math
from dataclasses import replace

from bendgen.bending.shapes import in_own_frame, solid_of_tube
from bendgen.records.bent_tube import BentTube
from bendgen.records.part import Part, WantedBend, WantedSteps
from bendgen.records.proof import ProofShape
from bendgen.records.tooling import DieSet
from bendgen.records.tube import Tube
from bendgen.units import Units

ANGLES_DEG = (60.0, 40.0)  # unlike, so that a piece bent from the wrong end is seen to be one
QUARTER_TURN_DEG = 90.0
ROOM = 20.0  # more straight than the clamp needs, so that rounding breaks no limit [mm]
ROUND_TO = 10.0  # [mm]


def proof_part(die: DieSet, tube: Tube, units: Units) -> Part:
    """Two unlike bends a quarter turn apart with unequal straights, as short as the clamp of the die allows."""
    ahead = max(die.clamp, die.mandrel_ahead or 0.0) + ROOM
    first, between, rear = (ROUND_TO * math.ceil(factor * ahead / ROUND_TO) for factor in (1.0, 1.3, 1.6))
    angles = [min(angle, 0.6 * die.largest_bend_deg) for angle in ANGLES_DEG]
    bends = (
        WantedBend(straight=first, rotation_deg=0.0, angle_deg=angles[0]),
        WantedBend(straight=between, rotation_deg=QUARTER_TURN_DEG, angle_deg=angles[1]),
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


def proof_shape(finished: BentTube) -> ProofShape:
    """How high the rear end stands over the plane of the first bend: as it should be, mirrored, and unrotated.

    The first straight lies along +x and the first bend goes towards +y, so that height is z.
    """
    first, second = finished.bends
    heights = [
        in_own_frame(solid_of_tube(replace(finished, bends=(first, replace(second, rotation_deg=rotation))))).points[-1]
        for rotation in (second.rotation_deg, -second.rotation_deg, 0.0)
    ]
    right, mirrored, unrotated = (float(point[2]) for point in heights)
    return ProofShape(right=right, mirrored=mirrored, unrotated=unrotated, first_angle_deg=first.angle_deg)
