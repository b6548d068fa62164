"""The offset solver: which offset it chooses, what it refuses, and where it puts the tube."""

import math
from dataclasses import replace

import numpy as np
import pytest

from bendgen.bending.hands import mirror_part, reverse_part
from bendgen.bending.offset import centreline_of_offset, offset_of_part, solve_offset
from bendgen.bending.planning import plan_part
from bendgen.errors import GeometryError
from bendgen.records.machine import FeedAxis, MachineProfile
from bendgen.records.offset import EndOffCentre, OffsetSolution, OffsetWish
from bendgen.records.part import Part
from bendgen.records.tooling import ContourClamp
from tests.offset_jobs import RigidBender, offset_part, rigid_bender

JOG = OffsetWish(rise=40.0, length=520.0, shortest_end=60.0)
CLAMP = 110.0


@pytest.fixture
def bender() -> RigidBender:
    return rigid_bender(clr=100.0, clamp=CLAMP)


def solved(wish: OffsetWish, bender: RigidBender) -> OffsetSolution | None:
    return solve_offset(wish, bender.die, bender.curves, bender.profile)


def some(wish: OffsetWish, bender: RigidBender) -> OffsetSolution:
    solution = solved(wish, bender)
    assert solution is not None
    return solution


def rise_of(angle_deg: float, between: float, clr: float) -> float:
    angle = math.radians(angle_deg)
    return 2.0 * clr * (1.0 - math.cos(angle)) + between * math.sin(angle)


def run_of(angle_deg: float, between: float, clr: float) -> float:
    angle = math.radians(angle_deg)
    return 2.0 * clr * math.sin(angle) + between * math.cos(angle)


# ---- the choice ----


def test_the_tightest_leaves_the_clamp_its_straight_and_the_gentlest_the_ends_theirs(bender: RigidBender) -> None:
    solution = some(JOG, bender)
    assert solution.tightest.between == pytest.approx(CLAMP)
    assert solution.gentlest.front_straight == solution.gentlest.rear_straight == pytest.approx(60.0)
    for answer in (solution.answer, solution.gentlest, solution.tightest):
        assert rise_of(answer.angle_deg, answer.between, 100.0) == pytest.approx(40.0)
        assert run_of(answer.angle_deg, answer.between, 100.0) == pytest.approx(answer.run)
        assert answer.front_straight + answer.run + answer.rear_straight == pytest.approx(520.0)


def test_by_default_the_largest_whole_step_of_the_bend_that_the_clamp_allows(bender: RigidBender) -> None:
    solution = some(JOG, bender)
    tenths = solution.answer.angle_deg / 0.1
    assert tenths == pytest.approx(round(tenths))
    assert 0.0 <= solution.tightest.angle_deg - solution.answer.angle_deg < 0.1
    assert solution.answer.between >= CLAMP


def test_gentle_is_the_smallest_whole_step_that_leaves_the_ends(bender: RigidBender) -> None:
    solution = some(replace(JOG, prefer="gentle"), bender)
    tenths = solution.answer.angle_deg / 0.1
    assert tenths == pytest.approx(round(tenths))
    assert 0.0 <= solution.answer.angle_deg - solution.gentlest.angle_deg < 0.1
    assert solution.answer.front_straight >= 60.0


def test_springback_is_in_the_formed_radius_and_in_the_whole_step(metric_profile: MachineProfile) -> None:
    part = offset_part(JOG, od=50.0)
    plan = plan_part(part, metric_profile)
    assert plan.program is not None
    solution, step = plan.program.offset, plan.program.steps[0]
    assert solution is not None
    assert step.bend_deg / 0.1 == pytest.approx(round(step.bend_deg / 0.1))
    formed = 100.0 * step.bend_deg / step.finished_angle_deg
    assert formed > 100.5
    assert rise_of(step.finished_angle_deg, solution.answer.between, formed) == pytest.approx(40.0)
    assert solution.answer.angle_deg == pytest.approx(step.finished_angle_deg)


def test_a_given_angle(bender: RigidBender) -> None:
    answer = some(replace(JOG, angle_deg=12.0), bender).answer
    assert answer.angle_deg == 12.0
    assert rise_of(12.0, answer.between, 100.0) == pytest.approx(40.0)


