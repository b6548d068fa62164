"""Room for an offset: the angles at which a die set, its curves and the machine make the two bends.

Every limit is a margin that is 0 or more where it holds. The angles at which margins vanish cut the range into
stretches that hold altogether or not at all, so nothing is assumed about how a margin runs between them.
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from bendgen.bending.allowances import AllowanceCurves, allowances_at, finished_angles
from bendgen.bending.job import SPARE
from bendgen.bending.limits_moves import BEYOND_THE_ROWS_DEG, largest_bend, smallest_bend
from bendgen.bending.limits_straights import fits_rotation
from bendgen.geometry.offset import between_from_rise, run_from_rise
from bendgen.geometry.vectors import Array
from bendgen.records.machine import MachineProfile
from bendgen.records.tooling import DieSet
from bendgen.units import RADIANS_PER_DEGREE

LARGEST_ANGLE_DEG = 90.0  # beyond it the straight between runs back, and a larger angle gains no room
ROTATION_BETWEEN_DEG = 180.0  # the second bend goes the opposite way
TOUCHES = 0.5 * SPARE  # at a limit, within rounding; the planner, which allows SPARE, must agree
SAMPLES = 181
HALVINGS = 60

Margins = Callable[[Array], Array]
Span = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Finished angles [deg] between which the same straight between is allowed [mm]."""

    low: float
    high: float
    shortest: float
    longest: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OffsetRoom:
    """Stretches of angles, smallest first, the die's curves, and the longest end straight that can be fed [mm]."""

    curves: AllowanceCurves
    stretches: tuple[Stretch, ...]
    longest_end: float

    def clr(self, angles_deg: Array) -> Array:
        """Formed radius at finished angles, (n,) arrays."""
        return allowances_at(self.curves, angles_deg).clr

    def with_angle(self, angle_deg: float) -> "OffsetRoom":
        """Room at that angle only."""
        fitting = (s for s in self.stretches if s.low - SPARE <= angle_deg <= s.high + SPARE)
        return replace(self, stretches=tuple(replace(s, low=angle_deg, high=angle_deg) for s in fitting))

    def with_between(self, between: float) -> "OffsetRoom":
        """Room with that straight between only."""
        fitting = (s for s in self.stretches if s.shortest - SPARE <= between <= s.longest + SPARE)
        return replace(self, stretches=tuple(replace(s, shortest=between, longest=between) for s in fitting))


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What the offset has to be [mm]; shortest_end is -inf where the ends do not matter."""

    rise: float
    length: float
    shortest_end: float


def room_of_die(die: DieSet, curves: AllowanceCurves, profile: MachineProfile) -> OffsetRoom:
    """Room on one die set: angles of machine, die and table; the straight that clamp, mandrel and feed need."""
    smallest, largest = smallest_bend(profile, die), largest_bend(profile, die)
    if die.pressure_travel is not None:
        largest = min(largest, die.pressure_travel / (die.clr * RADIANS_PER_DEGREE))
    low, high = finished_angles(curves, np.array([smallest, max(largest, smallest)])).tolist()
    low, high = max(low, smallest), min(high, LARGEST_ANGLE_DEG)
    if not curves.estimated:
        high = min(high, float(curves.angles_deg[-1]) + BEYOND_THE_ROWS_DEG)
    feed = profile.feed
    return OffsetRoom(
        curves=curves,
        stretches=tuple(_stretches(die, curves, profile, (low, high))) if smallest <= largest and low <= high else (),
        longest_end=math.inf if feed.largest is None else feed.largest,
    )


def _stretches(die: DieSet, curves: AllowanceCurves, profile: MachineProfile, span: Span) -> Iterator[Stretch]:
    """The angles of `span`, apart where a contoured clamp fits and where only the plain one does."""
    feed, contour = profile.feed, die.contour
    other = max(die.mandrel_ahead or 0.0, feed.smallest or 0.0)
    plain = Stretch(
        low=span[0],
        high=span[1],
        shortest=max(die.clamp, other),
        longest=math.inf if feed.largest is None else feed.largest,
    )
    if contour is None or not fits_rotation(contour, ROTATION_BETWEEN_DEG):
        yield plain
        return
    first, last = finished_angles(curves, np.array(contour.before_angle_deg)).tolist()
    shortest = max(min(die.clamp, contour.shortest_between), other)
    parts = (
        replace(plain, high=min(first, plain.high)),
        replace(plain, low=max(first, plain.low), high=min(last, plain.high), shortest=shortest),
        replace(plain, low=max(last, plain.low)),
    )
    yield from (part for part in parts if part.low <= part.high)


def feasible_spans(room: OffsetRoom, demand: Demand) -> list[Span]:
    """Ranges of finished angles [deg] that meet the demand, smallest first; a single angle is a range, too."""
    spans: list[Span] = []
    for stretch in room.stretches:
        for low, high in _spans_of_stretch(room, stretch, demand):
            touches = bool(spans) and low <= spans[-1][1]
            first, last = spans.pop() if touches else (low, high)
            spans.append((first, max(last, high)))
    return spans


def _spans_of_stretch(room: OffsetRoom, stretch: Stretch, demand: Demand) -> Iterator[Span]:
    def margins(angles_deg: Array) -> Array:
        angles, clr = angles_deg * RADIANS_PER_DEGREE, room.clr(angles_deg)
        between = between_from_rise(demand.rise, angles, clr)
        end = 0.5 * (demand.length - run_from_rise(demand.rise, angles, clr))
        rows = (
            between - stretch.shortest,
            stretch.longest - between,
            end - demand.shortest_end,
            room.longest_end - end,
        )
        return np.stack(rows, axis=1)

    yield from spans_between_cuts(margins, stretch)


def spans_between_cuts(margins: Margins, stretch: Stretch) -> Iterator[Span]:
    """Ranges of angles [deg] within a stretch in which no margin is negative, smallest first."""
    cuts = _vanishing_angles(margins, stretch)
    middles = [0.5 * (cut + following) for cut, following in pairwise(cuts)]
    holds = np.all(margins(np.array(cuts)) >= -TOUCHES, axis=1)
    joined = np.all(margins(np.array(middles)) >= -TOUCHES, axis=1) if middles else np.zeros(0, dtype=bool)
    start: float | None = None
    for cut, here, onward in zip(cuts, holds, (*joined, False), strict=True):
        if start is None and (here or onward):
            start = cut
        if start is not None and not onward:
            yield start, cut
            start = None


def _vanishing_angles(margins: Margins, stretch: Stretch) -> list[float]:
    """Both ends of a stretch and all angles inside it at which a margin changes its sign, in rising order [deg]."""
    if stretch.low == stretch.high:
        return [stretch.low]
    angles = np.linspace(stretch.low, stretch.high, SAMPLES)
    negative = margins(angles) < 0.0
    changes, columns = np.nonzero(negative[:-1] != negative[1:])
    roots = _halved(margins, angles[changes], angles[changes + 1], columns) if changes.size else []
    return sorted({stretch.low, *roots, stretch.high})


def _halved(margins: Margins, low: Array, high: Array, columns: NDArray[np.intp]) -> list[float]:
    """Angles between `low` and `high` at which those columns vanish."""
    rows = np.arange(len(low))
    low_negative = margins(low)[rows, columns] < 0.0
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        like_low = (margins(middle)[rows, columns] < 0.0) == low_negative
        low, high = np.where(like_low, middle, low), np.where(like_low, high, middle)
    return [float(angle) for angle in 0.5 * (low + high)]
