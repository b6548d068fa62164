"""Fixtures for all tests: an invented workshop that makes ducts, diffusers and guards for grain dryers.

Two benders, one part, and its program worked out by hand: both bends are 90° on the CLR 100 die with 2.7° of
springback, so the wound arc of 92.7° opens to a setback radius of 100 · 92.7 / 90 = 103, as is each tangent length.
"""

import math
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import settings

from bendgen.records.allowances import AllowanceRow, AllowanceTable
from bendgen.records.bend_program import (
    Basis,
    BendProgram,
    BendStep,
    Blank,
    Check,
    CutMark,
    MachineStep,
    Swing,
)
from bendgen.records.bent_tube import Bend, BentTube, Shape
from bendgen.records.findings import Change, Cure, Finding
from bendgen.records.machine import (
    BendAxis,
    BlankLimits,
    Carriage,
    FeedAxis,
    MachineProfile,
    OutputForm,
    RotationAxis,
)
from bendgen.records.part import Centreline, Part, Vertex
from bendgen.records.tooling import DieSet
from bendgen.records.tube import Tube

# A busy machine may take a second for what takes a millisecond: how long an example takes proves nothing.
settings.register_profile("any machine", deadline=None)
settings.load_profile("any machine")

DIE = DieSet(
    id="d50-r100",
    tube_od=50.0,
    clr=100.0,
    clamp=110.0,
    largest_bend_deg=184.0,
    smallest_bend_deg=2.0,
    pressure_die=200.0,
    pressure_travel=330.0,
    mandrel_ahead=35.0,
    walls=(1.2, 2.0),
    stack="lower",
    sleeve=38.0,
    set_up="invented: wiper 50/100, ball mandrel 46.8 with two balls",
)

TABLE = AllowanceTable(
    file="tables/d50-r100_304l_1.5_2026-03-14.toml",
    die="d50-r100",
    material="304L",
    wall=1.5,
    perforated=False,
    source="invented trial bends",
    issued=date(2026, 3, 14),
    lot="7731",
    rows=(
        AllowanceRow(angle_deg=30.0, springback_deg=1.1, elongation=1.3),
        AllowanceRow(angle_deg=60.0, springback_deg=1.9, elongation=2.6),
        AllowanceRow(angle_deg=90.0, springback_deg=2.7, elongation=4.0),
        AllowanceRow(angle_deg=120.0, springback_deg=3.5, elongation=5.3),
    ),
)


@pytest.fixture
def metric_profile() -> MachineProfile:
    """Invented bender that draws left and takes the tube's own feeds in mm."""
    return MachineProfile(
        name="Bay 2 mandrel bender",
        units="mm",
        sha256="0" * 64,
        bend=BendAxis(side="left", largest_deg=195.0, resolution_deg=0.1, repeatability_deg=0.05, smallest_deg=0.5),
        rotation=RotationAxis(resolution_deg=0.1, repeatability_deg=0.05, range_deg=(-360.0, 360.0)),
        feed=FeedAxis(resolution=0.1, repeatability=0.1, smallest=0.0, largest=2000.0),
        carriage=Carriage(travel=3100.0, closest=240.0, grip=60.0, centre_height=1050.0),
        blank=BlankLimits(shortest=0.0, longest=6000.0),
        output=OutputForm(
            units="mm",
            feed="incremental",
            rotation="incremental",
            rotation_positive="clockwise_from_carriage",
            columns=("number", "feed", "rotation", "bend"),
            headings=("number", "feed", "rotation", "bend"),
        ),
        dies=(DIE,),
        tables=(TABLE,),
    )


