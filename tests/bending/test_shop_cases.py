"""Small problems of benders and draughtsmen as parts of our own: expected values were computed twice, elsewhere.

No stretch and no springback unless said. Lengths are mm unless a test says inches.
"""

import math
from dataclasses import replace

import numpy as np
import pytest

from bendgen.bending.checks import apex_leg
from bendgen.bending.coarse_vertices import check_coarse_vertices
from bendgen.bending.commands import exact_feeds
from bendgen.bending.hands import mirror_part, reverse_part
from bendgen.bending.planning import job_of_part, plan_part
from bendgen.bending.shapes import bent_tube, laid_on, solid_of_tube
from bendgen.geometry.bendability import ovality_of_mean, roundness_ratio, thinning_share
from bendgen.geometry.vectors import angles_between, lengths
from bendgen.records.bend_program import BendProgram
from bendgen.records.bent_tube import Bend, BentTube
from bendgen.records.part import Centreline, Part, Vertex, WantedBend, WantedSteps
from tests.independent_bender import SpringLaw, seen_from_front
from tests.random_jobs import TUBE, Setting, profile_of, program_of

INCH = 25.4
Corner = tuple[float, float, float]

SCREEN_FRAME = ((0, 0, 0), (820, 0, 0), (560, 760, 690), (1930, 760, -810), (1670, 0, -120), (2490, 0, -120))
COOLING_PIPE = (
    (314, -512, -145),
    (314, -262, -145),
    (14, -262, -145),
    (-146, -102, -145),
    (-44, 0, 0),
    (285, 0, 0),
)


def drawn(*corners: Corner, unit: float = 1.0) -> Part:
    vertices = tuple(Vertex(x=x * unit, y=y * unit, z=z * unit) for x, y, z in corners)
    return Part(
        name="Dryer part",
        number="GD-4",
        revision="A",
        quantity=1,
        units="mm",
        tube=TUBE,
        centreline=Centreline(vertices=vertices),
    )


def made(part: Part, clr: float) -> BendProgram:
    return program_of(part, profile_of(Setting(), (SpringLaw(die_clr=clr),)))


def developed(program: BendProgram) -> float:
    """Blank less its trims."""
    return program.blank.length - program.blank.front_trim - program.blank.rear_trim


def angles(program: BendProgram) -> list[float]:
    return [bend.angle_deg for bend in program.finished.bends]


def rotations(program: BendProgram) -> list[float]:
    return [bend.rotation_deg for bend in program.finished.bends[1:]]


def check(program: BendProgram, check_id: str) -> float:
    return next(check.predicted for check in program.checks if check.id == check_id)


def test_an_s_in_a_tilted_plane_has_half_a_turn() -> None:
    # Inches, R 1.
    corners = ((38.5202, -14.0264, 0), (45.3142, -14.0264, 0), (45.3142, -17.5214, 0.9654), (48.6822, -17.5214, 0.9654))
    program = made(drawn(*corners, unit=INCH), INCH)
    assert [s / INCH for s in program.finished.straights] == pytest.approx([5.794, 1.62588, 2.368], abs=5e-6)
    assert angles(program) == pytest.approx([90.0, 90.0], abs=1e-9)
    assert rotations(program) == [180.0]
    assert developed(program) / INCH == pytest.approx(12.92947, abs=5e-6)


def test_a_frame_in_space_from_either_end_and_either_hand() -> None:
    program = made(drawn(*SCREEN_FRAME), 250.0)
    straights = (498.78326, 197.9501, 951.9819, 197.9501, 498.78326)
    turns = (-134.21353, -39.5641, -134.21353)
    assert program.finished.straights == pytest.approx(straights, abs=5e-5)
    assert angles(program) == pytest.approx([104.21342, 130.2948, 130.2948, 104.21342], abs=5e-5)
    assert rotations(program) == pytest.approx(turns, abs=5e-5)
    assert developed(program) == pytest.approx(4391.9189, abs=5e-5)
    assert rotations(made(reverse_part(drawn(*SCREEN_FRAME)), 250.0)) == pytest.approx(turns, abs=5e-5)
    mirrored = rotations(made(mirror_part(drawn(*SCREEN_FRAME)), 250.0))
    assert mirrored == pytest.approx([-turn for turn in turns], abs=5e-5)


