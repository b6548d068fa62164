"""An offset for which nothing fits: what is short, and every single change that would make it fit, each tried."""

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from bendgen.bending.changed_part import ChangedPart, in_words, rounded_down, rounded_up
from bendgen.bending.changes import other_die
from bendgen.bending.cures import BrokenLimits, tried_cures
from bendgen.bending.job import limit_in_deg, limit_in_mm, remark
from bendgen.bending.offset import answer_at, asked_room, offset_curves, offset_of_part, rise_and_first_turn
from bendgen.bending.offset_room import (
    Demand,
    OffsetRoom,
    Span,
    Stretch,
    feasible_spans,
    room_of_die,
    spans_between_cuts,
)
from bendgen.bending.tooling import OD_AGREES, die_for_bend
from bendgen.bending.wish_changes import other_offset, other_rise
from bendgen.geometry.offset import rise_from_run, rise_of_bends, run_of_bends
from bendgen.geometry.vectors import Array
from bendgen.records.findings import Finding
from bendgen.records.machine import MachineProfile
from bendgen.records.offset import OffsetWish
from bendgen.records.part import Part
from bendgen.records.tooling import DieSet
from bendgen.units import RADIANS_PER_DEGREE

RULE = "offset"
LONGEST = 1e6  # no straight is longer [mm]
HUNDREDTHS = 100.0  # of a degree: as fine as an angle is asked for


def check_offset(part: Part, profile: MachineProfile) -> tuple[Finding, ...]:
    """The limit that an offset breaks, without cures yet; nothing where it fits or the part has none.

    Raises
    ------
    GeometryError, ToolingError    as `plan_part` does
    """
    if part.offset is None or offset_of_part(part, profile) is not None:
        return ()
    return (_Misfit(part, part.offset, profile).finding(),)


def with_offset_cures(
    findings: tuple[Finding, ...], part: Part, profile: MachineProfile, broken_limits: BrokenLimits
) -> tuple[Finding, ...]:
    """The same findings with every change after which the offset fits; first those that leave no other limit."""
    assert part.offset is not None  # only an offset breaks this rule
    cures = tried_cures(_Misfit(part, part.offset, profile).candidates(), RULE, profile, broken_limits)
    return tuple(replace(finding, cures=cures) for finding in findings)


class _Misfit:
    """One wish on one die, and the room that it misses; ranges of angles in degrees, lengths in mm."""

    def __init__(self, part: Part, wish: OffsetWish, profile: MachineProfile) -> None:
        self.part, self.wish, self.profile = part, wish, profile
        self.die: DieSet = die_for_bend(part.tube, profile, named=part.die)
        self.rise = rise_and_first_turn(wish)[0]
        self.room: OffsetRoom = room_of_die(self.die, offset_curves(part, self.die, profile), profile)
        self.asked = asked_room(self.room, wish)
        self.demand = Demand(rise=self.rise, length=wish.length, shortest_end=wish.shortest_end)
        self.free = feasible_spans(self.room, self.demand)
        self.without_ends = feasible_spans(
            replace(self.asked, longest_end=math.inf), replace(self.demand, shortest_end=-math.inf)
        )

    def words(self, length: float) -> str:
        """Length in the unit of the part's file."""
        return in_words(length, self.part.units)

    def finding(self) -> Finding:
        """What is short, with numbers."""
        if self.free:
            return self._choice_to_blame()
        if self.without_ends:
            return self._ends_to_blame(self.without_ends)
        if not self.asked.stretches:
            return remark(RULE, "limit", None, f"die '{self.die.id}' and the machine make no bends{self._with_given()}")
        rises = self.rises(replace(self.demand, shortest_end=-math.inf))
        if not rises:
            text = f"no two bends of die '{self.die.id}' fit into {self.words(self.wish.length)}{self._with_given()}"
            return remark(RULE, "limit", None, text)
        nearest = _nearest(rises, self.rise)
        text = f"die '{self.die.id}' cannot make a rise of {self.words(self.rise)}"
        text += f" in {self.words(self.wish.length)}{self._with_given()}; the nearest is {self.words(nearest)}"
        return limit_in_mm(RULE, None, self.rise, nearest, text)

    def _ends_to_blame(self, spans: list[Span]) -> Finding:
        """The tightest bends leave too little at the ends, or the gentlest ones more than the machine feeds."""
        tight, gentle = (answer_at(self.asked, self.demand, angle) for angle in (spans[-1][1], spans[0][0]))
        shortest, longest = self.wish.shortest_end, self.asked.longest_end
        if tight.front_straight < shortest:
            text = (
                f"two bends of {tight.angle_deg:.2f}° leave {self.words(tight.front_straight)} of straight at either "
            )
            text += f"end; {self.words(shortest)} is asked for"
            return limit_in_mm(RULE, None, tight.front_straight, shortest, text)
        left = max(gentle.front_straight, shortest)
        text = f"at least {self.words(left)} of straight is left at either end; the machine feeds {self.words(longest)}"
        return limit_in_mm(RULE, None, left, longest, text)

    def _choice_to_blame(self) -> Finding:
        """The angle or the straight between lies outside what fits, which a contoured clamp may part in two."""
        wish = self.wish
        if wish.angle_deg is not None:
            ranges = " or ".join(f"from {low:.2f}° to {high:.2f}°" for low, high in self.free)
            text = f"two bends of {wish.angle_deg:g}° do not fit; {ranges} they would"
            return limit_in_deg(RULE, None, wish.angle_deg, _nearest(self.free, wish.angle_deg), text)
        assert wish.between is not None  # without angle and straight, whatever is free fits
        spans = [(self._between(high), self._between(low)) for low, high in self.free]
        ranges = " or ".join(f"from {self.words(shortest)} to {self.words(longest)}" for shortest, longest in spans)
        text = f"a straight between of {self.words(wish.between)} does not fit; {ranges} it would"
        return limit_in_mm(RULE, None, wish.between, _nearest(spans, wish.between), text)

    def _given(self) -> str:
        if self.wish.angle_deg is not None:
            return f"an angle of {self.wish.angle_deg:g}°"
        return "" if self.wish.between is None else f"a straight between of {self.words(self.wish.between)}"

    def _with_given(self) -> str:
        return f" with {self._given()}" if self._given() else ""

    def _between(self, angle_deg: float) -> float:
        return answer_at(self.room, self.demand, angle_deg).between

    def candidates(self) -> Iterator[ChangedPart]:
        """Single changes worth trying."""
        yield from self._choices()
        if self.without_ends:
            yield from self._ends_and_lengths(self.without_ends)
        yield from self._rises()
        for die in self.profile.dies:
            if die.id != self.die.id and abs(die.tube_od - self.part.tube.od) <= OD_AGREES:
                yield other_die(self.part, die.id)

    def _choices(self) -> Iterator[ChangedPart]:
        """The angle or the straight between that comes nearest to the one given."""
        wish, units = self.wish, self.part.units
        for low, high in self.free:
            if wish.angle_deg is not None:
                value = _inside(wish.angle_deg, low, high)
                yield other_offset(self.part, "angle", value, f"bend twice {value:g}°")
            elif wish.between is not None:
                below, above = self._between(low), self._between(high)
                value = rounded_down(below, units) if wish.between > below else rounded_up(above, units)
                yield other_offset(self.part, "between", value, f"straight between of {self.words(value)}")

    def _ends_and_lengths(self, spans: list[Span]) -> Iterator[ChangedPart]:
        """Shorter ends with the same length, or a length that leaves the ends; it may also be too long to feed."""
        units = self.part.units
        tight, gentle = (answer_at(self.asked, self.demand, angle) for angle in (spans[-1][1], spans[0][0]))
        end = rounded_down(tight.front_straight, units)
        if end >= 0.0:
            yield other_offset(self.part, "shortest_end", end, f"leave {self.words(end)} at either end")
        longer = rounded_up(tight.run + 2.0 * self.wish.shortest_end, units)
        if longer > self.wish.length:
            yield other_offset(self.part, "length", longer, f"make the part {self.words(longer)} long")
        if math.isfinite(self.asked.longest_end):
            shorter = rounded_down(gentle.run + 2.0 * self.asked.longest_end, units)
            if self.wish.length > shorter > 0.0:
                yield other_offset(self.part, "length", shorter, f"make the part {self.words(shorter)} long")

    def _rises(self) -> Iterator[ChangedPart]:
        for low, high in self.rises(self.demand):
            yield from other_rise(self.part, low if self.rise < low else high)

    def rises(self, demand: Demand) -> list[Span]:
        """Ranges of rise that fit, of whichever angle."""
        return [span for stretch in self.asked.stretches for span in _rises_of_stretch(self.asked, stretch, demand)]