@pytest.fixture
def inch_profile(metric_profile: MachineProfile) -> MachineProfile:
    """Invented bender that draws right and takes positions along the blank in inches, with columns of its own."""
    return replace(
        metric_profile,
        name="Bay 5 bender",
        units="in",
        sha256="5" * 64,
        bend=BendAxis(side="right", largest_deg=190.0, resolution_deg=0.5, repeatability_deg=0.1),
        rotation=RotationAxis(resolution_deg=0.5, repeatability_deg=0.1),
        feed=FeedAxis(resolution=0.0254, repeatability=0.1),
        output=OutputForm(
            units="in",
            feed="passed",
            rotation="absolute",
            rotation_positive="counterclockwise_from_carriage",
            columns=("number", "die", "bend", "rotation", "feed"),
            headings=("line", "tool", "degrees", "turn", "stop"),
        ),
    )


@pytest.fixture
def dryer_part() -> Part:
    """Pipe with two bends of 90°: along X, then Y, then up."""
    corners = ((0.0, 0.0, 0.0), (300.0, 0.0, 0.0), (300.0, 360.0, 0.0), (300.0, 360.0, 260.0))
    return Part(
        name="Dryer inlet pipe",
        number="GD-118",
        revision="B",
        quantity=12,
        units="mm",
        tube=Tube(od=50.0, wall=1.5, material="304L"),
        centreline=Centreline(vertices=tuple(Vertex(x=x, y=y, z=z) for x, y, z in corners)),
    )


ARC = 103.0 * math.pi / 2 - 4.0  # blank used by one bend: the arc less its elongation
REAR_TRIM = 143.0  # the rear straight of 157 must hold the collet's 60 and the carriage's closest 240
BLANK = 197.0 + ARC + 154.0 + ARC + 157.0 + REAR_TRIM

FIRST_STEP = BendStep(
    number=1,
    die="d50-r100",
    feed=197.0,
    rotation_deg=0.0,
    bend_deg=92.7,
    carriage_before=BLANK - 60.0 - 197.0,
    carriage_after=BLANK - 60.0 - 197.0 - ARC,
    passed=197.0,
    straight_ahead=197.0,
    finished_angle_deg=90.0,
    formed_clr=103.0,
    springback_deg=2.7,
    elongation=4.0,
    slope=1.0 + 0.8 / 30.0,
    basis=Basis(springback="measured", formed_clr="arc kept", elongation="measured"),
    swing=Swing(radius=math.hypot(197.0, 125.0), lowest=-25.0, reach=197.0),
)
SECOND_STEP = replace(
    FIRST_STEP,
    number=2,
    feed=154.0,
    rotation_deg=90.0,
    carriage_before=240.0 + ARC,
    carriage_after=240.0,
    passed=197.0 + ARC + 154.0,
    straight_ahead=154.0,
    swing=Swing(radius=math.hypot(282.0, 125.0), lowest=-25.0, reach=282.0),
)

FINISHED = BentTube(
    straights=(197.0, 154.0, 157.0),
    bends=(Bend(angle_deg=90.0, rotation_deg=0.0, clr=103.0), Bend(angle_deg=90.0, rotation_deg=90.0, clr=103.0)),
)
SHAPE = Shape(
    points=(
        (0.0, 0.0, 0.0),
        (197.0, 0.0, 0.0),
        (300.0, 103.0, 0.0),
        (300.0, 257.0, 0.0),
        (300.0, 360.0, 103.0),
        (300.0, 360.0, 260.0),
    ),
    vertices=((0.0, 0.0, 0.0), (300.0, 0.0, 0.0), (300.0, 360.0, 0.0), (300.0, 360.0, 260.0)),
)


def _check(check_id: str, quantity: str, where: tuple[str, str, str], predicted: float) -> Check:
    is_angle = quantity in {"finished angle", "rotation"}
    start, end, when = where
    return Check(
        id=check_id,
        quantity=quantity,
        start=start,
        end=end,
        when=when,
        predicted=predicted,
        tolerance=0.5 if is_angle else 1.0,
        unit="deg" if is_angle else "mm",
    )


