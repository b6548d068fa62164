"""Offsets of a tube without springback against tables and worked layouts from outside.

"derived" values are mathematics done elsewhere; "seen" ones were read in a trade page and are given there with few
digits. The tolerance is half a unit of the last printed digit, unless a reason is written beside it.
"""

import math

import numpy as np
import pytest

from bendgen.bending.offset import solve_offset
from bendgen.geometry.offset import rise_of_bends
from bendgen.records.offset import EndOffCentre, OffsetSolution, OffsetWish
from tests.offset_jobs import rigid_bender

INCH = 25.4


def solved(wish: OffsetWish, clr: float) -> OffsetSolution:
    bender = rigid_bender(clr=clr)
    solution = solve_offset(wish, bender.die, bender.curves, bender.profile)
    assert solution is not None
    return solution


def at_angle(rise: float, angle_deg: float, clr: float) -> OffsetSolution:
    return solved(OffsetWish(rise=rise, length=1e5, shortest_end=0.0, angle_deg=angle_deg), clr)


@pytest.mark.parametrize(
    ("asked", "printed"),
    [
        ((100.0, 30.0, 76.2), (20.41773, 159.16454, 39.89823, 214.04054, 238.96100, 20.41773)),
        ((50.0, 22.5, 57.15), (11.36784, 107.92061, 22.44275, 143.44636, 152.80612, 8.70057)),
        ((150.0, 45.0, 101.6), (42.08410, 127.96384, 79.79645, 234.16820, 287.55675, 59.51590)),
        ((120.0, 60.0, 80.0), (46.18802, 46.18802, 83.77580, 161.65808, 213.73963, 80.00000)),
    ],
)
def test_offsets_with_a_real_radius(asked: tuple[float, float, float], printed: tuple[float, ...]) -> None:
    """Derived; asserted to 1e-4. The run is from the first bend's start to the second one's end."""
    rise, angle_deg, clr = asked
    tangent, between, arc, run, length, rise_at_zero = printed
    answer = at_angle(rise, angle_deg, clr).answer
    angle = math.radians(angle_deg)
    assert answer.between == pytest.approx(between, abs=1e-4)
    assert answer.run == pytest.approx(run, abs=1e-4)
    assert answer.run - rise / math.tan(angle) == pytest.approx(2.0 * tangent, abs=1e-4)
    assert answer.between + 2.0 * clr * angle == pytest.approx(length, abs=1e-4)
    assert clr * angle == pytest.approx(arc, abs=1e-4)
    at_zero = solved(OffsetWish(rise=rise_at_zero, length=1e5, shortest_end=0.0, between=0.0), clr).answer
    assert at_zero.angle_deg == pytest.approx(angle_deg, abs=1e-4)


@pytest.mark.parametrize(
    ("angle_deg", "multiplier", "trade_multiplier", "shrink", "trade_shrink"),
    [
        (10.0, 5.758770, 6.0, 0.087489, 1 / 16),
        (15.0, 3.863703, 3.9, 0.131652, 1 / 8),
        (22.5, 2.613126, 2.6, 0.198912, 3 / 16),
        (30.0, 2.000000, 2.0, 0.267949, 1 / 4),
        (45.0, 1.414214, 1.4, 0.414214, 3 / 8),
        (60.0, 1.154701, 1.2, 0.577350, 1 / 2),
    ],
)
def test_travel_and_shrink_between_vertices(
    angle_deg: float, multiplier: float, trade_multiplier: float, shrink: float, trade_shrink: float
) -> None:
    """Exact columns derived. Trade columns seen in electricians' conduit tables reprinted in several trade pages.

    The trade rounds to fractions of an inch, so its columns are bounds only: 4.3 % and 0.08 per unit of rise.
    """
    clr, rise = 1.0, 100.0
    answer = at_angle(rise, angle_deg, clr).answer
    tangent = clr * math.tan(math.radians(angle_deg) / 2.0)
    travel, along = answer.between + 2.0 * tangent, answer.run - 2.0 * tangent
    assert travel / rise == pytest.approx(multiplier, abs=5e-7)
    assert (travel - along) / rise == pytest.approx(shrink, abs=5e-7)
    assert travel / rise == pytest.approx(trade_multiplier, rel=0.043)
    assert (travel - along) / rise == pytest.approx(trade_shrink, abs=0.08)


@pytest.mark.parametrize(
    ("angle_deg", "multiplier"), [(1.0, 57.30), (5.0, 11.47), (25.0, 2.37), (26.0, 2.28), (28.0, 2.13), (35.0, 1.74)]
)
def test_multipliers_of_a_pocket_reference(angle_deg: float, multiplier: float) -> None:
    """Seen in an electrician's pocket reference, a list by the degree."""
    answer = at_angle(100.0, angle_deg, 1.0).answer
    travel = answer.between + 2.0 * math.tan(math.radians(angle_deg) / 2.0)
    assert travel / 100.0 == pytest.approx(multiplier, abs=0.005)