def _rises_of_stretch(room: OffsetRoom, stretch: Stretch, demand: Demand) -> Iterator[Span]:
    """Ranges of rise that some angle of the stretch can make.

    At one angle the rise grows with the straight between and with the run. Its smallest and its largest value both
    grow with the angle, so over angles that all have room they run from the first one's smallest to the last one's
    largest. Between two such ranges of angles the run is too long even with the shortest straight.
    """
    longest_run = demand.length - 2.0 * max(demand.shortest_end, 0.0)
    shortest_run = demand.length - 2.0 * room.longest_end

    def spare_run(angles_deg: Array) -> Array:
        angles, clr = angles_deg * RADIANS_PER_DEGREE, room.clr(angles_deg)
        above = longest_run - run_of_bends(angles, clr, stretch.shortest)
        below = run_of_bends(angles, clr, min(stretch.longest, LONGEST)) - shortest_run
        return np.stack((above, below), axis=1)

    def rises_at(angle_deg: float) -> Span:
        angles_deg = np.array([angle_deg])
        angle, clr = angles_deg * RADIANS_PER_DEGREE, room.clr(angles_deg)
        smallest, largest = rise_of_bends(angle, clr, stretch.shortest), rise_from_run(longest_run, angle, clr)
        if math.isfinite(stretch.longest):
            largest = np.minimum(largest, rise_of_bends(angle, clr, stretch.longest))
        if math.isfinite(shortest_run):
            smallest = np.maximum(smallest, rise_from_run(shortest_run, angle, clr))
        return float(smallest[0]), float(largest[0])

    for low, high in spans_between_cuts(spare_run, stretch):
        yield rises_at(low)[0], rises_at(high)[1]


def _nearest(spans: list[Span], value: float) -> float:
    """Place within the ranges that lies nearest to a value."""
    places = (min(max(value, low), high) for low, high in spans)
    return min(places, key=lambda place: abs(place - value))


def _inside(angle_deg: float, low: float, high: float) -> float:
    """Angle [deg] within the range, in hundredths where the range has room for them."""
    if angle_deg < low:
        rounded, exact = math.ceil(low * HUNDREDTHS) / HUNDREDTHS, low
    else:
        rounded, exact = math.floor(high * HUNDREDTHS) / HUNDREDTHS, high
    return rounded if low <= rounded <= high else exact
