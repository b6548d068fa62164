"""The offset solved: the angle, the straight between and what is left at the ends, with the formed radius in it.

The part's own frame: the common axis of the ends, from the front end to the rear end, is +x, and up is +z. A clock
position is seen from the rear end, against +x, so 90° (three o'clock) points towards +y. An offset given by its rise
alone has the front end's axis on the common axis and the rear end's above it.
"""

from dataclasses import replace
from functools import lru_cache

import numpy as np

from bendgen.bending.allowances import AllowanceCurves, allowances_at, finished_angles
from bendgen.bending.corrected_plan import corrected_offset_curves
from bendgen.bending.die_curves import table_and_curves
from bendgen.bending.offset_room import Demand, OffsetRoom, Span, feasible_spans, room_of_die
from bendgen.bending.tooling import die_for_bend
from bendgen.errors import GeometryError
from bendgen.geometry.offset import (
    between_from_rise,
    clock_direction,
    clock_from_direction,
    rise_per_radian,
    run_from_rise,
)
from bendgen.geometry.vectors import Array
from bendgen.records.machine import MachineProfile
from bendgen.records.offset import EndOffCentre, OffsetAnswer, OffsetSolution, OffsetWish
from bendgen.records.part import Centreline, Part, Vertex
from bendgen.records.tooling import DieSet
from bendgen.units import DEGREES_PER_RADIAN, RADIANS_PER_DEGREE, within_half_turn

IN_LINE = 1e-6  # end axes this close are one [mm]
GRID_NOISE = 1e-9  # share of a step of the bend's resolution


def offset_of_part(part: Part, profile: MachineProfile) -> OffsetSolution | None:
    """Solution of the part's offset on its die; None where it asks for none, or nothing fits."""
    if part.offset is None:
        return None
    die = die_for_bend(part.tube, profile, named=part.die)
    return solve_offset(part.offset, die, offset_curves(part, die, profile), profile)


def offset_curves(part: Part, die: DieSet, profile: MachineProfile) -> AllowanceCurves:
    """What both bends of the part's offset do on that die, with what a measured piece taught."""
    return corrected_offset_curves(table_and_curves(part.tube, die, profile)[1], part.correction)


@lru_cache(maxsize=256)
def solve_offset(
    wish: OffsetWish, die: DieSet, curves: AllowanceCurves, profile: MachineProfile
) -> OffsetSolution | None:
    """Answer to a wish and the range it was chosen from; None where nothing fits.

    Raises
    ------
    GeometryError
        ends in line with an angle or a straight between: a straight tube has neither
    """
    rise, front_turns_to_deg = rise_and_first_turn(wish)
    if rise <= IN_LINE:
        return _straight_tube(wish, die)
    room = room_of_die(die, curves, profile)
    demand = Demand(rise=rise, length=wish.length, shortest_end=wish.shortest_end)
    spans = feasible_spans(room, demand)
    chosen = _chosen_angle(wish, room, demand, profile.bend.resolution_deg)
    if chosen is None or not spans:
        return None
    answer = answer_at(room, demand, chosen)
    angle, clr = _as_arrays(room, chosen)
    return OffsetSolution(
        rise=rise,
        answer=answer,
        gentlest=answer_at(room, demand, spans[0][0]),
        tightest=answer_at(room, demand, spans[-1][1]),
        rise_per_tenth_degree=float(rise_per_radian(angle, clr, answer.between)[0]) * 0.1 * RADIANS_PER_DEGREE,
        front_turns_to_deg=front_turns_to_deg,
        rear_turns_to_deg=within_half_turn(front_turns_to_deg + 180.0),
        die=die.id,
    )


def asked_room(room: OffsetRoom, wish: OffsetWish) -> OffsetRoom:
    """Room that the wish leaves where it fixes the angle or the straight between."""
    if wish.angle_deg is not None:
        return room.with_angle(wish.angle_deg)
    return room if wish.between is None else room.with_between(wish.between)


def answer_at(room: OffsetRoom, demand: Demand, angle_deg: float) -> OffsetAnswer:
    """Offset with that finished angle: the rest of the length is shared by both ends."""
    angle, clr = _as_arrays(room, angle_deg)
    run = float(run_from_rise(demand.rise, angle, clr)[0])
    end = 0.5 * (demand.length - run)
    return OffsetAnswer(
        angle_deg=angle_deg,
        between=float(between_from_rise(demand.rise, angle, clr)[0]),
        front_straight=end,
        rear_straight=end,
        run=run,
    )


