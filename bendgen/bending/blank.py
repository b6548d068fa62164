"""How long a piece to saw, what of it is trimmed, and where it is cut."""

import math
from dataclasses import dataclass

from bendgen.bending.compensation import Bends
from bendgen.records.bend_program import Blank, CutEnd, CutMark, CutMoment, CutZero
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part

NO_TRIM = 1e-6  # a trim below this is no cut [mm]; also the room left when limits are judged
# mm at the rear; common practice, no source: no saw takes off so little, and no tape shows that it was left.
STAYS_ON = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class BlankPlan:
    """A blank before rounding of any step [mm].

    net : length of tube in the finished part, straights and what the bends use
    front_needed, rear_needed : trims that clamp, mandrel and grip ask for, whether or not they are allowed
    front_trim, rear_trim, length : as they will be sawn
    padded : length added at the rear only to reach the shortest blank or the next saw stop
    """

    net: float
    front_needed: float
    rear_needed: float
    front_trim: float
    rear_trim: float
    length: float
    padded: float


def plan_blank(part: Part, profile: MachineProfile, bends: Bends) -> BlankPlan:
    """Blank with the trims that clamp and grip need, as far as the part allows them."""
    front_needed = max(0.0, front_straight_needed(bends) - bends.straights[0]) if bends.dies else 0.0
    rear_needed = max(0.0, rear_straight_needed(profile) - bends.straights[-1]) if bends.dies else 0.0
    net = float(bends.straights.sum() + bends.used.sum())
    front, padded = _front_trim(part, net, float(front_needed)), 0.0
    if part.blank is not None:
        rear = part.blank - net - front
    else:
        rear, padded = _rear_trim(part, profile, net + front, float(rear_needed))
    return BlankPlan(
        net=net,
        front_needed=float(front_needed),
        rear_needed=float(rear_needed),
        front_trim=front,
        rear_trim=rear,
        length=net + front + rear,
        padded=padded,
    )


def front_straight_needed(bends: Bends) -> float:
    """Straight ahead of the first bend that its clamp and mandrel need [mm]."""
    return max(bends.dies[0].clamp, bends.dies[0].mandrel_ahead or 0.0)


def rear_straight_needed(profile: MachineProfile) -> float:
    """Straight behind the last bend that the collet needs [mm]."""
    carriage = profile.carriage
    if carriage.open_before_last and carriage.last_rear is not None:
        return carriage.last_rear
    return carriage.grip + carriage.closest


def _front_trim(part: Part, net: float, needed: float) -> float:
    """Front trim: as fixed, as needed, or what a fixed blank and a fixed rear trim leave of a part of length `net`.

    A file fixes no blank together with a rear trim, but a part bent from its other end may have both.
    """
    if part.front_trim is not None:
        return part.front_trim
    if part.blank is not None and part.rear_trim is not None:
        return part.blank - net - part.rear_trim
    return needed if part.trim in ("both", "front") else 0.0


def _rear_trim(part: Part, profile: MachineProfile, without: float, needed: float) -> tuple[float, float]:
    """Rear trim, and how much of it only makes the blank long enough or lands it on a saw stop."""
    may_trim = part.trim in ("both", "rear")
    rear = part.rear_trim if part.rear_trim is not None else (needed if may_trim else 0.0)
    if not may_trim:
        return rear, 0.0
    length = sawn_length(max(without + rear, profile.blank.shortest), profile)
    padded = length - without - rear
    return rear + padded, padded


def sawn_length(length: float, profile: MachineProfile) -> float:
    """The same length, or the next one at which the saw can stop [mm]."""
    stop = profile.blank.resolution
    return length if stop is None else math.ceil(length / stop - 1e-9) * stop


def blank_with_marks(plan: BlankPlan, *, rear_straight: float, outer_apex_leg: float | None) -> Blank:
    """Blank and its cuts: the front is marked before bending, the rear is measured on the bent tube.

    Parameters
    ----------
    plan : lengths
    rear_straight : finished straight behind the last bend, or the whole part where nothing is bent [mm]
    outer_apex_leg : from the last outer apex to the rear cut [mm]; None where two straightedges do not meet
    """
    marks = []
    if plan.front_trim > NO_TRIM:
        marks.append(_mark("front", plan.front_trim, "before_bending", "front_end"))
    if plan.rear_trim > STAYS_ON:
        bent = outer_apex_leg is not None or plan.net > rear_straight + NO_TRIM
        marks.append(_mark("rear", rear_straight, "after_bending", "last_bend_end" if bent else "front_cut"))
        if outer_apex_leg is not None:
            marks.append(_mark("rear", outer_apex_leg, "after_bending", "last_outer_apex"))
        marks.append(_mark("rear", plan.rear_trim, "check_only", "rear_end"))
    return Blank(length=plan.length, front_trim=plan.front_trim, rear_trim=plan.rear_trim, cut_marks=tuple(marks))


def _mark(end: CutEnd, distance: float, when: CutMoment, measured_from: CutZero) -> CutMark:
    return CutMark(end=end, distance=distance, when=when, measured_from=measured_from)
