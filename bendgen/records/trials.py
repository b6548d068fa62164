"""Trial bends as read at the bench, and what they teach about one die and one kind of tube."""

from dataclasses import dataclass
from datetime import date
from typing import Literal

from bendgen.records.allowances import AllowanceTable

Leg = Literal["apex", "outer_apex"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialSource:
    """Where trial bends come from: the name of their file, and the date their tables are issued."""

    file: str
    issued: date


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeKind:
    """What one table stands for: a die and a kind of tube on it; wall [mm]."""

    die: str
    material: str
    wall: float
    perforated: bool
    temper: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialBend:
    """One bend made to learn from; lengths in mm, None: not measured.

    line : of the file it was read from
    feed : first feed as run, front end past the tangent line when the bend starts
    blank : length sawn
    front_leg, rear_leg : from the ends of the bent tube to its apex, or to the outer one, as `legs` says
    carriage_move : carriage reading before less after the bend
    gauge_clr : by a radius gauge, for the sheet only: it is not the setback radius
    restruck : bent again after release
    """

    line: int
    kind: TubeKind
    commanded_deg: float
    measured_deg: float
    lot: str | None = None
    feed: float | None = None
    blank: float | None = None
    front_leg: float | None = None
    rear_leg: float | None = None
    legs: Leg = "apex"
    carriage_move: float | None = None
    gauge_clr: float | None = None
    restruck: bool = False

    @property
    def springback_deg(self) -> float:
        """Commanded less measured [deg]."""
        return self.commanded_deg - self.measured_deg


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut:
    """A reading that nothing was learned from.

    reading : the whole bend, or its lengths alone while its angle still counts
    text : why, with the test that it failed
    """

    line: int
    reading: Literal["bend", "lengths"]
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedRow:
    """Bends with one commanded angle, averaged.

    commanded_deg, angle_deg, springback_deg : means [deg]
    bends, spread_deg : how many, and the standard deviation of their springback [deg]; None for a single bend
    clr, elongation : setback radius and length gained [mm]; None where nothing in the file tells them
    clr_measured, elongation_measured : at this very angle, not continued from the others
    legs_less_blank : both apex legs less the blank [mm], R (2 tan(θ/2) - θ) + e: all that is known of the setback
        radius R and the elongation e together where no feed was noted
    used : blank length that the carriage lost to the bend [mm], where it was read
    gauge_clr : by a radius gauge [mm]
    """

    commanded_deg: float
    angle_deg: float
    springback_deg: float
    bends: int
    spread_deg: float | None = None
    clr: float | None = None
    elongation: float | None = None
    clr_measured: bool = False
    elongation_measured: bool = False
    legs_less_blank: float | None = None
    used: float | None = None
    gauge_clr: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SpringbackFit:
    """Polynomial through the springback of all bends that count, over the finished angle θ in degrees.

    coefficients : intercept [deg], slope [deg/deg] and, with enough angles, curve [deg/deg²]
    covariance : of the coefficients; NaN without degrees of freedom
    sd_deg, degrees_of_freedom : scatter of one bend about the polynomial
    """

    coefficients: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]
    sd_deg: float
    degrees_of_freedom: int


@dataclass(frozen=True, slots=True, kw_only=True)
class NextBend:
    """The trial bend that would teach most.

    finished_deg, commanded_deg : where to bend [deg]
    repeat : there is a row at this angle already
    deviation_before_deg, deviation_after_deg : standard deviation of the springback, root mean square over the
        angles that matter [deg]
    matters : which angles those are, in words
    """

    finished_deg: float
    commanded_deg: float
    repeat: bool
    deviation_before_deg: float
    deviation_after_deg: float
    matters: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LotShift:
    """One bend of a new lot held against the newest table.

    base : file of that table
    angle_deg : where they were compared [deg]; shift_deg : springback of the lot less that of the table [deg]
    """

    base: str
    angle_deg: float
    shift_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """What the trial bends of one kind of tube taught.

    bends : how many the file has
    table : the new table, without a file name yet; None if there is a `refusal`
    refusal : why there is none
    fit, next_bend : None where the bends are too few, or only shift another table
    shift : how another table was shifted, for a single bend of a new lot
    """

    kind: TubeKind
    lot: str | None
    bends: int
    rows: tuple[LearnedRow, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    cautions: tuple[str, ...] = ()
    table: AllowanceTable | None = None
    refusal: str | None = None
    fit: SpringbackFit | None = None
    next_bend: NextBend | None = None
    shift: LotShift | None = None
