"""One test for each line of "Signs and frames" in DEVELOPERS.md, on numbers worked out by hand."""

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from bendgen.bending.hands import mirror_part, reverse_part
from bendgen.bending.modelled_machine import Moves, Played, play
from bendgen.bending.planning import plan_part
from bendgen.files.part_file import parse_part
from bendgen.files.steps_csv import format_machine_csv, format_steps_csv
from bendgen.geometry.polylines import segments, turning_angles
from bendgen.geometry.vectors import Array
from bendgen.records.allowances import AllowanceRow
from bendgen.records.bend_program import BendProgram
from bendgen.records.machine import FeedForm, MachineProfile
from bendgen.records.offset import EndOffCentre, OffsetWish
from bendgen.records.part import Centreline, Part, Vertex, WantedBend, WantedSteps

QUARTER = math.pi / 2.0
# The fixtures' die has CLR 100; at 90° it springs 2.7° and gains 4 mm, so the arc of 92.7° opens to a radius of 103
# and uses 103 · π/2 - 4 = 157.792 mm of blank.
USED = 103.0 * QUARTER - 4.0


def program_of(part: Part, profile: MachineProfile) -> BendProgram:
    plan = plan_part(part, profile)
    assert plan.program is not None, plan.findings
    return plan.program


def part_through(part: Part, *corners: tuple[float, float, float]) -> Part:
    return replace(part, centreline=Centreline(vertices=tuple(Vertex(x=x, y=y, z=z) for x, y, z in corners)))


def planar(part: Part, *turns: str) -> Part:
    """Flat part with legs of 400 mm whose bends of 90° turn "left" or "right" as drawn."""
    x, y, heading = 400.0, 0.0, 0
    corners = [(0.0, 0.0, 0.0), (x, y, 0.0)]
    for turn in turns:
        heading += 1 if turn == "left" else -1
        x += 400.0 * round(math.cos(heading * QUARTER))
        y += 400.0 * round(math.sin(heading * QUARTER))
        corners.append((x, y, 0.0))
    return part_through(part, *corners)


def played(side: str, rotations: tuple[float, ...], feeds: tuple[float, ...]) -> Played:
    """Bends of 90° at CLR 100, with 50 mm behind the last one."""
    return play(
        Moves(
            feeds=np.array(feeds),
            rotations_deg=np.array(rotations),
            angles_deg=np.full(len(feeds), 90.0),
            clr=np.full(len(feeds), 100.0),
            front_trim=0.0,
            rear=50.0,
            side=side,
        )
    )


# 1 — millimetres and degrees; an inch is 25.4 mm


def test_records_hold_mm_whatever_the_file_is_written_in() -> None:
    def file(units: str, tube: dict[str, object], legs: list[list[float]]) -> Part:
        head = {"name": "Guard", "number": "GD-2", "revision": "A", "quantity": 1}
        return parse_part({"units": units, "part": head, "tube": tube, "centreline": {"vertices": legs}}, "p.toml")

    inches = file("in", {"od": 2.0, "wall": 0.0625, "material": "304L"}, [[0, 0, 0], [10, 0, 0], [10, 20, 0]])
    mm = file("mm", {"od": 50.8, "wall": 1.5875, "material": "304L"}, [[0, 0, 0], [254, 0, 0], [254, 508, 0]])
    assert replace(inches, units="mm") == mm


def test_csv_heads_carry_the_unit(dryer_part: Part, metric_profile: MachineProfile) -> None:
    head = format_steps_csv(program_of(dryer_part, metric_profile), "0" * 8).splitlines()[0]
    assert head == "number,die,feed_mm,rotation_deg,bend_deg,id"


# 2 — vertex 1 is the front end, which passes the die first


def test_vertex_1_is_the_front_end(dryer_part: Part, metric_profile: MachineProfile) -> None:
    # Legs 300, 360, 260: the first feed is 300 - 103, what stays behind the last bend 260 - 103.
    program = program_of(dryer_part, metric_profile)
    assert program.steps[0].feed == pytest.approx(197.0)
    assert program.finished.straights[-1] == pytest.approx(157.0)