def test_rolling_offset_of_an_apprentices_page() -> None:
    """Seen, an apprentice's worked page: rise 30 5/8 in, roll 17 5/8 in; the roll angle is derived.

    ERRATA: the travel at 45°, printed as 49.9706104, is 49.9706164: the page's own offset times the root of 2.
    """
    rolling = OffsetWish(
        front=EndOffCentre(out=30.625 * INCH, clock_deg=0.0),
        rear=EndOffCentre(out=17.625 * INCH, clock_deg=90.0),
        length=1e5,
        shortest_end=0.0,
        angle_deg=45.0,
    )
    solution = solved(rolling, 100.0)
    travel = solution.answer.between + 200.0 * math.tan(math.radians(22.5))
    assert solution.rise / INCH == pytest.approx(35.334561692, abs=5e-10)
    assert travel / INCH == pytest.approx(35.334561692 * math.sqrt(2.0), abs=5e-9)
    assert travel / INCH == pytest.approx(49.9706104, abs=1e-5)
    # From a front axis that lies up to a rear axis that lies to the right, the tube leaves downwards and to the right.
    assert 180.0 - solution.front_turns_to_deg == pytest.approx(29.920866, abs=5e-7)


def test_a_60_degree_layout_of_a_plumbers_page() -> None:
    """Seen, a plumbing layout page: 12 in with 60° fittings, run 6.9288 in, travel 13.8564 in.

    ERRATA: both were multiplied out from rounded factors, 0.5774 and 1.1547; exact are 6.92820 and 13.85641.
    """
    answer = at_angle(12.0 * INCH, 60.0, 1.0).answer
    twice_tangent = 2.0 * math.tan(math.radians(30.0))
    assert (answer.run - twice_tangent) / INCH == pytest.approx(6.9288, abs=12.0 * 5e-5 + 5e-5)
    assert (answer.between + twice_tangent) / INCH == pytest.approx(13.8564, abs=5e-5)


def test_a_rolling_offset_between_given_end_axes() -> None:
    """A user's problem reduced to numbers, computed twice elsewhere: from (0, 0, 0) to (300, 200, 100), R 60."""
    y, z = 200.0, 100.0
    wish = OffsetWish(
        front=EndOffCentre(out=0.0, clock_deg=0.0),
        rear=EndOffCentre(out=math.hypot(y, z), clock_deg=math.degrees(math.atan2(y, z))),
        length=300.0,
        shortest_end=0.0,
    )
    solution = solved(wish, 60.0)
    fullest = solution.gentlest  # no straight is left at the ends
    assert solution.rise == pytest.approx(223.60680, abs=5e-6)
    assert 90.0 - solution.front_turns_to_deg == pytest.approx(26.56505, abs=5e-6)  # counted from +y towards +z
    assert fullest.angle_deg == pytest.approx(41.26793, abs=5e-6)
    assert fullest.between == pytest.approx(293.82711, abs=5e-6)
    assert fullest.front_straight == pytest.approx(0.0, abs=1e-9)
    developed = fullest.between + 2.0 * 60.0 * math.radians(fullest.angle_deg)
    assert developed == pytest.approx(380.25846, abs=5e-6)


@pytest.mark.parametrize(
    ("rise", "angle_deg", "clr", "start_to_start", "between"),
    [
        (4.0, 30.0, 4.0, 7.9508, 5.8564),
        (4.0, 30.0, 6.0, 7.9262, 4.7846),
        (6.0, 45.0, 6.0, 8.2271, 3.5147),
        (6.0, 60.0, 6.0, 6.2832, 0.0),
        (6.0, 22.5, 6.0, 15.648, 13.2918),
    ],
)
def test_marks_for_both_bends_with_a_real_radius(
    rise: float, angle_deg: float, clr: float, start_to_start: float, between: float
) -> None:
    """Users' problems reduced to numbers [in], computed twice elsewhere: how far apart both bends begin."""
    answer = at_angle(rise * INCH, angle_deg, clr * INCH).answer
    arc = clr * math.radians(angle_deg)
    digits = 5e-4 if start_to_start == 15.648 else 5e-5
    assert answer.between / INCH == pytest.approx(between, abs=5e-5)
    assert answer.between / INCH + arc == pytest.approx(start_to_start, abs=digits)


@pytest.mark.parametrize(
    ("rise", "angle_deg", "clr", "made"),
    [
        (4.0, 30.0, 4.0, 4.0246),
        (4.0, 30.0, 6.0, 4.0369),
        (6.0, 45.0, 6.0, 6.1826),
        (6.0, 60.0, 6.0, 6.5586),
        (6.0, 22.5, 6.0, 6.0118),
    ],
)
def test_marks_at_the_multiplier_would_rise_too_much(rise: float, angle_deg: float, clr: float, made: float) -> None:
    """The same problems, computed elsewhere: what marks at rise over sine, taken for the bends' starts, would make."""
    angle = math.radians(angle_deg)
    between = rise / math.sin(angle) - clr * angle
    assert float(rise_of_bends(np.array([angle]), np.array([clr]), between)[0]) == pytest.approx(made, abs=5e-5)
