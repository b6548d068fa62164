"""Every offset answer, bent on the independent bender, is the offset asked for; ranges are right at both ends."""

import math
from dataclasses import replace

import numpy as np
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bendgen.bending.blank import STAYS_ON
from bendgen.bending.hands import mirror_part, reverse_part
from bendgen.bending.offset import offset_of_part
from bendgen.bending.planning import plan_part
from bendgen.records.machine import MachineProfile
from bendgen.records.offset import EndOffCentre, OffsetSolution, OffsetWish
from bendgen.records.part import Part
from tests.independent_bender import Keyed, SpringLaw, cut, seen_from_front
from tests.offset_jobs import offset_part
from tests.random_jobs import TUBE, Setting, bender_of, laws, profile_of, settings_of_machines

MADE_WITHIN = 1e-6  # mm
JUST = 1e-4  # deg: inside or outside a range by so much
CLAMP = 40.0


@st.composite
def wishes(draw: st.DrawFn, law: SpringLaw) -> OffsetWish:
    """Offset that fits for certain: made of an angle, a straight between and ends, with or without a choice."""
    angle_deg = draw(st.floats(4.0, 88.0))
    between, end = draw(st.floats(CLAMP, 300.0)), draw(st.floats(0.0, 200.0))
    commanded = angle_deg + law.lost + law.lost_per_degree * angle_deg
    clr = law.released(commanded)[1] / math.radians(angle_deg)
    angle = math.radians(angle_deg)
    rise = 2.0 * clr * (1.0 - math.cos(angle)) + between * math.sin(angle)
    run = 2.0 * clr * math.sin(angle) + between * math.cos(angle)
    wish = OffsetWish(rise=rise, length=run + 2.0 * end + draw(st.floats(0.01, 300.0)), shortest_end=end)
    choices = (
        wish,
        replace(wish, prefer="gentle"),
        replace(wish, angle_deg=angle_deg),
        replace(wish, between=between),
    )
    return draw(st.sampled_from(choices))


@st.composite
def placed(draw: st.DrawFn, wish: OffsetWish) -> OffsetWish:
    """The same rise as ends off a common axis, at any clock position."""
    assert wish.rise is not None
    front = EndOffCentre(out=draw(st.floats(0.0, 100.0)), clock_deg=draw(st.floats(-179.0, 180.0)))
    towards = math.radians(draw(st.floats(-180.0, 180.0)))
    at = math.radians(front.clock_deg)
    right = front.out * math.sin(at) + wish.rise * math.sin(towards)
    up = front.out * math.cos(at) + wish.rise * math.cos(towards)
    rear = EndOffCentre(out=math.hypot(right, up), clock_deg=math.degrees(math.atan2(right, up)))
    return replace(wish, rise=None, front=front, rear=rear)


def profile(setting: Setting, springs: tuple[SpringLaw, ...]) -> MachineProfile:
    made = profile_of(setting, springs)
    return replace(made, dies=tuple(replace(die, clamp=CLAMP) for die in made.dies))


def part(wish: OffsetWish, springs: tuple[SpringLaw, ...]) -> Part:
    return offset_part(wish, od=TUBE.od, die=f"r{springs[0].die_clr:g}")


def solution_of(wish: OffsetWish, machine: MachineProfile, springs: tuple[SpringLaw, ...]) -> OffsetSolution | None:
    return offset_of_part(part(wish, springs), machine)