# 3 — right-handed machine frame, +X along the feed, tangent line at x = 0, +Z up; left is +Y


@pytest.mark.parametrize(("side", "y"), [("left", 1.0), ("right", -1.0)])
def test_the_die_stands_at_plus_y_on_the_left_and_minus_y_on_the_right(side: str, y: float) -> None:
    # Fed 200, then drawn round a quarter: the tangent point lies at (100, ±100), the front end 200 beyond it.
    front, bend_start, bend_end, rear = played(side, (0.0,), (200.0,)).points
    np.testing.assert_allclose(front, (100.0, y * 300.0, 0.0), atol=1e-12)
    np.testing.assert_allclose(bend_start, (100.0, y * 100.0, 0.0), atol=1e-12)
    np.testing.assert_allclose(bend_end, (0.0, 0.0, 0.0), atol=1e-12)
    np.testing.assert_allclose(rear, (-50.0, 0.0, 0.0), atol=1e-12)


# 4 — finished angle by the arctangent form; commanded is finished and springback


@pytest.mark.parametrize("angle", [0.01, 0.5, 90.0, 179.5, 179.99])
def test_the_finished_angle_is_good_at_both_ends(angle: float) -> None:
    turn = math.radians(angle)
    path = np.array([(-300.0, 0.0, 0.0), (0.0, 0.0, 0.0), (300.0 * math.cos(turn), 300.0 * math.sin(turn), 0.0)])
    found = math.degrees(float(turning_angles(segments(path)[1])[0]))
    assert found == pytest.approx(angle, abs=1e-11)


def test_commanded_is_finished_and_springback(dryer_part: Part, metric_profile: MachineProfile) -> None:
    step = program_of(dryer_part, metric_profile).steps[0]
    assert step.finished_angle_deg == pytest.approx(90.0)
    assert step.springback_deg == pytest.approx(2.7)
    assert step.bend_deg == pytest.approx(92.7)


# 5 — rotation: right-handed about +X, clockwise seen from the carriage; the signed dihedral of the centreline


def test_rotation_turns_the_front_clockwise_seen_from_the_carriage() -> None:
    # The first bend leaves the front leg at +Y, the left hand of someone who looks along the feed (+X) with Z up.
    # A quarter clockwise brings 9 o'clock to 12 o'clock: the leg points up.
    before_second = played("left", (0.0, 90.0), (200.0, 30.0)).before_bend[1]
    np.testing.assert_allclose(before_second[0], (130.0, 0.0, 300.0), atol=1e-9)


def test_rotation_is_the_dihedral_of_the_drawn_path(dryer_part: Part, metric_profile: MachineProfile) -> None:
    # Looking along the middle leg, +Y, with Z up, +X is on the right: the near leg, towards -X, stands at 9 o'clock
    # and the far leg, which goes up, at 12: clockwise by 90.
    assert program_of(dryer_part, metric_profile).steps[1].rotation_deg == pytest.approx(90.0)
    down = part_through(dryer_part, (0, 0, 0), (300, 0, 0), (300, 360, 0), (300, 360, -260))
    assert program_of(down, metric_profile).steps[1].rotation_deg == pytest.approx(-90.0)


def test_a_planar_u_has_0_and_a_planar_s_has_180(dryer_part: Part, metric_profile: MachineProfile) -> None:
    u = program_of(planar(dryer_part, "left", "left"), metric_profile)
    s = program_of(planar(dryer_part, "left", "right"), metric_profile)
    assert [step.rotation_deg for step in u.steps] == [0.0, 0.0]
    assert [step.rotation_deg for step in s.steps] == [0.0, 180.0]