def hoop(last_rotation: float) -> BentTube:
    """OD 20, R 40: straights 300, 500, 500, 300; bends 70, 170, 70."""
    return bent_tube(
        np.array([300.0, 500.0, 500.0, 300.0]),
        np.array([70.0, 170.0, 70.0]),
        np.array([0.0, 90.0, last_rotation]),
        np.full(3, 40.0),
    )


def test_a_hoop_is_its_own_mirror_image_only_with_opposite_rotations() -> None:
    symmetric, other = (solid_of_tube(hoop(last)).points for last in (-90.0, 90.0))
    mirror_image = symmetric[::-1] * (1.0, 1.0, -1.0)
    np.testing.assert_allclose(seen_from_front(mirror_image), seen_from_front(symmetric), atol=1e-9)
    turned_over = seen_from_front(other[::-1] * (1.0, 1.0, -1.0))
    assert np.linalg.norm(turned_over - seen_from_front(other), axis=1).max() > 100.0
    apart = np.linalg.norm(seen_from_front(symmetric)[-1] - seen_from_front(other)[-1])
    assert apart == pytest.approx(616.0, abs=0.5)


def test_developed_length_of_the_hoop() -> None:
    wish = WantedSteps(
        bends=tuple(
            WantedBend(straight=s, rotation_deg=r, angle_deg=a)
            for s, r, a in ((300.0, 0.0, 70.0), (500.0, 90.0, 170.0), (500.0, -90.0, 70.0))
        ),
        rear=300.0,
    )
    part = replace(drawn((0, 0, 0), (1, 0, 0)), centreline=None, steps=wish)
    assert developed(made(part, 40.0)) == pytest.approx(1816.4208, abs=5e-5)


def test_a_pipe_drawn_in_whole_millimetres_tells_what_rounding_did() -> None:
    program = made(drawn(*COOLING_PIPE), 76.0)
    straights = (174.0, 192.51977, 118.79394, 84.57658, 285.04541)
    assert program.finished.straights == pytest.approx(straights, abs=5e-6)
    assert angles(program) == pytest.approx([90.0, 45.0, 90.0, 60.08587], abs=5e-6)
    assert rotations(program) == pytest.approx([180.0, -45.14861, 35.33429], abs=5e-6)
    assert developed(program) == pytest.approx(1233.08792, abs=5e-6)
    profile = profile_of(Setting(), (SpringLaw(die_clr=76.0),))
    assert [(f.step, f.text) for f in check_coarse_vertices(job_of_part(program.part, profile))] == [
        (4, "bend of 60.086°: vertices rounded to 1 mm can make that of 60°; see which is meant"),
        (3, "rotation of -45.149°: vertices rounded to 1 mm can make that of -45°; see which is meant"),
    ]


def test_a_vertex_on_a_straight_is_a_mark() -> None:
    program = made(drawn((0, 0, 0), (0, 0, 100), (0, 0, 200), (100, 0, 200)), 25.0)
    assert program.finished.straights == pytest.approx((175.0, 75.0), abs=1e-9)
    assert angles(program) == pytest.approx([90.0])
    assert developed(program) == pytest.approx(289.2699, abs=5e-5)
    (mark,) = program.marks
    assert mark.straight == 1
    assert mark.from_front == pytest.approx(100.0)