def _as_arrays(room: OffsetRoom, angle_deg: float) -> tuple[Array, Array]:
    """Angle [rad] and formed radius [mm], (1,) arrays."""
    angles_deg = np.array([angle_deg])
    return angles_deg * RADIANS_PER_DEGREE, room.clr(angles_deg)


def _chosen_angle(wish: OffsetWish, room: OffsetRoom, demand: Demand, resolution_deg: float) -> float | None:
    """Finished angle [deg]: the one asked for, else the one nearest the preferred end that the machine can be told."""
    spans = feasible_spans(asked_room(room, wish), demand)
    if not spans:
        return None
    gentle = wish.prefer == "gentle"
    exact = spans[0][0] if gentle else spans[-1][1]
    if wish.angle_deg is not None or wish.between is not None:
        return exact
    for span in spans if gentle else reversed(spans):
        told = _on_grid(room.curves, span, resolution_deg, gentle=gentle)
        if told is not None:
            return told
    return exact


def _on_grid(curves: AllowanceCurves, span: Span, resolution_deg: float, *, gentle: bool) -> float | None:
    """Finished angle in `span` whose command is a whole step of the machine: the smallest if gentle, or the largest."""
    ends = np.array(span)
    low, high = ((ends + allowances_at(curves, ends).springback_deg) / resolution_deg).tolist()
    first, last = np.ceil(low - GRID_NOISE), np.floor(high + GRID_NOISE)
    if first > last:
        return None
    commanded = np.array([(first if gentle else last) * resolution_deg])
    return float(np.clip(finished_angles(curves, commanded), *span)[0])


def rise_and_first_turn(wish: OffsetWish) -> tuple[float, float]:
    """Distance between the end axes [mm]; clock position to which the front end's straight turns off [deg]."""
    front, rear = end_axes(wish)
    y, z = rear[0] - front[0], rear[1] - front[1]
    rise = float(np.hypot(y, z))
    return rise, clock_from_direction(y, z) * DEGREES_PER_RADIAN if rise > IN_LINE else 0.0


def end_axes(wish: OffsetWish) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where the axes of the front and the rear end lie across the common axis, (y, z) [mm]."""
    if wish.rise is not None:
        return (0.0, 0.0), (0.0, wish.rise)
    assert wish.front is not None  # without a rise there are both: the reader makes sure of it
    assert wish.rear is not None
    return _off_centre(wish.front), _off_centre(wish.rear)


def _off_centre(end: EndOffCentre) -> tuple[float, float]:
    y, z = clock_direction(end.clock_deg * RADIANS_PER_DEGREE)
    return end.out * y, end.out * z


def _straight_tube(wish: OffsetWish, die: DieSet) -> OffsetSolution:
    given = "angle" if wish.angle_deg is not None else "between" if wish.between is not None else None
    if given is not None:
        raise GeometryError(f"both ends of the offset are in line, which takes no bend: leave out '{given}'")
    half = 0.5 * wish.length
    answer = OffsetAnswer(angle_deg=0.0, between=0.0, front_straight=half, rear_straight=half, run=0.0)
    return OffsetSolution(
        rise=0.0,
        answer=answer,
        gentlest=answer,
        tightest=answer,
        rise_per_tenth_degree=0.0,
        front_turns_to_deg=0.0,
        rear_turns_to_deg=180.0,
        die=die.id,
    )


def centreline_of_offset(wish: OffsetWish, solution: OffsetSolution) -> Centreline:
    """Path of a solved offset: both ends and the vertices of both bends; two ends only where they are in line."""
    front, rear = end_axes(wish)
    answer = solution.answer
    inner: tuple[Vertex, ...] = ()
    if answer.angle_deg > 0.0:
        along = solution.rise / np.tan(answer.angle_deg * RADIANS_PER_DEGREE)  # from vertex to vertex
        tangent = 0.5 * (answer.run - along)
        inner = (
            _vertex(answer.front_straight + tangent, front),
            _vertex(wish.length - answer.rear_straight - tangent, rear),
        )
    return Centreline(vertices=(_vertex(0.0, front), *inner, _vertex(wish.length, rear if inner else front)))


def with_path(part: Part, solution: OffsetSolution | None) -> Part:
    """Part whose solved offset is a centreline, to be laid out; any other part as it is."""
    if part.offset is None or solution is None:
        return part
    return replace(part, centreline=centreline_of_offset(part.offset, solution))


def _vertex(x: float, across: tuple[float, float]) -> Vertex:
    return Vertex(x=float(x), y=across[0], z=across[1])
