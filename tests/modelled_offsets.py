"""Offsets bent in the modelled shop: trial bends first, then parts, each measured as QA would."""

import math
from dataclasses import dataclass, replace

import numpy as np

from bendgen.bending.learning import learn_trials
from bendgen.bending.planning import plan_part
from bendgen.bending.uncertainty import with_uncertainty
from bendgen.files.trials_csv import parse_trials
from bendgen.records.bend_program import BendProgram, Check
from bendgen.records.machine import BendAxis, FeedAxis, MachineProfile, RotationAxis
from bendgen.records.measured import Reading
from bendgen.records.offset import OffsetWish
from bendgen.records.part import Part
from bendgen.records.tooling import DieSet
from bendgen.records.trials import TrialSource
from bendgen.records.tube import Tube
from tests.modelled_shop import Shop, trials_csv

TRIALS_DEG = (12.0, 22.0, 34.0, 48.0, 66.0, 90.0)
ANGLE_SD_DEG, LENGTH_SD = 0.05, 0.1
READ_SD_DEG, READ_SD = 0.05, 0.1  # of protractor and tape
SLACK = 4.0  # of the length: a lot that springs back more takes a longer run
END = 40.0  # straight at either end: the longer it is, the more an angle moves the end of it
DIE = DieSet(id="d50-r100", tube_od=50.0, clr=100.0, clamp=60.0, largest_bend_deg=180.0)
TUBE = Tube(od=50.0, wall=1.5, material="304L")


@dataclass(frozen=True, kw_only=True)
class MeasuredOffset:
    """Offset wanted, foretold with its uncertainty (k = 2), and as the part has it [mm]."""

    wanted: float
    foretold: float
    expanded: float
    made: float

    @property
    def share_foretold(self) -> float:
        """How likely the tool's own uncertainty makes an offset within 0.5 mm of the wanted one."""
        off, u = self.foretold - self.wanted, self.expanded / 2.0
        return 0.5 * (math.erf((0.5 - off) / (u * math.sqrt(2))) + math.erf((0.5 + off) / (u * math.sqrt(2))))


def bender(base: MachineProfile) -> MachineProfile:
    """The shop's bender as its profile has it, without a table."""
    return replace(
        base,
        bend=BendAxis(side="left", largest_deg=195.0, resolution_deg=0.01, repeatability_deg=ANGLE_SD_DEG),
        rotation=RotationAxis(resolution_deg=0.1, repeatability_deg=ANGLE_SD_DEG),
        feed=FeedAxis(resolution=0.05, repeatability=LENGTH_SD),
        dies=(DIE,),
        tables=(),
    )


def learned(shop: Shop, base: MachineProfile, rng: np.random.Generator) -> MachineProfile:
    """Profile with the table that six trial bends teach."""
    text = trials_csv([shop.readings(angle, rng) for angle in TRIALS_DEG])
    profile = bender(base)
    source = TrialSource(file="t.csv", issued=base.tables[0].issued)
    (lesson,) = learn_trials(parse_trials(text, "t.csv", profile), profile, source)
    assert lesson.table is not None, lesson.refusal
    return replace(profile, tables=(lesson.table,))


def offset_program(part: Part, rise: float, profile: MachineProfile, *, end: float = END) -> BendProgram:
    """Default choice for a rise, in about the shortest length that leaves so much at either end."""
    generous = _planned(part, OffsetWish(rise=rise, length=900.0, shortest_end=end), profile)
    assert generous.offset is not None
    length = math.ceil(generous.offset.answer.run + 2.0 * end) + SLACK
    return with_uncertainty(_planned(part, OffsetWish(rise=rise, length=length, shortest_end=end), profile))


def _planned(part: Part, wish: OffsetWish, profile: MachineProfile) -> BendProgram:
    program = plan_part(replace(part, centreline=None, offset=wish, tube=TUBE), profile).program
    assert program is not None
    return program


def bent(program: BendProgram, shop: Shop, rng: np.random.Generator) -> np.ndarray:
    """Ends and apexes of a two-bend part as the shop makes it, cut to length at the rear."""
    released = [shop.released(step.bend_deg, rng.normal(0.0, ANGLE_SD_DEG)) for step in program.steps]
    feeds = [step.feed + rng.normal(0.0, LENGTH_SD) for step in program.steps]
    turn = math.radians(program.steps[1].rotation_deg + rng.normal(0.0, ANGLE_SD_DEG))
    first, second = (math.radians(bend.angle_deg) for bend in released)
    legs = (
        feeds[0] - program.blank.front_trim + released[0].front_tangent,
        released[0].rear_tangent + feeds[1] + released[1].front_tangent,
        released[1].rear_tangent + program.finished.straights[-1],
    )
    along = np.array((math.cos(first), math.sin(first), 0.0))
    side = np.array((-math.sin(first), math.cos(first), 0.0))
    up = np.array((0.0, 0.0, 1.0))
    inward = math.cos(turn) * side + math.sin(turn) * up
    onwards = math.cos(second) * along + math.sin(second) * inward
    corner = np.array((legs[0], 0.0, 0.0))
    return np.array((np.zeros(3), corner, corner + legs[1] * along, corner + legs[1] * along + legs[2] * onwards))


def measured_offset(program: BendProgram, points: np.ndarray) -> MeasuredOffset:
    """The rear end's distance from the axis of the front leg."""
    check = check_of(program, "offset")
    assert check.uncertainty is not None
    assert program.offset is not None
    return MeasuredOffset(
        wanted=program.offset.rise,
        foretold=check.predicted,
        expanded=check.uncertainty.expanded,
        made=float(math.hypot(points[3][1], points[3][2])),
    )


def readings(program: BendProgram, points: np.ndarray, rng: np.random.Generator) -> tuple[Reading, ...]:
    """What QA reads of a part: both angles, the end legs, the offset."""
    ways = np.diff(points, axis=0)
    lengths = np.linalg.norm(ways, axis=1)
    angles = [
        math.degrees(math.acos(float(one @ other) / (a * b)))
        for one, other, a, b in zip(ways, ways[1:], lengths, lengths[1:], strict=False)
    ]
    read = {
        "angle-1": angles[0] + rng.normal(0.0, READ_SD_DEG),
        "angle-2": angles[1] + rng.normal(0.0, READ_SD_DEG),
        "apex-leg-front": lengths[0] + rng.normal(0.0, READ_SD),
        "apex-leg-rear": lengths[2] + rng.normal(0.0, READ_SD),
        "offset": measured_offset(program, points).made + rng.normal(0.0, READ_SD),
    }
    return tuple(Reading(line=i, check=check, value=float(value)) for i, (check, value) in enumerate(read.items(), 2))


def check_of(program: BendProgram, check_id: str) -> Check:
    """Check of that id."""
    return next(check for check in program.checks if check.id == check_id)