def test_a_radius_too_large_and_a_straight_of_nothing() -> None:
    step_down = drawn((0, 0, 0), (20, 0, 0), (20, 20, 0), (40, 20, 0))
    tight = plan_part(step_down, profile_of(Setting(), (SpringLaw(die_clr=12.0),)))
    (overlap,) = [f for f in tight.findings if f.rule == "geometry"]
    assert overlap.value == pytest.approx(-4.0)
    assert (
        overlap.text == "straight 2 would be -4 mm: the bends at its ends overlap; the largest CLR that fits is 10 mm"
    )
    fitting = plan_part(step_down, profile_of(Setting(), (SpringLaw(die_clr=10.0),)))
    job = job_of_part(step_down, profile_of(Setting(), (SpringLaw(die_clr=10.0),)))
    assert job.bends.straights.tolist() == pytest.approx([10.0, 0.0, 10.0])
    # Nothing to clamp: a limit of the machine, not of the geometry.
    assert [f.rule for f in fitting.findings if f.level == "limit"] == ["clamp"]


@pytest.mark.parametrize(
    ("a", "b", "angle_deg"),
    [
        ((-1.0, -1.0, 1.0), (-1.0, -1.0, 1.0), 0.0),
        ((0.9853, -0.1708, 0.0), (0.9853, -0.1708, 0.0), 0.0),
        ((-1.0, -1.0, 1.0), (1.0, 1.0, -1.0), 180.0),
        ((1.0, 0.0, 0.0), (math.cos(1e-8), math.sin(1e-8), 0.0), 5.72958e-7),
    ],
)
def test_angles_that_arccos_gets_wrong(a: Corner, b: Corner, angle_deg: float) -> None:
    rows = np.array([a]), np.array([b])
    unit_a, unit_b = (row / lengths(row)[:, None] for row in rows)
    found = math.degrees(float(angles_between(unit_a, unit_b)[0]))
    assert found == pytest.approx(angle_deg, abs=5e-13)


def test_a_rolling_offset_between_equal_directions() -> None:
    # From (0,0,0) to (300,200,100), both ends along +x, R 60 and no end straights: two equal bends of the angle A with
    # 2 R (1 - cos A) + D sin A = 223.60680 and 2 R sin A + D cos A = 300.
    angle, tangent = math.radians(41.26793), 60.0 * math.tan(math.radians(41.26793) / 2.0)
    corners = ((0.0, 0.0, 0.0), (tangent, 0.0, 0.0), (300.0 - tangent, 200.0, 100.0), (300.0, 200.0, 100.0))
    job = job_of_part(drawn(*corners), profile_of(Setting(), (SpringLaw(die_clr=60.0),)))
    assert job.bends.angles_deg.tolist() == pytest.approx([math.degrees(angle)] * 2, abs=5e-6)
    assert job.bends.straights.tolist() == pytest.approx([0.0, 293.82711, 0.0], abs=5e-5)
    assert job.blank.net == pytest.approx(380.25846, abs=5e-5)
    assert job.bends.rotations_deg[1] == pytest.approx(180.0)


def test_a_measured_radius_counts_its_growth_once() -> None:
    # Inches: a die of 4.00 leaves 90° at a setback radius of 4.04. With the arc kept it was wound by 90.9°.
    die = SpringLaw(die_clr=4.0 * INCH, lost=0.9)
    program = made_with(drawn((0, 0, 0), (10, 0, 0), (10, 10, 0), unit=INCH), die)
    (step,) = program.steps
    assert step.formed_clr / INCH == pytest.approx(4.04, abs=1e-9)
    assert step.springback_deg == pytest.approx(0.9)
    arc = step.formed_clr * math.radians(step.finished_angle_deg)
    assert arc / INCH == pytest.approx(6.34602, abs=5e-6)
    assert arc / INCH != pytest.approx(6.36319, abs=1e-3)  # the 4.04 wound by 90.9° would count the growth twice
    # Against the die's own radius each leg is 0.04 in longer, end to crown, and a U of two bends 0.08 in wider.
    grown = apex_leg(0.0, step.formed_clr, 90.0) - apex_leg(0.0, 4.0 * INCH, 90.0)
    assert grown / INCH == pytest.approx(0.04, abs=1e-9)


