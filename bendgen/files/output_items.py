"""Parts of the JSON files: the part wanted, the tooling used, the findings.

Keys carry no unit: lengths are in mm, angles in degrees, whatever the shop's own unit.
"""

from typing import Literal

from typing_extensions import TypedDict  # pydantic makes schemas of these; of typing's own only from Python 3.12

from bendgen.records.cause_kind import CauseKind
from bendgen.records.findings import Level
from bendgen.records.part import TrimEnds
from bendgen.units import Units


class PerforationItem(TypedDict):
    """Round holes; pattern "60" is staggered by 60 degrees, "square" a square grid."""

    hole: float
    pitch: float
    pattern: Literal["60", "square"]
    plain_front: float
    plain_rear: float


class TubeItem(TypedDict):
    """The tube; seam is a clock position, 0 up, clockwise seen from the carriage."""

    od: float
    wall: float
    material: str
    perforated: bool
    temper: str | None
    lot: str | None
    seam: float | None
    perforation: PerforationItem | None


class LimitsItem(TypedDict):
    """Limits the part names: wall thinning in per cent, wall factor OD / wall."""

    thinning: float | None
    wall_factor: float | None


class FitItem(TypedDict):
    """What an end is for, and the straight it needs."""

    kind: Literal["sized", "plain"]
    straight: float


class CodeItem(TypedDict):
    """A piping code's thickness rule, and the minimum wall it starts from."""

    rule: Literal["B31.1"]
    minimum_wall: float


class PartName(TypedDict):
    """What tells a part from others."""

    name: str
    number: str
    revision: str


class BendCorrectionItem(TypedDict):
    """What one bend does beyond table and machine; feed and rotation in neutral form."""

    springback: float
    lost_motion: float
    elongation: float
    rotation: float
    feed: float


class CommandsBeforeItem(TypedDict):
    """Commands of one step before the correction, neutral."""

    feed: float
    rotation: float
    bend: float


class CauseItem(TypedDict):
    """What a miss came from: by how much, and which share of it."""

    kind: CauseKind
    amount: float
    unit: Literal["mm", "deg", ""]
    share: float
    step: int | None
    wound: bool


class CorrectionItem(TypedDict):
    """Why the program was issued anew, and what it allows for."""

    replaces_id: str
    replaces_issue: int
    piece: str
    causes: list[CauseItem]
    bends: list[BendCorrectionItem]
    before: list[CommandsBeforeItem]


class PartItem(PartName):
    """What was wanted, apart from the shape; units are those of the part's own file."""

    issue: int
    quantity: int
    units: Units
    tube: TubeItem
    die: str | None
    trim: TrimEnds
    front_trim: float | None
    rear_trim: float | None
    blank: float | None
    limits: LimitsItem
    mirrored: bool
    from_rear: bool
    front_fit: FitItem | None
    rear_fit: FitItem | None
    code: CodeItem | None
    correction: CorrectionItem | None


class MachineItem(TypedDict):
    """The profile used; sha256 over its files, in order of relative path."""

    name: str
    sha256: str


class DieItem(TypedDict):
    """A die set used, in order of first use."""

    id: str
    tube_od: float
    clr: float


class TableItem(TypedDict):
    """A springback table used, in order of first use."""

    file: str
    issued: str
    lot: str | None


class ToleranceItem(TypedDict):
    """Permissible deviations; with iso2768 its class stands in place of length and angle."""

    length: float
    angle: float
    offset: float
    iso2768: Literal["f", "m", "c", "v"] | None
    source: Literal["default", "part"]


ChangeValue = float | str | bool | list[float] | list[list[float]]


class ChangeItem(TypedDict):
    """A key of the part's file and the value to give it, in that file's unit."""

    key: str
    value: ChangeValue


class CureItem(TypedDict):
    """One change that alone removes the finding."""

    text: str
    change: ChangeItem


class FindingItem(TypedDict):
    """A limit broken or a caution; step null: the part as a whole."""

    rule: str
    level: Level
    step: int | None
    value: float | None
    limit: float | None
    unit: Literal["mm", "deg", "%", ""]
    text: str
    cures: list[CureItem]