CHECKS = (
    _check("angle-1", "finished angle", ("straight 1", "straight 2", "after step 1"), 90.0),
    _check("angle-2", "finished angle", ("straight 2", "straight 3", "after step 2"), 90.0),
    _check("rotation-2", "rotation", ("bend 1", "bend 2", "after step 2"), 90.0),
    _check("straight-2", "straight", ("end of bend 1", "start of bend 2", "after bending"), 154.0),
    _check("leg-front", "apex leg", ("front end", "vertex 2", "after cutting"), 300.0),
    _check("leg-rear", "apex leg", ("vertex 3", "rear end", "after cutting"), 260.0),
)

SAW_CUT = Finding(
    rule="grip",
    level="caution",
    step=None,
    value=157.0,
    limit=300.0,
    unit="mm",
    text="the rear straight is too short for collet and carriage: 143.0 mm were added, cut them off after bending",
    cures=(
        Cure(
            text="lengthen the last straight by 143.0 mm",
            change=Change(key="centreline.vertices", value=((0.0, 0.0, 0.0), (300.0, 360.0, 403.0))),
        ),
    ),
)


@pytest.fixture
def example_program(dryer_part: Part, metric_profile: MachineProfile) -> BendProgram:
    """The pipe on the metric bender: two steps, a rear trim, one caution."""
    return BendProgram(
        part=dryer_part,
        profile=metric_profile,
        dies=(DIE,),
        tables=(TABLE,),
        blank=Blank(
            length=BLANK,
            front_trim=0.0,
            rear_trim=REAR_TRIM,
            cut_marks=(
                CutMark(end="rear", distance=157.0, when="after_bending", measured_from="last_bend_end"),
                CutMark(end="rear", distance=REAR_TRIM, when="check_only", measured_from="rear_end"),
            ),
        ),
        steps=(FIRST_STEP, SECOND_STEP),
        machine_steps=(
            MachineStep(number=1, die="d50-r100", feed=197.0, rotation=0.0, bend=92.7),
            MachineStep(number=2, die="d50-r100", feed=154.0, rotation=90.0, bend=92.7),
        ),
        wanted=SHAPE,
        predicted=SHAPE,
        largest_deviation=0.0,
        wanted_tube=FINISHED,
        finished=FINISHED,
        marks=(),
        checks=CHECKS,
        findings=(SAW_CUT,),
        trial_piece=(),
    )


@pytest.fixture
def inch_program(example_program: BendProgram, inch_profile: MachineProfile) -> BendProgram:
    """The same pipe on the inch bender, its steps in that machine's form; feeds are positions on the blank."""
    return replace(
        example_program,
        profile=inch_profile,
        machine_steps=(
            MachineStep(number=1, die="d50-r100", feed=7.756, rotation=0.0, bend=92.5),
            MachineStep(number=2, die="d50-r100", feed=round((351.0 + ARC) / 25.4, 3), rotation=-90.0, bend=92.5),
        ),
    )


@pytest.fixture
def blank_program(example_program: BendProgram) -> BendProgram:
    """A part without bends: a length to saw."""
    ends = ((0.0, 0.0, 0.0), (450.0, 0.0, 0.0))
    return replace(
        example_program,
        part=replace(
            example_program.part,
            name="Dryer guard rail",
            number="GD-200",
            centreline=Centreline(vertices=tuple(Vertex(x=x, y=y, z=z) for x, y, z in ends)),
        ),
        dies=(),
        tables=(),
        blank=Blank(length=450.0, front_trim=0.0, rear_trim=0.0, cut_marks=()),
        steps=(),
        machine_steps=(),
        wanted=Shape(points=ends, vertices=ends),
        predicted=Shape(points=ends, vertices=ends),
        wanted_tube=BentTube(straights=(450.0,), bends=()),
        finished=BentTube(straights=(450.0,), bends=()),
        checks=(_check("length", "length", ("front end", "rear end", "after cutting"), 450.0),),
        findings=(),
    )