def test_held_straights_report_how_much_wider_a_bend_gets() -> None:
    # The same die, a bend of 90° given as a step: 2 · (4.04 - 4.00) in.
    bend = WantedBend(straight=200.0, rotation_deg=0.0, angle_deg=90.0)
    part = replace(drawn((0, 0, 0), (1, 0, 0)), centreline=None, steps=WantedSteps(bends=(bend,), rear=200.0))
    (step,) = made_with(part, SpringLaw(die_clr=4.0 * INCH, lost=0.9)).steps
    assert step.width_change == pytest.approx(0.08 * INCH, abs=1e-9)


def made_with(part: Part, law: SpringLaw) -> BendProgram:
    return program_of(part, profile_of(Setting(), (law,)))


@pytest.mark.parametrize(
    ("datum", "between", "width"),
    [("width-outside", 47.25, 60.0), ("width-inside", 50.75, 60.0), ("width-centreline", 49.0, 60.0)],
)
def test_a_width_always_names_its_datum(datum: str, between: float, width: float) -> None:
    # Inches: a hoop 60 wide, OD 1.75, CLR 5.5. Half the straight between the bends is 23.625 if that is over the
    # outside, 25.375 if it is inside, 24.5 if it is between the axes.
    half = {"width-outside": 23.625, "width-inside": 25.375, "width-centreline": 24.5}[datum]
    assert between == 2.0 * half
    across = between + 2.0 * 5.5
    part = drawn((0, 0, 0), (40, 0, 0), (40, across, 0), (0, across, 0), unit=INCH)
    tube = replace(TUBE, od=1.75 * INCH)
    profile = profile_of(Setting(), (SpringLaw(die_clr=5.5 * INCH),))
    profile = replace(profile, dies=tuple(replace(die, tube_od=tube.od) for die in profile.dies))
    program = program_of(replace(part, tube=tube), profile)
    assert check(program, datum) / INCH == pytest.approx(width, abs=1e-9)


def test_a_u_between_centrelines() -> None:
    # 61 between the axes, legs of 34 to the axis across, CLR 6.5.
    program = made(drawn((0, 0, 0), (34, 0, 0), (34, 61, 0), (0, 61, 0)), 6.5)
    assert program.finished.straights == pytest.approx((27.5, 48.0, 27.5))
    assert developed(program) == pytest.approx(123.42035, abs=5e-6)


@pytest.mark.parametrize(
    ("resolution", "in_first_leg"), [(0.01, 0.1845), (0.1, 0.6344), (0.5, 13.5302), (1.0, 16.4120)]
)
def test_resolution_is_not_harmless(resolution: float, in_first_leg: float) -> None:
    # Straights and angles of the frame rounded one by one: largest error of a vertex in the frame of the first leg.
    wanted = made(drawn(*SCREEN_FRAME), 250.0).finished

    def rounded(value: float) -> float:
        return round(value / resolution) * resolution

    coarse = BentTube(
        straights=tuple(rounded(s) for s in wanted.straights),
        bends=tuple(
            Bend(angle_deg=rounded(b.angle_deg), rotation_deg=rounded(b.rotation_deg), clr=b.clr) for b in wanted.bends
        ),
    )
    ours, theirs = solid_of_tube(coarse), solid_of_tube(wanted)
    assert ours.vertices is not None
    assert theirs.vertices is not None
    off = np.linalg.norm(seen_from_front(ours.vertices) - seen_from_front(theirs.vertices), axis=1)
    assert off.max() == pytest.approx(in_first_leg, abs=5e-5)
    # A best fit shares the error out; it hides some of it, and must never make it larger.
    assert laid_on(ours, theirs)[1] < in_first_leg / 2.0


