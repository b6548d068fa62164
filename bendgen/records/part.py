"""A wanted part: one wish (a centreline or steps), the tube and what the shop says about it."""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from bendgen.records.machine import ShapeLimits
from bendgen.records.tube import Tube
from bendgen.units import Units

if TYPE_CHECKING:
    from bendgen.records.correction import Correction
    from bendgen.records.offset import OffsetWish
    from bendgen.records.route import RouteWish

TrimEnds = Literal["both", "front", "rear", "none"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Vertex:
    """Where two neighbouring straights would meet, or an end of the tube [mm]; clr: the CLR asked for here."""

    x: float
    y: float
    z: float
    clr: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Centreline:
    """Path of the tube's axis, front end first; vertices that turn less than merge_below_deg are left out."""

    vertices: tuple[Vertex, ...]
    merge_below_deg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedBend:
    """A finished bend and the straight before it [mm, deg]; clr: the CLR asked for here."""

    straight: float
    rotation_deg: float
    angle_deg: float
    clr: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedSteps:
    """Finished bends, front first, and the last straight, `rear` [mm]."""

    bends: tuple[WantedBend, ...]
    rear: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Tolerance:
    """Permissible deviations.

    length, offset [mm], angle_deg [deg]; with `iso2768` a class letter instead of `length` and `angle_deg`.
    source : where they come from, for the sheet
    """

    length: float = 1.0
    angle_deg: float = 0.5
    offset: float = 1.0
    iso2768: Literal["f", "m", "c", "v"] | None = None
    source: Literal["default", "part"] = "default"


@dataclass(frozen=True, slots=True, kw_only=True)
class EndFit:
    """What an end is for: sized over another tube, or plain for a weld; straight: how much of it that needs [mm]."""

    kind: Literal["sized", "plain"]
    straight: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PipingCode:
    """Thickness rule of a piping code: minimum_wall is the wall the finished pipe needs, tm [mm]."""

    rule: Literal["B31.1"]
    minimum_wall: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What is wanted; exactly one of centreline, steps, offset and route is given.

    units : the unit of the part's file, in which cures name a changed value
    centreline : of a part with a route, once that is found, its path
    die : id of a die set, else the profile's only one for this OD
    trim : ends at which material for clamp and grip may be added and cut off again
    front_trim, rear_trim, blank : lengths the shop fixes itself [mm]
    mirrored, from_rear : made as the opposite hand, bent from the other end
    front_fit, rear_fit : what the ends are for; code: a piping code's thickness rule, where the part asks for one
    correction : what a measured piece taught, for the bends as they will be made
    """

    name: str
    number: str
    revision: str
    quantity: int
    units: Units
    tube: Tube
    centreline: Centreline | None = None
    steps: WantedSteps | None = None
    offset: "OffsetWish | None" = None
    route: "RouteWish | None" = None
    die: str | None = None
    trim: TrimEnds = "both"
    front_trim: float | None = None
    rear_trim: float | None = None
    blank: float | None = None
    tolerance: Tolerance = field(default_factory=Tolerance)
    limits: ShapeLimits = field(default_factory=ShapeLimits)
    mirrored: bool = False
    from_rear: bool = False
    front_fit: EndFit | None = None
    rear_fit: EndFit | None = None
    code: PipingCode | None = None
    correction: "Correction | None" = None
