"""Two ports that a tube has to join, and the routes that do."""

from dataclasses import dataclass

from bendgen.records.bent_tube import Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Port:
    """An end of the tube: where its axis ends [mm], and the direction in which the tube leaves, of any length."""

    at: Point
    towards: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A box along the axes that the tube has to stay out of: two opposite corners [mm]."""

    corner: Point
    opposite: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class RouteWish:
    """Two ports to be joined.

    shortest_front, shortest_rear : shortest straight at either end [mm]
    bends : as many bends, no others; None: as few as it takes
    keep_out : boxes that the outside of the tube stays `clearance` [mm] away from
    """

    front: Port
    rear: Port
    shortest_front: float
    shortest_rear: float
    bends: int | None = None
    keep_out: tuple[Box, ...] = ()
    clearance: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """One way from port to port on one die set.

    vertices : ends and vertices, front first [mm]
    angles_deg : finished; straights : between bends, front first; length : developed [mm]
    short_by : how far it is from fitting, all that is missing added up [mm]; 0: it fits
    missing : what is short, in words, with the number of the straight or bend
    """

    die: str
    vertices: tuple[Point, ...]
    angles_deg: tuple[float, ...]
    straights: tuple[float, ...]
    length: float
    short_by: float
    missing: tuple[str, ...] = ()
