"""Offsets drawn as vertices and planned without springback: lengths worked out elsewhere.

"derived" values are mathematics done elsewhere. The rolling offset is "seen": an apprentice's worked page gives the
true offset and the travel of a rise of 30 5/8 in with a roll of 17 5/8 in through fittings of 45°.
"""

import math

import pytest

from bendgen.records.bend_program import BendProgram
from bendgen.records.part import Centreline, Part, Vertex
from tests.independent_bender import SpringLaw
from tests.random_jobs import TUBE, Setting, profile_of, program_of

INCH = 25.4
LEG = 500.0


def planned(clr: float, *corners: tuple[float, float, float]) -> BendProgram:
    """Program of a part on a machine without springback or stretch."""
    vertices = tuple(Vertex(x=x, y=y, z=z) for x, y, z in corners)
    part = Part(
        name="Offset",
        number="GD-3",
        revision="A",
        quantity=1,
        units="mm",
        tube=TUBE,
        centreline=Centreline(vertices=vertices),
    )
    return program_of(part, profile_of(Setting(), (SpringLaw(die_clr=clr),)))


def offset_of(rise: float, angle_deg: float, clr: float) -> BendProgram:
    run = rise / math.tan(math.radians(angle_deg))
    return planned(clr, (0, 0, 0), (LEG, 0, 0), (LEG + run, rise, 0), (2 * LEG + run, rise, 0))


@pytest.mark.parametrize(
    ("asked", "printed"),
    [
        ((100.0, 30.0, 76.2), (20.41773, 159.16454, 39.89823, 214.04054, 238.96100)),
        ((50.0, 22.5, 57.15), (11.36784, 107.92061, 22.44275, 143.44636, 152.80612)),
        ((150.0, 45.0, 101.6), (42.08410, 127.96384, 79.79645, 234.16820, 287.55675)),
        ((120.0, 60.0, 80.0), (46.18802, 46.18802, 83.77580, 161.65808, 213.73963)),
    ],
)
def test_offset_with_a_real_radius(asked: tuple[float, float, float], printed: tuple[float, ...]) -> None:
    """Derived; asserted to 1e-4. Run and length are from the start of the first bend to the end of the second."""
    tangent, between, arc, run, length = printed
    program = offset_of(*asked)
    front, middle, rear = program.finished.straights
    assert LEG - front == pytest.approx(tangent, abs=1e-4)
    assert LEG - rear == pytest.approx(tangent, abs=1e-4)
    assert middle == pytest.approx(between, abs=1e-4)
    first, second = program.finished.bends
    assert first.clr * math.radians(first.angle_deg) == pytest.approx(arc, abs=1e-4)
    assert second.rotation_deg == 180.0
    points = program.predicted.points
    assert points[4][0] - points[1][0] == pytest.approx(run, abs=1e-4)
    assert middle + 2.0 * arc == pytest.approx(length, abs=1e-4)
    offset = next(check for check in program.checks if check.id == "offset")
    assert offset.predicted == pytest.approx(asked[0], abs=1e-4)


@pytest.mark.parametrize(
    ("rise", "angle_deg", "clr"), [(20.41773, 30.0, 76.2), (8.70057, 22.5, 57.15), (59.51590, 45.0, 101.6)]
)
def test_rise_at_which_no_straight_is_left_between(rise: float, angle_deg: float, clr: float) -> None:
    """Derived. Here the part asks for just that rise; clamps would not allow it, so only the limit's value is read."""
    with pytest.raises(AssertionError) as refused:
        offset_of(rise, angle_deg, clr)
    (clamp,) = [f for f in refused.value.args[0] if f.rule == "clamp" and f.level == "limit"]
    assert clamp.step == 2
    assert clamp.value == pytest.approx(0.0, abs=1e-4)