def test_the_first_rotation_is_0_even_where_steps_name_another(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    wish = WantedSteps(bends=(WantedBend(straight=200.0, rotation_deg=35.0, angle_deg=90.0),), rear=400.0)
    part = replace(dryer_part, centreline=None, steps=wish)
    assert program_of(part, metric_profile).steps[0].rotation_deg == 0.0


def test_rotation_depends_neither_on_the_side_nor_on_the_end(dryer_part: Part, metric_profile: MachineProfile) -> None:
    right = replace(metric_profile, bend=replace(metric_profile.bend, side="right"))
    for part in (dryer_part, reverse_part(dryer_part)):
        for profile in (metric_profile, right):
            assert program_of(part, profile).steps[1].rotation_deg == pytest.approx(90.0)


def test_the_machine_feeds_then_rotates_then_bends() -> None:
    # Before the second bend the front end has been fed 30 and rotated, and not yet bent.
    moves = played("left", (0.0, 90.0), (200.0, 30.0))
    assert moves.before_bend[1][0][0] == pytest.approx(130.0)
    assert moves.before_bend[1][0][2] == pytest.approx(300.0)


# 6 — feed: incremental, summed, passed, carriage


@pytest.mark.parametrize(
    ("form", "first", "second"),
    [
        # Straights 197 and 154; the first bend uses 157.792 of blank.
        ("incremental", 197.0, 154.0),
        ("summed", 197.0, 351.0),
        ("passed", 197.0, 351.0 + USED),
        # Blank 197 + 154 + 157 + 2 · 157.792 and 143 of trim for the collet; less the grip of 60 and what has passed.
        ("carriage", 651.0 + 2.0 * USED - 60.0 - 197.0, 651.0 + USED - 60.0 - 351.0),
    ],
)
def test_feed_forms(
    dryer_part: Part, metric_profile: MachineProfile, form: FeedForm, first: float, second: float
) -> None:
    fine = replace(metric_profile.feed, resolution=1e-9)
    profile = replace(metric_profile, feed=fine, output=replace(metric_profile.output, feed=form))
    program = program_of(dryer_part, profile)
    assert [step.feed for step in program.machine_steps] == pytest.approx([first, second], abs=1e-6)
    assert [step.feed for step in program.steps] == pytest.approx([197.0, 154.0], abs=1e-6)
    assert [step.passed for step in program.steps] == pytest.approx([197.0, 351.0 + USED], abs=1e-6)


def test_the_first_feed_includes_the_front_trim(dryer_part: Part, metric_profile: MachineProfile) -> None:
    program = program_of(replace(dryer_part, front_trim=25.0), metric_profile)
    assert program.steps[0].feed == pytest.approx(222.0)
    assert program.finished.straights[0] == pytest.approx(197.0)


@pytest.mark.parametrize(
    ("form", "reaches"), [("incremental", 0.0), ("summed", 0.0), ("passed", 4.0), ("carriage", 4.0)]
)
def test_elongation_errors_reach_the_straights_only_with_positions_on_the_blank(
    dryer_part: Part, metric_profile: MachineProfile, form: FeedForm, reaches: float
) -> None:
    # Without elongation in the table, a position on the blank lies 4 mm later: 4 mm more between the bends.
    fine = replace(
        metric_profile,
        feed=replace(metric_profile.feed, resolution=1e-9),
        output=replace(metric_profile.output, feed=form),
    )
    (table,) = fine.tables
    none = replace(fine, tables=(replace(table, rows=tuple(replace(row, elongation=None) for row in table.rows)),))
    learned = [step.feed for step in program_of(dryer_part, fine).machine_steps]
    guessed = [step.feed for step in program_of(dryer_part, none).machine_steps]
    sign = -1.0 if form == "carriage" else 1.0
    between = sign * (guessed[1] - guessed[0]) - sign * (learned[1] - learned[0])
    assert between == pytest.approx(reaches, abs=1e-6)


# 7 — a mirrored part has opposite rotations, a reversed part the same


def test_mirrored_and_reversed_rotations(dryer_part: Part, metric_profile: MachineProfile) -> None:
    here = program_of(dryer_part, metric_profile)
    mirrored = program_of(mirror_part(dryer_part), metric_profile)
    turned_round = program_of(reverse_part(dryer_part), metric_profile)
    assert mirrored.steps[1].rotation_deg == pytest.approx(-90.0)
    assert [s.feed for s in mirrored.steps] == [s.feed for s in here.steps]
    assert [s.bend_deg for s in mirrored.steps] == [s.bend_deg for s in here.steps]
    assert turned_round.steps[1].rotation_deg == pytest.approx(90.0)
    assert turned_round.finished.straights == pytest.approx(here.finished.straights[::-1])


def test_half_a_turn_stays_180_when_mirrored(dryer_part: Part, metric_profile: MachineProfile) -> None:
    s = planar(dryer_part, "left", "right")
    assert program_of(mirror_part(s), metric_profile).steps[1].rotation_deg == 180.0
    wish = WantedSteps(
        bends=tuple(WantedBend(straight=200.0, rotation_deg=180.0, angle_deg=90.0) for _ in range(2)), rear=400.0
    )
    mirrored = mirror_part(replace(dryer_part, centreline=None, steps=wish)).steps
    assert mirrored is not None
    assert [bend.rotation_deg for bend in mirrored.bends] == [180.0, 180.0]


# 8 — clock positions: 0 is up, clockwise positive, seen from the rear end along the tube to the front, as from the
# carriage


def test_a_rear_end_at_three_oclock_lies_to_the_right_of_somebody_at_the_carriage(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    # The front end lies on the common axis. A machine that draws to the left takes it to the left of the rear end, by
    # the 30 mm that the rear end is to be to its right: the tube need not be turned at all.
    ends = (EndOffCentre(out=0.0, clock_deg=0.0), EndOffCentre(out=30.0, clock_deg=90.0))
    front, rear, turns_to_deg = bent_offset(offset_between(dryer_part, *ends), metric_profile)
    assert turns_to_deg == pytest.approx(-90.0)
    np.testing.assert_allclose(front[1:], (30.0, 0.0), atol=0.1)
    np.testing.assert_allclose(rear[1:], (0.0, 0.0), atol=1e-9)


@pytest.mark.parametrize(
    ("variant", "front_from_rear"),
    [
        # Seen from the rear end, left and up: of the rear end at the right, 30 mm, the front end above the axis, 20 mm,
        (lambda part: part, (30.0, 20.0)),
        # of its mirror image, with the rear end at the left,
        (mirror_part, (-30.0, 20.0)),
        # and from the other end: what was at the right is at the left and now the front, what was above is the rear.
        (reverse_part, (30.0, -20.0)),
        (lambda part: reverse_part(mirror_part(part)), (-30.0, -20.0)),
    ],
)
def test_a_bent_offset_turned_to_its_clock_positions_has_its_ends_where_they_were_asked_for(
    dryer_part: Part,
    metric_profile: MachineProfile,
    variant: Callable[[Part], Part],
    front_from_rear: tuple[float, float],
) -> None:
    ends = (EndOffCentre(out=20.0, clock_deg=0.0), EndOffCentre(out=30.0, clock_deg=90.0))
    front, rear, turns_to_deg = bent_offset(variant(offset_between(dryer_part, *ends)), metric_profile)
    # The machine draws the tube off to 9 o'clock; as it is to lie, it is turned clockwise, about +X, by so much more.
    turn = math.radians(turns_to_deg + 90.0)
    y, z = (front - rear)[1:]
    turned = (y * math.cos(turn) - z * math.sin(turn), y * math.sin(turn) + z * math.cos(turn))
    np.testing.assert_allclose(turned, front_from_rear, atol=0.1)  # rounding to the machine's steps of 0.1°


def offset_between(part: Part, front: EndOffCentre, rear: EndOffCentre) -> Part:
    wish = OffsetWish(front=front, rear=rear, length=520.0, shortest_end=60.0, prefer="gentle")
    return replace(part, centreline=None, offset=wish)


def bent_offset(part: Part, profile: MachineProfile) -> tuple[Array, Array, float]:
    """Front and rear end where the machine leaves them, and where the tube is to turn off at its rear end [deg]."""
    program = program_of(part, profile)
    assert program.offset is not None
    bent = play(
        Moves(
            feeds=np.array([step.feed for step in program.steps]),
            rotations_deg=np.array([step.rotation_deg for step in program.steps]),
            angles_deg=np.array([step.finished_angle_deg for step in program.steps]),
            clr=np.array([step.formed_clr for step in program.steps]),
            front_trim=program.blank.front_trim,
            rear=program.finished.straights[-1],
            side="left",
        )
    )
    return bent.points[0], bent.points[-1], program.offset.rear_turns_to_deg


def test_a_mirrored_part_has_its_seam_on_the_other_side_of_the_clock(dryer_part: Part) -> None:
    at_three = replace(dryer_part, tube=replace(dryer_part.tube, seam_deg=90.0))
    assert mirror_part(at_three).tube.seam_deg == -90.0


def test_from_its_other_end_a_tube_is_loaded_with_its_seam_where_it_was(dryer_part: Part) -> None:
    # The seam's place is that in the loaded tube, which looks the same from either end until it is bent.
    at_three = replace(dryer_part, tube=replace(dryer_part.tube, seam_deg=90.0))
    assert reverse_part(at_three).tube.seam_deg == 90.0


def test_a_clockwise_rotation_moves_a_mark_on_the_clock_by_as_much() -> None:
    # Seen from the carriage a leg at +Y stands at 9 o'clock, 270°; a rotation of +60° brings it to 11, 330°.
    y, z = played("left", (0.0, 60.0), (200.0, 30.0)).before_bend[1][0][1:]
    assert math.degrees(math.atan2(-y, z)) % 360.0 == pytest.approx(330.0, abs=1e-9)


# 9 — neutral files whatever the profile says


def test_the_neutral_list_knows_nothing_of_the_machines_form(
    dryer_part: Part, metric_profile: MachineProfile, inch_profile: MachineProfile
) -> None:
    fine = [
        replace(
            profile,
            bend=replace(profile.bend, resolution_deg=1e-9),
            rotation=replace(profile.rotation, resolution_deg=1e-9),
            feed=replace(profile.feed, resolution=1e-9),
        )
        for profile in (metric_profile, inch_profile)
    ]
    metric, inch = (program_of(dryer_part, profile) for profile in fine)
    for step, same in zip(metric.steps, inch.steps, strict=True):
        assert (step.feed, step.rotation_deg, step.bend_deg) == pytest.approx(
            (same.feed, same.rotation_deg, same.bend_deg), abs=1e-6
        )
    # The inch bender draws right, takes absolute rotation anticlockwise and positions on the blank in inches.
    rows = [line.split(",") for line in format_machine_csv(inch, "0" * 8).splitlines()]
    assert rows[0] == ["line", "tool", "degrees", "turn", "stop", "id"]
    assert [float(cell) for cell in rows[2][2:5]] == pytest.approx([92.7, -90.0, (351.0 + USED) / 25.4], abs=1e-4)


def test_resolution_is_of_the_quantity_the_machine_is_given(dryer_part: Part, metric_profile: MachineProfile) -> None:
    # Three straights of 33.3 after a first of 150.3, at 0.5 mm: their sums 150.3, 183.6, 216.9 become 150.5, 183.5,
    # 217.0, so the feeds are 150.5, 33.0, 33.5 and never drift from the sum by more than 0.25.
    bends = tuple(WantedBend(straight=s, rotation_deg=0.0, angle_deg=10.0) for s in (150.3, 33.3, 33.3))
    part = replace(dryer_part, centreline=None, steps=WantedSteps(bends=bends, rear=400.0))
    (die,), (table,) = metric_profile.dies, metric_profile.tables
    small = tuple(AllowanceRow(angle_deg=angle, springback_deg=0.1) for angle in (5.0, 15.0))
    profile = replace(
        metric_profile,
        feed=replace(metric_profile.feed, resolution=0.5),
        dies=(replace(die, clamp=20.0, mandrel_ahead=None),),
        tables=(replace(table, rows=small),),
    )
    assert [step.feed for step in program_of(part, profile).steps] == [150.5, 33.0, 33.5]