def test_a_given_straight_between(bender: RigidBender) -> None:
    answer = some(replace(JOG, between=150.0), bender).answer
    assert answer.between == pytest.approx(150.0, abs=1e-9)
    assert rise_of(answer.angle_deg, 150.0, 100.0) == pytest.approx(40.0)


@pytest.mark.parametrize("prefer", ["short", "gentle"])
def test_where_no_whole_step_fits_the_exact_end_is_taken(prefer: str) -> None:
    coarse = rigid_bender(clr=100.0, clamp=CLAMP, resolution_deg=7.0)
    wish = OffsetWish(rise=40.0, length=320.0, shortest_end=70.0)
    solution = some(replace(wish, prefer="gentle") if prefer == "gentle" else wish, coarse)
    assert 14.0 < solution.gentlest.angle_deg < solution.tightest.angle_deg < 21.0
    assert solution.answer == (solution.gentlest if prefer == "gentle" else solution.tightest)


def test_what_a_tenth_of_a_degree_does(bender: RigidBender) -> None:
    solution = some(JOG, bender)
    angle, between = solution.answer.angle_deg, solution.answer.between
    both_ways = rise_of(angle + 0.05, between, 100.0) - rise_of(angle - 0.05, between, 100.0)
    assert solution.rise_per_tenth_degree == pytest.approx(both_ways, rel=1e-6)


# ---- what die and machine allow ----


def test_mandrel_and_smallest_feed_need_their_straight_too(bender: RigidBender) -> None:
    for die, profile, needed in (
        (replace(bender.die, mandrel_ahead=140.0), bender.profile, 140.0),
        (bender.die, replace(bender.profile, feed=FeedAxis(resolution=0.1, repeatability=0.1, smallest=125.0)), 125.0),
    ):
        solution = solve_offset(JOG, die, bender.curves, profile)
        assert solution is not None
        assert solution.tightest.between == pytest.approx(needed)


def test_the_largest_feed_bounds_the_straight_between_and_the_ends(bender: RigidBender) -> None:
    feed = FeedAxis(resolution=0.1, repeatability=0.1, largest=170.0)
    solution = solve_offset(JOG, bender.die, bender.curves, replace(bender.profile, feed=feed))
    assert solution is not None
    assert solution.gentlest.between == pytest.approx(170.0)
    assert solution.tightest.front_straight == pytest.approx(170.0)


@pytest.mark.parametrize(
    ("die", "tightest"),
    [
        ({"largest_bend_deg": 12.0}, 12.0),
        ({"pressure_travel": 100.0 * math.radians(11.0)}, 11.0),
        ({"smallest_bend_deg": 9.0, "largest_bend_deg": 14.5}, 14.5),
    ],
)
def test_angles_of_the_die(bender: RigidBender, die: dict[str, float], tightest: float) -> None:
    made = replace(bender.die, **die)  # type: ignore[arg-type]
    solution = solve_offset(JOG, made, bender.curves, bender.profile)
    assert solution is not None
    assert solution.tightest.angle_deg == pytest.approx(tightest)
    without = some(JOG, bender).gentlest.angle_deg
    assert solution.gentlest.angle_deg == pytest.approx(max(die.get("smallest_bend_deg", 0.0), without))


def test_a_rise_without_limit_takes_bends_of_90_degrees(bender: RigidBender) -> None:
    solution = some(OffsetWish(rise=400.0, length=600.0, shortest_end=60.0), bender)
    assert solution.tightest.angle_deg == pytest.approx(90.0)
    assert solution.tightest.between == pytest.approx(200.0)


def test_at_most_15_degrees_beyond_the_table(metric_profile: MachineProfile) -> None:
    table = replace(metric_profile.tables[0], rows=metric_profile.tables[0].rows[:2])
    part = offset_part(OffsetWish(rise=500.0, length=900.0, shortest_end=60.0), od=50.0)
    solution = offset_of_part(part, replace(metric_profile, tables=(table,)))
    assert solution is not None
    assert solution.tightest.angle_deg == pytest.approx(75.0)