@pytest.mark.parametrize(
    ("angle_deg", "multiplier", "shrink"),
    [
        (10.0, 5.758770, 0.087489),
        (15.0, 3.863703, 0.131652),
        (22.5, 2.613126, 0.198912),
        (30.0, 2.000000, 0.267949),
        (45.0, 1.414214, 0.414214),
        (60.0, 1.154701, 0.577350),
    ],
)
def test_multiplier_and_shrink_of_a_drawn_offset(angle_deg: float, multiplier: float, shrink: float) -> None:
    """Derived: vertex to vertex is rise / sin A, and rise · tan(A / 2) longer than the run."""
    rise = 100.0
    program = offset_of(rise, angle_deg, 20.0)
    _, middle, _ = program.finished.straights
    tangent = LEG - program.finished.straights[0]
    travel = middle + 2.0 * tangent
    vertices = program.predicted.vertices
    assert vertices is not None
    assert travel / rise == pytest.approx(multiplier, abs=5e-7)
    assert (travel - (vertices[2][0] - vertices[1][0])) / rise == pytest.approx(shrink, abs=5e-7)


@pytest.mark.parametrize(("clr", "gain"), [(76.2, 32.705320), (100.0, 42.920367)])
def test_gain_of_one_bend(clr: float, gain: float) -> None:
    """Derived: two legs around 90° less the tube in them, 2 R tan 45° - R π / 2."""
    program = planned(clr, (0, 0, 0), (LEG, 0, 0), (LEG, LEG, 0))
    blank = program.blank
    developed = blank.length - blank.front_trim - blank.rear_trim
    assert 2.0 * LEG - developed == pytest.approx(gain, abs=5e-7)


def test_rolling_offset() -> None:
    """Seen: rise 30 5/8 in, roll 17 5/8 in, 45°: true offset 35.334561692 in, travel 49.9706104 in.

    ERRATA: the printed travel is the offset times 1.4142134, the square root of 2 cut short: 6e-6 in too low.
    The roll angle of 29.920866° is derived. A short first leg straight up tells it: the offset's plane stands that far
    from upright.
    """
    rise, roll = 30.625 * INCH, 17.625 * INCH
    true_offset = math.hypot(rise, roll)
    start = (LEG, 0.0, 0.0)
    end = (LEG + true_offset, roll, rise)
    program = planned(50.0, (0, 0, -LEG), (0, 0, 0), start, end, (2 * LEG + true_offset, roll, rise))
    straights, bends = program.finished.straights, program.finished.bends
    tangent = bends[1].clr * math.tan(math.radians(22.5))
    assert bends[1].angle_deg == pytest.approx(45.0, abs=1e-9)
    assert (straights[2] + 2.0 * tangent) / INCH == pytest.approx(49.9706104, abs=7e-6)
    assert (straights[2] + 2.0 * tangent) / INCH == pytest.approx(35.334561692 * math.sqrt(2.0), abs=1e-8)
    offset = math.dist(program.predicted.points[-1][1:], (0.0, 0.0))
    assert offset / INCH == pytest.approx(35.334561692, abs=5e-10 * 100)  # forward play keeps some 1e-8 of it
    # The first leg comes from below and the far one goes up: half a turn less the roll.
    assert 180.0 - abs(bends[1].rotation_deg) == pytest.approx(29.920866, abs=5e-7)


def test_plumbers_offset_of_sixty_degrees() -> None:
    """Seen, a plumbing layout page: 12 in offset with 60° fittings, run 6.9288 in, travel 13.8564 in.

    The page rounds 12 · 0.5774; the run is therefore taken within 0.0006 in.
    """
    program = offset_of(12.0 * INCH, 60.0, 50.0)
    vertices = program.predicted.vertices
    assert vertices is not None
    assert (vertices[2][0] - vertices[1][0]) / INCH == pytest.approx(6.9288, abs=6e-4)
    assert math.dist(vertices[1], vertices[2]) / INCH == pytest.approx(13.8564, abs=5e-5)
