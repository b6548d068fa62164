"""A bender as its profile folder describes it; lengths in mm, angles in degrees, None: not checked."""

from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from bendgen.records.allowances import AllowanceTable, MaterialData
from bendgen.records.tooling import DieSet
from bendgen.units import Units

FeedForm = Literal["incremental", "summed", "passed", "carriage"]
RotationForm = Literal["incremental", "absolute"]
RotationPositive = Literal["clockwise_from_carriage", "counterclockwise_from_carriage"]
OperatorStands = Literal["left", "right", "carriage"]
Column = Literal["number", "die", "feed", "rotation", "bend"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BendAxis:
    """The bending arm. side: which way the die draws, seen from above, looking along the feed."""

    side: Literal["left", "right"]
    largest_deg: float
    resolution_deg: float
    repeatability_deg: float
    smallest_deg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RotationAxis:
    """The turning collet. range_deg: smallest and largest position it can hold, counted from the loaded tube."""

    resolution_deg: float
    repeatability_deg: float
    range_deg: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedAxis:
    """The carriage's move between two bends."""

    resolution: float
    repeatability: float
    smallest: float | None = None
    largest: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Carriage:
    """The carriage and its collet.

    travel, closest : farthest and nearest collet face to tangent line
    grip : tube inside the collet
    load_at : front end past the tangent line at loading
    open_before_last : the collet may open before the last bend; then last_rear is the rear straight needed
    regrip : the collet may take a second hold, so that a blank may be longer than the travel
    centre_height : tube axis above the floor
    """

    travel: float
    closest: float
    grip: float
    load_at: float = 0.0
    open_before_last: bool = False
    last_rear: float | None = None
    regrip: bool = False
    centre_height: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BlankLimits:
    """What can be loaded; resolution: the saw stop, blanks are rounded up to it."""

    shortest: float
    longest: float
    resolution: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OutputForm:
    """The form in which this machine wants its steps; headings has one text for each column."""

    units: Units
    feed: FeedForm
    rotation: RotationForm
    rotation_positive: RotationPositive
    columns: tuple[Column, ...]
    headings: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeLimits:
    """Limits a part or a profile may name: wall thinning [%] and wall factor OD / wall [-], None: not checked."""

    thinning_percent: float | None = None
    wall_factor: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class MachineProfile:
    """One bender with its die sets, tables and materials.

    units : the unit of machine.toml, for messages to its programmer
    sha256 : over the files used, in order of relative path
    proved_on : when a proof piece showed the signs of this profile to be right; None: never, or they changed since
    operator_stands : where the operator's own place is, left and right seen from the carriage; None: not told
    """

    name: str
    units: Units
    sha256: str
    bend: BendAxis
    rotation: RotationAxis
    feed: FeedAxis
    carriage: Carriage
    blank: BlankLimits
    output: OutputForm
    limits: ShapeLimits = field(default_factory=ShapeLimits)
    proved_on: date | None = None
    operator_stands: OperatorStands | None = None
    dies: tuple[DieSet, ...] = ()
    tables: tuple[AllowanceTable, ...] = ()
    materials: tuple[MaterialData, ...] = ()

    def die(self, die_id: str) -> DieSet:
        """Die set of that id; raises KeyError if the profile has none."""
        for die in self.dies:
            if die.id == die_id:
                return die
        raise KeyError(die_id)
