"""Ports that no route joins: every single change to the wish or the part after which one does, each tried."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from bendgen.bending.changed_part import ChangedPart, in_words, rounded_down
from bendgen.bending.changes import other_die, trim_allowed
from bendgen.bending.cures import BrokenLimits, tried_cures
from bendgen.bending.route import MOST_BENDS, SPARE_STRAIGHT, route_space, routes_in
from bendgen.bending.tooling import OD_AGREES
from bendgen.bending.wish_changes import longer_route, other_route
from bendgen.geometry.route_search import FITS
from bendgen.geometry.route_space import RouteSpace, gap_between_axes, leg_directions
from bendgen.geometry.vectors import Array, lengths
from bendgen.records.findings import Finding
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part
from bendgen.records.route import Route, RouteWish
from bendgen.units import counted

RULE = "route"
NEAR_ENOUGH = 1.0  # mm to which the most that fits is looked for
WORDS = {"shortest_front": "straight at the front end", "shortest_rear": "straight at the rear end"}


def with_route_cures(
    findings: tuple[Finding, ...], routes: Sequence[Route], part: Part, profile: MachineProfile, broken: BrokenLimits
) -> tuple[Finding, ...]:
    """The same findings with every change after which a route fits; first those that leave no other limit.

    routes : that were looked for and do not fit, the nearest first
    """
    wish = part.route
    assert wish is not None  # only a route breaks this rule
    cures = tried_cures(_candidates(part, wish, routes, profile), RULE, profile, broken)
    return tuple(replace(finding, cures=cures) for finding in findings)


def _candidates(part: Part, wish: RouteWish, routes: Sequence[Route], profile: MachineProfile) -> Iterator[ChangedPart]:
    """Single changes worth trying."""
    for count in range(1, MOST_BENDS + 1):
        if wish.bends not in (None, count):
            yield other_route(part, replace(wish, bends=count), "bends", f"ask for {counted(count, 'bend')}")
    for die in profile.dies:
        if part.die not in (None, die.id) and abs(die.tube_od - part.tube.od) <= OD_AGREES:
            yield other_die(part, die.id)
    if part.trim != "both":
        yield trim_allowed(part, "both")
    for key in ("shortest_front", "shortest_rear", "clearance"):
        yield from _less(part, wish, key, routes, profile)
    for number, box in enumerate(wish.keep_out, start=1):
        others = tuple(other for other in wish.keep_out if other is not box)
        yield other_route(part, replace(wish, keep_out=others), "keep_out", f"do without box {number}")
    yield _moved_port(part, routes[0], profile)


def _less(
    part: Part, wish: RouteWish, key: str, routes: Sequence[Route], profile: MachineProfile
) -> Iterator[ChangedPart]:
    """The most straight at an end, or the most clearance, with which one of the routes fits."""
    asked: float = getattr(wish, key)

    def with_value(value: float) -> RouteWish:
        number: dict[str, Any] = {key: value}
        return replace(wish, **number)

    def fits(value: float) -> bool:
        changed = replace(part, route=with_value(value))
        return any(_fits(changed, route.die, len(route.angles_deg), profile) for route in routes)

    if asked > 0.0 and fits(0.0):
        most = rounded_down(_most(fits, asked), part.units)
        yield other_route(part, with_value(most), key, f"{WORDS.get(key, key)} of {in_words(most, part.units)}")


def _fits(part: Part, die: str, bends: int, profile: MachineProfile) -> bool:
    found = routes_in(route_space(part, profile.die(die), profile), bends)
    return any(float(one.measured.missing[0].sum()) <= FITS for one in found)


def _most(fits: Callable[[float], bool], above: float) -> float:
    """Largest value that fits, nearly, between 0, which does, and one above that does not."""
    below = 0.0
    while above - below > NEAR_ENOUGH:
        middle = 0.5 * (below + above)
        below, above = (middle, above) if fits(middle) else (below, middle)
    return below


def _moved_port(part: Part, nearest: Route, profile: MachineProfile) -> ChangedPart:
    """The rear port moved to where the nearest route has all the straight it lacks, or where the axes of both meet."""
    wish = part.route
    assert wish is not None  # whoever asks has a route to find
    space = route_space(part, profile.die(nearest.die), profile)
    shift = _lacking(nearest, space) if nearest.straights else gap_between_axes(space)
    return longer_route(part, wish, shift, "")


def _lacking(route: Route, space: RouteSpace) -> Array:
    """What straights of the route lack, each along its own direction, and a little more, so that nothing is short."""
    steps = np.diff(np.array(route.vertices), axis=0)
    ways = leg_directions(space, steps[None], lengths(steps)[None])[0]
    short = np.maximum(space.needed(len(route.angles_deg)) - np.array(route.straights), 0.0)
    shift: Array = np.where(short > 0.0, short + SPARE_STRAIGHT, 0.0) @ ways
    return shift