def test_a_contoured_clamp_allows_a_shorter_straight_behind_the_bends_it_is_cut_for(bender: RigidBender) -> None:
    contour = ContourClamp(shortest_between=12.0, before_angle_deg=(20.0, 24.0), rotation_deg=(180.0,))
    wish = OffsetWish(rise=30.0, length=300.0, shortest_end=60.0)
    plain = some(wish, bender)
    fitted = solve_offset(wish, replace(bender.die, contour=contour), bender.curves, bender.profile)
    assert fitted is not None
    assert plain.tightest.angle_deg < 15.0
    assert fitted.tightest.angle_deg == pytest.approx(24.0)
    assert fitted.tightest.between < CLAMP
    assert fitted.gentlest == plain.gentlest
    for angle_deg, fits in ((19.9, False), (20.1, True), (23.9, True), (24.1, False)):
        found = solve_offset(
            replace(wish, angle_deg=angle_deg), replace(bender.die, contour=contour), bender.curves, bender.profile
        )
        assert (found is not None) == fits


def test_a_contoured_clamp_for_another_rotation_is_no_help(bender: RigidBender) -> None:
    contour = ContourClamp(shortest_between=12.0, before_angle_deg=(5.0, 90.0), rotation_deg=(0.0,))
    fitted = solve_offset(JOG, replace(bender.die, contour=contour), bender.curves, bender.profile)
    assert fitted == some(JOG, bender)


# ---- edges ----


@pytest.mark.parametrize(
    "wish",
    [
        OffsetWish(rise=0.0, length=520.0, shortest_end=60.0),
        OffsetWish(
            front=EndOffCentre(out=25.0, clock_deg=70.0),
            rear=EndOffCentre(out=25.0, clock_deg=70.0),
            length=520.0,
            shortest_end=60.0,
        ),
        OffsetWish(
            front=EndOffCentre(out=25.0, clock_deg=180.0),
            rear=EndOffCentre(out=25.0, clock_deg=-180.0),
            length=520.0,
            shortest_end=60.0,
        ),
    ],
)
def test_ends_in_line_are_a_straight_tube(bender: RigidBender, wish: OffsetWish) -> None:
    solution = some(wish, bender)
    assert (solution.rise, solution.answer.angle_deg, solution.answer.run) == (0.0, 0.0, 0.0)
    assert solution.answer == solution.gentlest == solution.tightest
    plan = plan_part(offset_part(wish), bender.profile)
    assert plan.program is not None
    assert plan.program.steps == ()
    assert plan.program.finished.straights == pytest.approx((520.0,))


@pytest.mark.parametrize(("choice", "key"), [({"angle_deg": 12.0}, "angle"), ({"between": 100.0}, "between")])
def test_ends_in_line_take_no_angle(bender: RigidBender, choice: dict[str, float], key: str) -> None:
    wish = OffsetWish(rise=0.0, length=520.0, shortest_end=60.0)
    with pytest.raises(GeometryError) as error:
        solved(replace(wish, **choice), bender)  # type: ignore[arg-type]
    assert str(error.value) == f"both ends of the offset are in line, which takes no bend: leave out '{key}'"


@pytest.mark.parametrize(
    "wish",
    [
        OffsetWish(rise=40.0, length=200.0, shortest_end=60.0),
        OffsetWish(rise=40.0, length=520.0, shortest_end=300.0),
        OffsetWish(rise=0.01, length=520.0, shortest_end=60.0),
        OffsetWish(rise=40.0, length=520.0, shortest_end=60.0, angle_deg=40.0),
        OffsetWish(rise=40.0, length=520.0, shortest_end=60.0, angle_deg=3.0),
        OffsetWish(rise=40.0, length=520.0, shortest_end=60.0, between=100.0),
        OffsetWish(rise=40.0, length=520.0, shortest_end=60.0, between=450.0),
    ],
)
def test_what_does_not_fit(bender: RigidBender, wish: OffsetWish) -> None:
    assert solved(wish, bender) is None


def test_a_rise_larger_than_the_length_can_fit(bender: RigidBender) -> None:
    assert some(OffsetWish(rise=900.0, length=400.0, shortest_end=60.0), bender).answer.between > CLAMP


def test_exactly_enough_room_is_enough(bender: RigidBender) -> None:
    tightest = some(JOG, bender).tightest
    solution = some(replace(JOG, length=tightest.run + 120.0), bender)
    assert solution.gentlest.angle_deg == pytest.approx(solution.tightest.angle_deg)
    assert solution.answer.angle_deg == pytest.approx(tightest.angle_deg)