@given(st.data(), laws(), settings_of_machines())
@settings(max_examples=200, deadline=None)
def test_what_is_bent_has_the_rise_and_the_length_asked_for(
    data: st.DataObject, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    wish = data.draw(wishes(springs[0]))
    rise = wish.rise
    rolling, mirrored, from_rear = (data.draw(st.booleans()) for _ in range(3))
    asked = part(data.draw(placed(wish)) if rolling else wish, springs)
    asked = mirror_part(asked) if mirrored else asked
    asked = reverse_part(asked) if from_rear else asked
    plan = plan_part(asked, profile(setting, springs))
    assert plan.program is not None, plan.findings
    program = plan.program
    table = [Keyed(die=s.die, feed=s.feed, rotation=s.rotation, bend=s.bend) for s in program.machine_steps]
    whole = bender_of(setting, springs).make(table, program.blank.length)
    rear_marks = [mark.distance for mark in program.blank.cut_marks if mark.measured_from == "last_bend_end"]
    made = cut(whole, front=program.blank.front_trim, rear_after_last_bend=rear_marks[0] if rear_marks else None)
    across = made.points[-1] - made.points[0]
    along = float(across @ made.directions[0])
    np.testing.assert_allclose(made.directions[-1], made.directions[0], atol=1e-9)
    assert math.isclose(float(np.linalg.norm(across - along * made.directions[0])), rise or 0.0, abs_tol=MADE_WITHIN)
    left_on = 0.0 if rear_marks else program.blank.rear_trim  # too little to saw off
    assert left_on <= STAYS_ON
    assert math.isclose(along, wish.length + left_on, abs_tol=MADE_WITHIN)
    ends = made.straights()
    assert min(ends[0], ends[-1]) >= wish.shortest_end - MADE_WITHIN
    assert ends[1] >= CLAMP - MADE_WITHIN


@given(st.data(), laws())
@settings(max_examples=200, deadline=None)
def test_just_inside_the_range_fits_and_just_outside_does_not(
    data: st.DataObject, springs: tuple[SpringLaw, ...]
) -> None:
    wish = replace(data.draw(wishes(springs[0])), angle_deg=None, between=None, prefer="short")
    machine = profile(Setting(), springs)
    solution = solution_of(wish, machine, springs)
    assert solution is not None
    low, high = solution.gentlest.angle_deg, solution.tightest.angle_deg
    assume(high - low > 2.0 * JUST)
    for angle_deg, fits in ((low + JUST, True), (low - JUST, False), (high - JUST, True), (high + JUST, False)):
        found = solution_of(replace(wish, angle_deg=angle_deg), machine, springs)
        assert (found is not None) == fits, (angle_deg, low, high)


@given(st.data(), laws())
@settings(max_examples=100, deadline=None)
def test_just_inside_the_range_of_the_straight_between_fits_and_just_outside_does_not(
    data: st.DataObject, springs: tuple[SpringLaw, ...]
) -> None:
    wish = replace(data.draw(wishes(springs[0])), angle_deg=None, between=None, prefer="short")
    machine = profile(Setting(), springs)
    solution = solution_of(wish, machine, springs)
    assert solution is not None
    shortest, longest = solution.tightest.between, solution.gentlest.between
    assume(longest - shortest > 2.0 * JUST)
    for between, fits in (
        (shortest + JUST, True),
        (shortest - JUST, False),
        (longest - JUST, True),
        (longest + JUST, False),
    ):
        found = solution_of(replace(wish, between=between), machine, springs)
        assert (found is not None) == fits, (between, shortest, longest)


@given(st.data(), laws(), st.floats(0.0, 1.0), st.floats(-179.0, 180.0))
@settings(max_examples=100, deadline=None)
def test_ends_in_one_plane_are_the_plane_offset(
    data: st.DataObject, springs: tuple[SpringLaw, ...], share: float, clock_deg: float
) -> None:
    wish = data.draw(wishes(springs[0]))
    assert wish.rise is not None
    machine = profile(Setting(), springs)
    plane = solution_of(wish, machine, springs)
    assert plane is not None
    opposite = replace(
        wish,
        rise=None,
        front=EndOffCentre(out=share * wish.rise, clock_deg=clock_deg),
        rear=EndOffCentre(out=(1.0 - share) * wish.rise, clock_deg=clock_deg + 180.0),
    )
    same_side = replace(
        wish,
        rise=None,
        front=EndOffCentre(out=share * 100.0 + wish.rise, clock_deg=clock_deg),
        rear=EndOffCentre(out=share * 100.0, clock_deg=clock_deg),
    )
    for placed_ends in (opposite, same_side):
        solution = solution_of(placed_ends, machine, springs)
        assert solution is not None
        for ours, theirs in ((solution.answer, plane.answer), (solution.gentlest, plane.gentlest)):
            assert math.isclose(ours.angle_deg, theirs.angle_deg, abs_tol=1e-6)
            assert math.isclose(ours.between, theirs.between, abs_tol=1e-5)
        # The front end lies towards the clock position, so the tube leaves its axis to the opposite side.
        assert abs(math.remainder(solution.front_turns_to_deg - clock_deg - 180.0, 360.0)) < 1e-6


@given(st.data(), laws())
@settings(max_examples=50, deadline=None)
def test_hands_and_ends_bend_the_same_tube(data: st.DataObject, springs: tuple[SpringLaw, ...]) -> None:
    asked = part(data.draw(placed(data.draw(wishes(springs[0])))), springs)
    machine = profile(Setting(), springs)
    shapes = []
    for variant in (asked, mirror_part(asked), reverse_part(asked)):
        plan = plan_part(variant, machine)
        assert plan.program is not None, plan.findings
        assert plan.program.wanted.vertices is not None
        shapes.append(seen_from_front(np.array(plan.program.wanted.vertices)))
    for shape in shapes[1:]:
        np.testing.assert_allclose(shape, shapes[0], atol=1e-6)
