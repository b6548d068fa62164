"""What goes to the machine: blank, steps, checks, and the part they will make."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from bendgen.records.allowances import AllowanceTable, MaterialData
from bendgen.records.bent_tube import BentTube, Mark, Shape
from bendgen.records.findings import Finding
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part
from bendgen.records.tooling import DieSet

if TYPE_CHECKING:
    from bendgen.records.offset import OffsetSolution

CutEnd = Literal["front", "rear"]
CutMoment = Literal["before_bending", "after_bending", "check_only"]
CutZero = Literal["front_end", "rear_end", "front_cut", "last_bend_end", "last_outer_apex"]
BasisWord = Literal["measured", "between", "beyond", "estimated", "arc kept", "not measured"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Basis:
    """Where each value stands: on a row, between rows, beyond them, or estimated.

    formed_clr is "arc kept" where the table has no radius: the wound arc keeps its length on release.
    elongation is "not measured" where the table has none: it is taken as 0.
    """

    springback: BasisWord
    formed_clr: BasisWord
    elongation: BasisWord


@dataclass(frozen=True, slots=True, kw_only=True)
class Swing:
    """Room one step needs, over the tube's outside [mm].

    radius : farthest any point ahead of the die gets from the die's own axis, in plan, during the bend
    lowest : lowest point from the machine's axis while the tube is turned and bent; negative is below
    reach : farthest point past the tangent line before the bend
    """

    radius: float
    lowest: float
    reach: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BendStep:
    """One bend in neutral form: mm, degrees, incremental feed, rotation clockwise seen from the carriage.

    feed, rotation_deg, bend_deg : commanded, after rounding to the machine's resolution
    carriage_before, carriage_after : collet face to tangent line
    passed : blank length past the tangent line when the bend starts; also the bend-start mark on the blank
    straight_ahead : straight in front of this bend that clamp and mandrel can use
    finished_angle_deg, formed_clr, springback_deg, elongation : what the step will give
    slope : degrees commanded for each degree finished, at this angle
    width_change : width a bend with held straights gains, 2 (formed CLR - die CLR); None where vertices are held
    collet_open : the collet opens before this bend
    seam_deg : clock position of the weld seam at this bend, None where the part names no seam
    """

    number: int
    die: str
    feed: float
    rotation_deg: float
    bend_deg: float
    carriage_before: float
    carriage_after: float
    passed: float
    straight_ahead: float
    finished_angle_deg: float
    formed_clr: float
    springback_deg: float
    elongation: float
    slope: float
    basis: Basis
    swing: Swing
    width_change: float | None = None
    collet_open: bool = False
    seam_deg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class MachineStep:
    """The same bend as this machine wants it: units, feed form and rotation sign of the profile's `[output]`."""

    number: int
    die: str
    feed: float
    rotation: float
    bend: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutMark:
    """Where to cut [mm].

    end : which end is cut
    distance, measured_from : tape reading and its zero
    when : before_bending marks are made on the blank; after_bending are measured on the bent tube; check_only is
        no place to cut but a reading that must agree
    """

    end: CutEnd
    distance: float
    when: CutMoment
    measured_from: CutZero


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """Length to saw and the trims in it [mm]; the saw list is the part's quantity of these."""

    length: float
    front_trim: float
    rear_trim: float
    cut_marks: tuple[CutMark, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Uncertainty:
    """How far a reading may come out from its prediction.

    expanded : half width that holds some 95 % of parts, k = 2, in the unit of the reading
    shares : of each step in its square; they add up to 1
    """

    expanded: float
    shares: tuple[float, ...]


def is_rotation(check: str) -> bool:
    """Whether the check of that id reads a rotation, of which full turns do not count."""
    return check.startswith("rotation-")


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One reading QA takes: mm or deg.

    id : stable name, `angle-1`, `straight-2`, `rotation-2`, `leg-front`, `offset`, …
    start, end : from where to where, in words
    when : "after step N", "after bending", "after cutting"
    band : smallest and largest value where springback is only estimated; None where it was measured
    uncertainty : None where it is not known
    """

    id: str
    quantity: str
    start: str
    end: str
    when: str
    predicted: float
    tolerance: float
    unit: Literal["mm", "deg"]
    band: tuple[float, float] | None = None
    uncertainty: Uncertainty | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bendability:
    """How hard the bends of one die set are on the tube; each figure by its own rule, never mixed.

    die : its id
    bend_ratio : CLR over OD, the D of bend; wall_factor: OD over wall [-]
    outer_strain : of the outermost fibre, OD / (2 CLR) [-]
    thinning_percent : wall lost on the outside, volume-kept estimate [%]
    code_wall : wall that B31.1 asks for before bending [mm]; None where the part does not ask for that code
    code_factors : what B31.1 asks of the wall inside and outside the bend, over that of straight pipe [-]; as code_wall
    outer_pitch : pitch of holes on the outside of the bend [mm]; None for plain tube
    """

    die: str
    bend_ratio: float
    wall_factor: float
    outer_strain: float
    thinning_percent: float
    code_wall: float | None = None
    code_factors: tuple[float, float] | None = None
    outer_pitch: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class EndLeft:
    """Straight at one end: what its fit needs and what is left for it [mm]."""

    end: Literal["front", "rear"]
    kind: Literal["sized", "plain"]
    needed: float
    left: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BendProgram:
    """The whole job for one part on one machine.

    dies, tables : the die sets and allowance tables used, in order of first use
    estimated_from : material data behind the bends that no table serves, None where every bend has one
    wanted, predicted : shapes, predicted laid on wanted by a best fit that cannot mirror
    finished : the predicted part after cutting, straight by straight
    wanted_tube : the same list of what was aimed at; around held vertices with the formed CLR, else the die's
    trial_piece : reasons why only one piece may be made from this sheet; empty if none
    bendability : of every die of `dies`
    ends : what each end is for, where the part says so
    offset : the solved offset, where the part asked for one
    """

    part: Part
    profile: MachineProfile
    dies: tuple[DieSet, ...]
    tables: tuple[AllowanceTable, ...]
    blank: Blank
    steps: tuple[BendStep, ...]
    machine_steps: tuple[MachineStep, ...]
    wanted: Shape
    predicted: Shape
    largest_deviation: float
    wanted_tube: BentTube
    finished: BentTube
    marks: tuple[Mark, ...]
    checks: tuple[Check, ...]
    findings: tuple[Finding, ...]
    trial_piece: tuple[str, ...]
    bendability: tuple[Bendability, ...] = ()
    ends: tuple[EndLeft, ...] = ()
    offset: "OffsetSolution | None" = None
    estimated_from: MaterialData | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A program, or the limits that forbid one; cautions stand in both cases."""

    part: Part
    profile: MachineProfile
    findings: tuple[Finding, ...]
    program: BendProgram | None
