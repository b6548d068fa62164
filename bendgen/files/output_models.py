"""Shape of the JSON files that leave the tool; the schemas in `bendgen/schemas` are made from it.

Adding a key keeps the version, a changed meaning adds 1. These are typed mappings, not pydantic models: building such
models takes longer than planning a part.
"""

from typing import Final, Literal

from typing_extensions import TypedDict  # as in `output_items`

from bendgen.files.offset_items import OffsetItem
from bendgen.files.output_items import DieItem, FindingItem, MachineItem, PartItem, PartName, TableItem, ToleranceItem
from bendgen.records.bend_program import BasisWord, CutEnd, CutMoment, CutZero
from bendgen.records.machine import Column, FeedForm, RotationForm, RotationPositive
from bendgen.units import Units

STEPS_FORMAT: Final = "bendgen-steps"
STEPS_VERSION: Final = 1
FINDINGS_FORMAT: Final = "bendgen-findings"
FINDINGS_VERSION: Final = 1


class ConventionsItem(TypedDict):
    """What the numbers mean, in words."""

    length: str
    angle: str
    feed: str
    rotation: str
    bend: str
    frame: str


class CutMarkItem(TypedDict):
    """Where to cut; check_only is no place to cut but a reading that must agree."""

    end: CutEnd
    distance: float
    when: CutMoment
    measured_from: CutZero


class BlankItem(TypedDict):
    """Length to saw and what of it is cut off."""

    length: float
    front_trim: float
    rear_trim: float
    cut_marks: list[CutMarkItem]


class BasisItem(TypedDict):
    """Where each value stands in its table."""

    springback: BasisWord
    formed_clr: BasisWord
    elongation: BasisWord


class SwingItem(TypedDict):
    """Room a step needs: farthest from the die's axis in plan, lowest from the tube's axis, farthest past the die."""

    radius: float
    lowest: float
    reach: float


class StepItem(TypedDict):
    """A step: feed, rotation and bend are commanded, the finished values are what they will give."""

    number: int
    die: str
    feed: float
    rotation: float
    bend: float
    carriage_before: float
    carriage_after: float
    passed: float
    straight_ahead: float
    finished_angle: float
    formed_clr: float
    springback: float
    elongation: float
    slope: float
    basis: BasisItem
    swing: SwingItem
    width_change: float | None
    collet_open: bool
    seam: float | None


class MachineStepItem(TypedDict):
    """A step in the machine's own form."""

    number: int
    die: str
    feed: float
    rotation: float
    bend: float


class MachineStepsItem(TypedDict):
    """The steps as this machine is given them, in its own units, feed form and rotation sign."""

    units: Units
    feed: FeedForm
    rotation: RotationForm
    rotation_positive: RotationPositive
    columns: list[Column]
    headings: list[str]
    steps: list[MachineStepItem]


class BendItem(TypedDict):
    """A finished bend."""

    angle: float
    rotation: float
    clr: float


class ShapeItem(TypedDict):
    """A finished part: ends and tangent points, vertices (null with a bend of 180 or more), straights and bends."""

    points: list[list[float]]
    vertices: list[list[float]] | None
    straights: list[float]
    bends: list[BendItem]


class PredictedItem(ShapeItem):
    """The part these steps will make, laid on the wanted one."""

    largest_deviation: float


class MarkItem(TypedDict):
    """A place to mark: on which straight, counted from 1, how far along the finished axis."""

    straight: int
    from_front: float


class UncertaintyItem(TypedDict):
    """Half width that holds some 95 % of parts, k = 2, and the share of each step in its square."""

    expanded: float
    shares: list[float]


CheckItem = TypedDict(  # `from` is no name in Python
    "CheckItem",
    {
        "id": str,
        "quantity": str,
        "from": str,
        "to": str,
        "when": str,
        "predicted": float,
        "tolerance": float,
        "unit": Literal["mm", "deg"],
        "band": list[float] | None,
        "uncertainty": UncertaintyItem | None,
    },
)


class BendabilityItem(TypedDict):
    """How hard the bends of one die set are on the tube; what code and holes add is null where not asked for."""

    die: str
    bend_ratio: float
    wall_factor: float
    outer_strain: float
    thinning_percent: float
    code_wall: float | None
    code_factors: list[float] | None
    outer_pitch: float | None


class EndItem(TypedDict):
    """Straight at an end: needed for its fit, and left."""

    end: Literal["front", "rear"]
    kind: Literal["sized", "plain"]
    needed: float
    left: float


class EstimateItem(TypedDict):
    """Material data behind the bends that no table serves."""

    file: str
    issued: str


class StepsFile(TypedDict):
    """A bend program in neutral form: steps, the blank to saw, the part they will make and how to check it."""

    format: Literal["bendgen-steps"]
    version: Literal[1]
    id: str
    part: PartItem
    machine: MachineItem
    dies: list[DieItem]
    tables: list[TableItem]
    estimated_from: EstimateItem | None
    conventions: ConventionsItem
    blank: BlankItem
    steps: list[StepItem]
    machine_steps: MachineStepsItem
    wanted: ShapeItem
    predicted: PredictedItem
    marks: list[MarkItem]
    tolerance: ToleranceItem
    offset: OffsetItem | None
    checks: list[CheckItem]
    ends: list[EndItem]
    bendability: list[BendabilityItem]
    trial_piece: list[str]
    findings: list[FindingItem]


class FindingsFile(TypedDict):
    """Why a part gets no steps, and what would cure it."""

    format: Literal["bendgen-findings"]
    version: Literal[1]
    part: PartName
    machine: MachineItem
    findings: list[FindingItem]