def test_feeds_do_not_drift() -> None:
    # 20 feeds of 33.3333 at 0.1: rounded one by one they end at 666.0, by their positions at 666.7.
    bends = tuple(WantedBend(straight=33.3333, rotation_deg=0.0, angle_deg=3.0) for _ in range(20))
    part = replace(drawn((0, 0, 0), (1, 0, 0)), centreline=None, steps=WantedSteps(bends=bends, rear=50.0))
    program = program_of(part, profile_of(Setting(resolution=0.1), (SpringLaw(die_clr=60.0),)))
    feeds = [step.feed for step in program.steps]
    assert sum(feeds) == pytest.approx(666.7)
    assert {round(feed, 6) for feed in feeds} == {33.3, 33.4}


def rear_end_moved(change: str, bend: int) -> float:
    """How far the rear end of the cooling pipe goes if one value is off by half a degree or half a millimetre."""
    tube = made(drawn(*COOLING_PIPE), 76.0).finished
    bends, straights = list(tube.bends), list(tube.straights)
    if change == "bend":
        bends[bend] = replace(bends[bend], angle_deg=bends[bend].angle_deg + 0.5)
    elif change == "rotation":
        bends[bend] = replace(bends[bend], rotation_deg=bends[bend].rotation_deg + 0.5)
    else:
        straights[bend] += 0.5
    changed = BentTube(straights=tuple(straights), bends=tuple(bends))
    before, after = (seen_from_front(solid_of_tube(shape).points)[-1] for shape in (tube, changed))
    return float(np.linalg.norm(before - after))


@pytest.mark.parametrize(
    ("change", "moved"),
    [
        ("bend", (2.98, 2.65, 2.90, 2.57)),
        ("rotation", (2.61, 3.52, 2.49)),
        ("straight", (0.5, 0.5, 0.5, 0.5)),
    ],
)
def test_which_error_matters(change: str, moved: tuple[float, ...]) -> None:
    first = 1 if change == "rotation" else 0
    found = [rear_end_moved(change, first + i) for i in range(len(moved))]
    assert found == pytest.approx(moved, abs=5e-3)


def test_plain_arithmetic() -> None:
    program = made(drawn((0, 0, 0), (0, 80, 0), (0, 120, 50)), 15.0)
    assert angles(program) == pytest.approx([51.34019], abs=5e-6)
    assert program.finished.straights == pytest.approx((72.79063, 56.82187), abs=5e-6)
    assert developed(program) == pytest.approx(143.05333, abs=5e-6)


def test_thinning_of_a_thin_tube() -> None:
    # Inches: 3/4 on R 3; the sheet's estimate keeps the volume.
    assert 100.0 * thinning_share(0.75, 3.0) == pytest.approx(11.1, abs=0.05)


def test_two_ovality_rules_do_not_agree() -> None:
    # "Small over large at least 0.9" allows 10.5 % where "within 8 %" does not.
    assert 100.0 * ovality_of_mean(40.0, 36.0) == pytest.approx(10.526, abs=5e-4)
    assert roundness_ratio(40.0, 36.0) == pytest.approx(0.9)


def test_the_blank_is_not_what_the_legs_add_up_to() -> None:
    # Feeds of a part on a table: 4 mm gained in a quarter bend shorten the blank and move nothing else.
    plain = SpringLaw(die_clr=100.0)
    stretched = SpringLaw(die_clr=100.0, gained=4.0)
    part = drawn((0, 0, 0), (300, 0, 0), (300, 400, 0))
    jobs = [job_of_part(part, profile_of(Setting(), (law,))) for law in (plain, stretched)]
    assert jobs[0].blank.net - jobs[1].blank.net == pytest.approx(4.0)
    without, with_gain = (exact_feeds(job.bends, 0.0) for job in jobs)
    np.testing.assert_allclose(without, with_gain, atol=1e-12)