def test_clock_180_is_minus_180(bender: RigidBender) -> None:
    def turns(clock_deg: float) -> tuple[float, float, float]:
        wish = OffsetWish(
            front=EndOffCentre(out=10.0, clock_deg=0.0),
            rear=EndOffCentre(out=30.0, clock_deg=clock_deg),
            length=520.0,
            shortest_end=60.0,
        )
        solution = some(wish, bender)
        return solution.rise, solution.front_turns_to_deg, solution.rear_turns_to_deg

    assert turns(180.0) == pytest.approx(turns(-180.0))
    assert turns(180.0) == pytest.approx((40.0, 180.0, 0.0))


# ---- where the tube lies ----

ROLLING = OffsetWish(
    front=EndOffCentre(out=20.0, clock_deg=0.0),
    rear=EndOffCentre(out=30.0, clock_deg=90.0),
    length=520.0,
    shortest_end=60.0,
)


def points(part: Part, bender: RigidBender) -> np.ndarray:
    solution = offset_of_part(part, bender.profile)
    assert solution is not None
    assert part.offset is not None
    return np.array([(v.x, v.y, v.z) for v in centreline_of_offset(part.offset, solution).vertices])


def test_three_oclock_is_to_the_right_of_somebody_who_looks_from_rear_to_front(bender: RigidBender) -> None:
    vertices = points(offset_part(ROLLING), bender)
    np.testing.assert_allclose(vertices[0], (0.0, 0.0, 20.0), atol=1e-12)
    np.testing.assert_allclose(vertices[-1], (520.0, 30.0, 0.0), atol=1e-12)


def test_the_tube_turns_off_where_the_solution_says(bender: RigidBender) -> None:
    solution = some(ROLLING, bender)
    vertices = points(offset_part(ROLLING), bender)
    leaves = vertices[2, 1:] - vertices[1, 1:]
    for clock_deg, direction in ((solution.front_turns_to_deg, leaves), (solution.rear_turns_to_deg, -leaves)):
        clock = math.radians(clock_deg)
        seen = np.array([math.sin(clock), math.cos(clock)])
        np.testing.assert_allclose(direction / np.linalg.norm(direction), seen, atol=1e-12)


def test_a_mirrored_offset_is_the_mirror_image(bender: RigidBender) -> None:
    ours = points(offset_part(ROLLING), bender)
    theirs = points(mirror_part(offset_part(ROLLING)), bender)
    np.testing.assert_allclose(theirs, ours * (1.0, -1.0, 1.0), atol=1e-12)
    assert mirror_part(mirror_part(offset_part(ROLLING))) == offset_part(ROLLING)


def test_a_reversed_offset_is_the_same_tube_seen_from_its_other_end(bender: RigidBender) -> None:
    ours = points(offset_part(ROLLING), bender)
    theirs = points(reverse_part(offset_part(ROLLING)), bender)
    half_turn_about_up = (-1.0, -1.0, 1.0)
    np.testing.assert_allclose(theirs, (ours * half_turn_about_up + (520.0, 0.0, 0.0))[::-1], atol=1e-9)
    assert reverse_part(reverse_part(offset_part(ROLLING))) == offset_part(ROLLING)


def test_a_mirrored_rise_is_still_that_rise(bender: RigidBender) -> None:
    plan = plan_part(mirror_part(offset_part(JOG)), bender.profile)
    assert plan.program is not None
    assert plan.program.offset is not None
    assert plan.program.offset.rise == 40.0
    assert plan.program.part.mirrored


def test_a_part_longer_than_the_blank_is_a_limit_of_the_blank(bender: RigidBender) -> None:
    short = replace(bender.profile, blank=replace(bender.profile.blank, longest=500.0))
    plan = plan_part(offset_part(JOG), short)
    assert plan.program is None
    assert [finding.rule for finding in plan.findings if finding.level == "limit"] == ["blank"]


def test_a_contoured_clamp_within_the_range_of_the_plain_one_parts_nothing(bender: RigidBender) -> None:
    contour = ContourClamp(shortest_between=12.0, before_angle_deg=(8.0, 12.0), rotation_deg=(180.0,))
    fitted = solve_offset(JOG, replace(bender.die, contour=contour), bender.curves, bender.profile)
    assert fitted == some(JOG, bender)
