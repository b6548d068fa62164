"""The most common wish of a small shop: two bends that bring the tube from one axis to another.

Clock positions are those of the whole tool: 0 is up, clockwise positive, seen from the rear end along the tube to the
front, as from the carriage.
"""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class EndOffCentre:
    """An end whose axis lies off the common axis.

    out : distance from the common axis [mm]
    clock_deg : in which direction, as a clock position
    """

    out: float
    clock_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OffsetWish:
    """Two equal and opposite bends between parallel end axes.

    rise : distance between the end axes [mm]; None where `front` and `rear` place the ends
    front, rear : ends off a common axis; None where `rise` is given
    length : finished length along the end axes [mm]
    shortest_end : shortest straight at either end [mm]
    angle_deg, between : at most one: the finished angle [deg], or the straight between the bends [mm]
    prefer : "short" takes the shortest straight between that the clamp allows, "gentle" the smallest angle
    """

    length: float
    shortest_end: float
    rise: float | None = None
    front: EndOffCentre | None = None
    rear: EndOffCentre | None = None
    angle_deg: float | None = None
    between: float | None = None
    prefer: Literal["short", "gentle"] = "short"


@dataclass(frozen=True, slots=True, kw_only=True)
class OffsetAnswer:
    """One pair of bends that fits.

    angle_deg, between : finished angle [deg] and straight between the bends [mm]
    front_straight, rear_straight : straight left at either end [mm]
    run : length of the two bends and the straight between along the end axes [mm]
    """

    angle_deg: float
    between: float
    front_straight: float
    rear_straight: float
    run: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OffsetSolution:
    """An answer to an offset wish, and all the others.

    rise : distance between the end axes [mm]
    answer : the chosen one; for a rise of 0 a straight tube, angle 0
    gentlest, tightest : both ends of the feasible range
    rise_per_tenth_degree : what 0.1° of angle, at both bends, does to the rise [mm]
    front_turns_to_deg, rear_turns_to_deg : clock position to which the tube turns off as it leaves the axis of that
        end; the one is opposite to the other
    die : id of the die set it is solved for
    """

    rise: float
    answer: OffsetAnswer
    gentlest: OffsetAnswer
    tightest: OffsetAnswer
    rise_per_tenth_degree: float
    front_turns_to_deg: float
    rear_turns_to_deg: float
    die: str
