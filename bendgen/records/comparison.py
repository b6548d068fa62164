"""A measured part held against its program: deviations, verdicts, and what explains the miss."""

from dataclasses import dataclass
from typing import Literal

from bendgen.records.bend_program import Check, is_rotation
from bendgen.records.bent_tube import BentTube
from bendgen.records.cause_kind import CauseKind
from bendgen.units import shorter_way

Unit = Literal["mm", "deg", ""]
SlipKind = Literal["unit", "other side", "decimal point"]
SPARE = 1e-9  # a reading on the edge of its tolerance is within it


@dataclass(frozen=True, slots=True, kw_only=True)
class Deviation:
    """One reading against its check [mm, deg].

    line : of the measured file; None where vertices told the reading
    measured, predicted, wanted : wanted is what the same check reads on the part that was asked for
    """

    check: str
    quantity: str
    line: int | None
    measured: float
    predicted: float
    wanted: float
    tolerance: float
    unit: Literal["mm", "deg"]

    @property
    def in_tolerance(self) -> bool:
        """Whether the reading is within `tolerance` of `wanted`."""
        return abs(self.from_wanted) <= self.tolerance + SPARE

    @property
    def from_predicted(self) -> float:
        """Measured less predicted; of a rotation the shorter way round."""
        return short_way(self.measured - self.predicted, self.check)

    @property
    def from_wanted(self) -> float:
        """Measured less wanted; of a rotation the shorter way round."""
        return short_way(self.measured - self.wanted, self.check)


def short_way(difference: float, check: str) -> float:
    """Difference of two readings of a check; of rotations the shorter way round."""
    return shorter_way(difference) if is_rotation(check) else difference


def missed_by(check: Check, wanted: float) -> float:
    """How far the prediction of a check lies off what is wanted [mm, deg]; 0 where that is within its tolerance."""
    off = abs(short_way(check.predicted - wanted, check.id))
    return 0.0 if off <= check.tolerance + SPARE else off


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """What explains a miss, or part of it.

    step : bend concerned, None for all of them; end: the end concerned
    checks : readings concerned, of a misread or of an exchange
    wound : False for an angle that was never wound on the die, rather than lost on release
    rivals : what explains as much; nothing that was read tells them apart
    amount : by how much, in `unit`; positive: open, long, too far clockwise, or read too high
    share : of the miss that it explains, by weighted squares, 0 to 1
    """

    kind: CauseKind
    amount: float
    unit: Unit
    share: float
    step: int | None = None
    end: Literal["front", "rear"] | None = None
    checks: tuple[str, ...] = ()
    wound: bool = True
    rivals: tuple["Cause", ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """A reading far off that would be where it should be but for one slip of the pen.

    kind : inches for millimetres or the other way round; the angle between the legs for the one they were bent by; a
        decimal point in the wrong place
    line : of the measured file
    measured, meant : as it was read, and put right [mm, deg]
    """

    check: str
    kind: SlipKind
    line: int | None
    measured: float
    meant: float
    unit: Literal["mm", "deg"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PointDeviation:
    """Distance of one measured vertex or end from the wanted one, after a best fit that cannot mirror [mm].

    place : "front end", "vertex 2", "rear end", or how far along the axis in words
    """

    place: str
    distance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """Measured points laid on the wanted part.

    rms, largest : distance left [mm]; mirrored_rms: of the best fit of the mirror image, None where it was not asked
    """

    points: tuple[PointDeviation, ...]
    rms: float
    largest: float
    mirrored_rms: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ovality:
    """Measured diameters in one bend [mm], and what each definition makes of them.

    of_mean, of_nominal : largest less smallest, over their mean and over the nominal diameter [%]
    ratio : smallest over largest [-]
    """

    bend: int
    largest: float
    smallest: float
    of_mean: float
    of_nominal: float
    ratio: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """One piece against its program.

    slips : readings that one slip of the pen explains; they are left out of `made` and `causes`
    made : the piece as far as its readings tell, as wanted where they do not
    causes : fewest that explain the miss, the first explaining most; empty where nothing needs explaining
    explained : share of the miss that all of them explain, 0 to 1
    """

    piece: str
    lot: str | None
    deviations: tuple[Deviation, ...]
    made: BentTube
    fit: Fit | None
    ovality: tuple[Ovality, ...]
    causes: tuple[Cause, ...]
    explained: float
    slips: tuple[Slip, ...] = ()

    @property
    def believed(self) -> tuple[Deviation, ...]:
        """Readings but for those that are likely slips of the pen."""
        slipped = {slip.check for slip in self.slips}
        told_by_points = any(deviation.line is None for deviation in self.deviations)
        if told_by_points and slipped:  # by all of them at once
            return ()
        return tuple(deviation for deviation in self.deviations if deviation.check not in slipped)

    @property
    def in_tolerance(self) -> bool:
        """Whether every reading is."""
        return all(deviation.in_tolerance for deviation in self.deviations)
