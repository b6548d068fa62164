"""Routes between two ports on the die sets of a machine, with the formed radius in them."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from bendgen.bending.allowances import AllowanceCurves, allowances_at, finished_angles
from bendgen.bending.compensation import HELD_UP_TO_DEG
from bendgen.bending.die_curves import table_and_curves
from bendgen.bending.job import limit_in_mm
from bendgen.bending.limits_moves import BEYOND_THE_ROWS_DEG, largest_bend, smallest_bend
from bendgen.bending.tooling import OD_AGREES, die_for_bend
from bendgen.errors import ToolingError
from bendgen.geometry.route_search import FITS, Found, best_route, found_route
from bendgen.geometry.route_space import RouteSpace, gap_between_axes, in_line, meeting
from bendgen.geometry.vectors import Array, angles_between, lengths, unit
from bendgen.records.bent_tube import Point
from bendgen.records.findings import Finding
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Centreline, Part, Vertex
from bendgen.records.route import Route
from bendgen.records.tooling import DieSet
from bendgen.units import DEGREES_PER_RADIAN, RADIANS_PER_DEGREE, Units, counted, format_length

MOST_BENDS = 3
AXES_MEET = 1e-7  # axes of ports that pass each other as near as this meet [mm]
SPARE_STRAIGHT = 0.001  # mm that a route keeps beyond what is needed, so that rounding breaks no rule
RADIUS_STEP_DEG = 0.05


def routes_of_part(part: Part, profile: MachineProfile) -> tuple[Route, ...]:
    """Best route of every number of bends asked for on every die set that serves, best first.

    Those that fit come first: fewer bends, then shorter, then with a smaller largest angle; behind them those that do
    not, the one that is least short first.

    Raises
    ------
    ToolingError    no die set, table or material data serves the tube
    """
    wish = part.route
    assert wish is not None  # whoever asks has a route to find
    routes = []
    for die in _serving(part, profile):
        space = route_space(part, die, profile)
        counts = range(MOST_BENDS + 1) if wish.bends is None else (wish.bends,)
        if 0 in counts and in_line(space, AXES_MEET):
            routes.append(_route(found_route(space, np.zeros(2), 0), space, die, part.units))
        routes += [_route(found, space, die, part.units) for count in counts for found in routes_in(space, count)]
        if wish.bends == 1 and not routes:
            routes.append(_passing_route(space, die, part.units))
    return tuple(sorted(routes, key=_rank))


def with_route(part: Part, route: Route) -> Part:
    """Part whose route is a centreline, on the die set of that route."""
    vertices = tuple(Vertex(x=x, y=y, z=z) for x, y, z in route.vertices)
    return replace(part, centreline=Centreline(vertices=vertices), die=route.die)


def fitting_routes(routes: Sequence[Route]) -> tuple[Route, ...]:
    """Those that fit."""
    return tuple(route for route in routes if not route.short_by)


def check_routes(routes: Sequence[Route]) -> tuple[Finding, ...]:
    """The limit that is broken where no route fits: what the nearest one is short of."""
    if fitting_routes(routes):
        return ()
    nearest = routes[0]
    bends = counted(len(nearest.angles_deg), "bend")
    text = f"no route was found that fits; the nearest, of {bends} on '{nearest.die}': {'; '.join(nearest.missing)}"
    return (limit_in_mm("route", None, nearest.short_by, 0.0, text),)


def _rank(route: Route) -> tuple[float, int, float, float]:
    return route.short_by, len(route.angles_deg), route.length, max(route.angles_deg, default=0.0)


def _serving(part: Part, profile: MachineProfile) -> Iterator[DieSet]:
    """Die sets that take the tube: the named one, or all for which there is a table or material data."""
    if part.die is not None:
        yield die_for_bend(part.tube, profile, named=part.die)
        return
    error: ToolingError | None = None
    served = False
    for die in profile.dies:
        if abs(die.tube_od - part.tube.od) <= OD_AGREES:
            try:
                table_and_curves(part.tube, die, profile)
            except ToolingError as this_error:
                error = this_error
                continue
            served = True
            yield die
    if error is not None and not served:
        raise error
    if not served:
        die_for_bend(part.tube, profile, named=None)  # says what there is instead


def route_space(part: Part, die: DieSet, profile: MachineProfile) -> RouteSpace:
    """What routes of the part on one die set are like; raises ToolingError where nothing tells its springback."""
    wish = part.route
    assert wish is not None  # whoever asks has a route to find
    curves = table_and_curves(part.tube, die, profile)[1]
    between = max(die.clamp, die.mandrel_ahead or 0.0, profile.feed.smallest or 0.0)
    front = wish.shortest_front if part.trim in ("both", "front") else max(wish.shortest_front, between)
    held = profile.carriage.grip + profile.carriage.closest
    rear = wish.shortest_rear if part.trim in ("both", "rear") else max(wish.shortest_rear, held)
    low, high = _angles(die, curves, profile)
    angles_deg = np.arange(RADIUS_STEP_DEG, 180.0, RADIUS_STEP_DEG)
    keep_away = 0.5 * part.tube.od + wish.clearance
    corners = np.array([[box.corner, box.opposite] for box in wish.keep_out], dtype=float).reshape(-1, 2, 3)
    boxes = np.stack((corners.min(axis=1) - keep_away, corners.max(axis=1) + keep_away), axis=1)
    return RouteSpace(
        front=np.array(wish.front.at, dtype=float),
        rear=np.array(wish.rear.at, dtype=float),
        towards_front=unit(np.array(wish.front.towards, dtype=float)),
        towards_rear=unit(np.array(wish.rear.towards, dtype=float)),
        shortest=(front, between + SPARE_STRAIGHT, rear),
        smallest=low * RADIANS_PER_DEGREE,
        largest=high * RADIANS_PER_DEGREE,
        angles=angles_deg * RADIANS_PER_DEGREE,
        clr=allowances_at(curves, angles_deg).clr,
        boxes=boxes,
    )


def _angles(die: DieSet, curves: AllowanceCurves, profile: MachineProfile) -> tuple[float, float]:
    """Smallest and largest finished angle [deg] that die, machine and table make and a vertex can be held at."""
    smallest, largest = smallest_bend(profile, die), largest_bend(profile, die)
    if die.pressure_travel is not None:
        largest = min(largest, die.pressure_travel / (die.clr * RADIANS_PER_DEGREE))
    low, high = finished_angles(curves, np.array([smallest, largest])).tolist()
    if not curves.estimated:
        high = min(high, float(curves.angles_deg[-1]) + BEYOND_THE_ROWS_DEG)
    return max(low, smallest), min(high, HELD_UP_TO_DEG)


def routes_in(space: RouteSpace, bends: int) -> Iterator[Found]:
    """Best route of so many bends; none for a straight tube, or one bend between axes that do not meet."""
    if bends == 1:
        along_front, along_rear, apart = meeting(space)
        if apart <= AXES_MEET:
            yield found_route(space, np.array([along_front, along_rear]), 1)
    elif bends > 1:
        yield best_route(space, bends)


def _passing_route(space: RouteSpace, die: DieSet, units: Units) -> Route:
    """The one bend that would be made if the axes of the ports met."""
    along_front, along_rear, apart = meeting(space)
    parallel = math.isinf(apart)
    if parallel:
        apart = float(lengths(gap_between_axes(space)[None])[0])
    turn = angles_between(space.towards_front[None], -space.towards_rear[None])
    path = space.paths(np.array([[along_front, along_rear]]), 1)[0]
    kind = "run beside each other" if parallel else "pass each other"
    return Route(
        die=die.id,
        vertices=tuple(_point(vertex) for vertex in path),
        angles_deg=(float(turn[0]) * DEGREES_PER_RADIAN,),
        straights=(),
        length=float("inf"),
        short_by=apart,
        missing=(f"the axes of the ports {kind}, {format_length(apart, units)} apart",),
    )


def _point(place: Array) -> Point:
    x, y, z = place.tolist()
    return x, y, z


def _route(found: Found, space: RouteSpace, die: DieSet, units: Units) -> Route:
    measured = found.measured
    short_by = float(measured.missing[0].sum())
    angles_deg, straights = (measured.angles[0] * DEGREES_PER_RADIAN).tolist(), measured.straights[0].tolist()
    return Route(
        die=die.id,
        vertices=tuple(_point(vertex) for vertex in found.path),
        angles_deg=tuple(angles_deg),
        straights=tuple(straights),
        length=float(measured.length[0]),
        short_by=short_by if short_by > FITS else 0.0,
        missing=tuple(_missing(found, space, units)) if short_by > FITS else (),
    )


def _missing(found: Found, space: RouteSpace, units: Units) -> Iterator[str]:
    missing, straights = found.measured.missing[0], found.measured.straights[0].tolist()
    angles_deg = (found.measured.angles[0] * DEGREES_PER_RADIAN).tolist()
    count = len(angles_deg)
    of_straights, small, large = np.split(missing[:-1], [count + 1, 2 * count + 1])
    needed = space.needed(count).tolist()
    for number in np.flatnonzero(of_straights > FITS).tolist():
        length, least = (format_length(mm, units) for mm in (straights[number], needed[number]))
        yield f"straight {number + 1} is {length} and needs {least}"
    for number in np.flatnonzero(small > FITS).tolist():
        smallest = space.smallest * DEGREES_PER_RADIAN
        yield f"bend {number + 1} is {angles_deg[number]:.2f}° and must be {smallest:.2f}° or more"
    for number in np.flatnonzero(large > FITS).tolist():
        largest = space.largest * DEGREES_PER_RADIAN
        yield f"bend {number + 1} is {angles_deg[number]:.2f}° and may be {largest:.2f}° at most"
    if missing[-1] > FITS:
        inside = format_length(float(missing[-1]), units)
        yield f"{inside} of its axis lies inside what is to be kept out of, or too near to it"
