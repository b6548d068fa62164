"""Facts of the trade about offsets, as numbers: common practice, no source. CLR 1.5 × OD is our assumption."""

from dataclasses import replace

import pytest

from bendgen.bending.offset import solve_offset
from bendgen.bending.planning import plan_part
from bendgen.records.machine import BlankLimits
from bendgen.records.offset import OffsetSolution, OffsetWish
from tests.offset_jobs import RigidBender, offset_part, rigid_bender

OD = 76.2
CLR = 1.5 * OD  # our assumption
CLAMP = 190.0


@pytest.fixture
def bender() -> RigidBender:
    return rigid_bender(clr=CLR, clamp=CLAMP, od=OD, resolution_deg=1.0)


def solved(wish: OffsetWish, bender: RigidBender) -> OffsetSolution:
    solution = solve_offset(wish, bender.die, bender.curves, bender.profile)
    assert solution is not None
    return solution


def test_a_small_rise_takes_two_bends_of_seven_degrees(bender: RigidBender) -> None:
    """Common practice, no source: rise 25 within 400 is two bends of 7°, whole degrees, about 90 left at either end."""
    solution = solved(OffsetWish(rise=25.0, length=400.0, shortest_end=0.0), bender)
    assert solution.answer.angle_deg == pytest.approx(7.0, abs=1e-9)
    assert round(solution.tightest.angle_deg) == 7
    assert solution.answer.front_straight == pytest.approx(90.0, abs=5.0)


def test_two_bends_of_eleven_degrees_leave_little_at_the_ends(bender: RigidBender) -> None:
    """Common practice, no source: two bends of 11° within 300 leave 35 to 40 at either end.

    With CLR 1.5 × OD it is 33 to 35. The straight between is as short as the clamp allows.
    """
    wish = OffsetWish(rise=40.0, length=300.0, shortest_end=0.0, between=CLAMP)
    found = solved(wish, bender).answer
    assert round(found.angle_deg) == 11
    assert 33.0 <= found.front_straight <= 35.5
    at_eleven = OffsetWish(rise=40.455, length=300.0, shortest_end=0.0, angle_deg=11.0)
    assert 33.0 <= solved(at_eleven, bender).answer.front_straight <= 35.0


@pytest.mark.parametrize("length", [300.0, 350.0, 400.0])
def test_a_set_up_may_need_a_blank_far_longer_than_the_part(bender: RigidBender, length: float) -> None:
    """Common practice, no source: a blank of 1200 for parts of 300 to 400."""
    long = replace(bender.profile, blank=BlankLimits(shortest=1200.0, longest=6000.0))
    plan = plan_part(offset_part(OffsetWish(rise=25.0, length=length, shortest_end=0.0), od=OD), long)
    assert plan.program is not None
    blank = plan.program.blank
    assert blank.length == pytest.approx(1200.0)
    assert blank.front_trim + blank.rear_trim == pytest.approx(1200.0 - length, abs=2.0)
    assert {mark.end for mark in blank.cut_marks} == {"front", "rear"}
