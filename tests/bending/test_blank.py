"""Blank, trims and cut marks of one part in many shops: net 197 + 154 + 157 and twice 157.792 mm of bends."""

import math
from dataclasses import replace

import pytest

from bendgen.bending.hands import reverse_part
from bendgen.bending.planning import plan_part
from bendgen.records.bend_program import Blank, CutMark
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Centreline, Part, TrimEnds, Vertex

NET = 197.0 + 154.0 + 157.0 + 2.0 * (103.0 * math.pi / 2.0 - 4.0)


CENTRELINE = Centreline(
    vertices=(Vertex(x=0, y=0, z=0), Vertex(x=300, y=0, z=0), Vertex(x=300, y=360, z=0), Vertex(x=300, y=360, z=260))
)


def blank_of(part: Part, profile: MachineProfile) -> Blank:
    plan = plan_part(part, profile)
    assert plan.program is not None, plan.findings
    return plan.program.blank


def roomy(profile: MachineProfile) -> MachineProfile:
    """Carriage that comes close enough for the rear straight of 157."""
    return replace(
        profile, carriage=replace(profile.carriage, closest=50.0), dies=(replace(profile.dies[0], pressure_die=None),)
    )


def test_trim_for_the_collet(dryer_part: Part, metric_profile: MachineProfile) -> None:
    blank = blank_of(dryer_part, metric_profile)
    assert blank.front_trim == 0.0
    assert blank.rear_trim == pytest.approx(143.0)
    assert blank.length == pytest.approx(NET + 143.0)


@pytest.mark.parametrize(("clamp", "mandrel"), [(210.0, None), (150.0, 210.0), (150.0, 20.0)])
def test_trim_for_the_clamp_and_the_mandrel(
    dryer_part: Part, metric_profile: MachineProfile, clamp: float, mandrel: float | None
) -> None:
    # One bend: the straight of 197 ahead of it falls 13 short of 210.
    elbow = replace(dryer_part, centreline=replace(CENTRELINE, vertices=CENTRELINE.vertices[:3]))
    (die,) = metric_profile.dies
    profile = replace(metric_profile, dies=(replace(die, clamp=clamp, mandrel_ahead=mandrel),))
    needed = max(clamp, mandrel or 0.0)
    assert blank_of(elbow, profile).front_trim == pytest.approx(max(0.0, needed - 197.0))


def test_nothing_to_trim_has_no_marks(dryer_part: Part, metric_profile: MachineProfile) -> None:
    blank = blank_of(dryer_part, roomy(metric_profile))
    assert blank.length == pytest.approx(NET)
    assert blank.cut_marks == ()


def test_excess_for_the_shortest_blank_goes_to_the_rear(dryer_part: Part, metric_profile: MachineProfile) -> None:
    profile = replace(roomy(metric_profile), blank=replace(metric_profile.blank, shortest=1000.0))
    blank = blank_of(dryer_part, profile)
    assert blank.length == pytest.approx(1000.0)
    assert blank.front_trim == 0.0
    assert blank.rear_trim == pytest.approx(1000.0 - NET)


@pytest.mark.parametrize(("stop", "sawn"), [(1.0, 824.0), (25.0, 825.0), (823.584066, 823.584066)])
def test_the_saw_stop_rounds_up(dryer_part: Part, metric_profile: MachineProfile, stop: float, sawn: float) -> None:
    profile = replace(roomy(metric_profile), blank=replace(metric_profile.blank, resolution=stop))
    blank = blank_of(dryer_part, profile)
    assert blank.length == pytest.approx(sawn, abs=1e-4)
    assert blank.rear_trim == pytest.approx(sawn - NET, abs=1e-4)


def test_a_forbidden_rear_trim_is_not_padded(dryer_part: Part, metric_profile: MachineProfile) -> None:
    profile = replace(roomy(metric_profile), blank=replace(metric_profile.blank, resolution=25.0))
    assert blank_of(replace(dryer_part, trim="front"), profile).length == pytest.approx(NET)


def test_trims_and_blank_that_the_shop_fixes(dryer_part: Part, metric_profile: MachineProfile) -> None:
    fixed = blank_of(replace(dryer_part, front_trim=20.0, rear_trim=150.0), metric_profile)
    assert (fixed.front_trim, fixed.rear_trim) == (20.0, 150.0)
    assert fixed.length == pytest.approx(NET + 170.0)
    given = blank_of(replace(dryer_part, front_trim=20.0, blank=1100.0), metric_profile)
    assert given.length == pytest.approx(1100.0)
    assert given.front_trim == 20.0
    assert given.rear_trim == pytest.approx(1080.0 - NET)


def test_from_the_other_end_a_fixed_blank_and_trim_stay_what_they_are(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    given = reverse_part(replace(dryer_part, front_trim=20.0, blank=1200.0))
    blank = blank_of(given, roomy(metric_profile))
    assert blank.length == pytest.approx(1200.0)
    assert blank.rear_trim == pytest.approx(20.0)
    assert blank.front_trim == pytest.approx(1180.0 - NET)


def test_marks_of_both_ends(dryer_part: Part, metric_profile: MachineProfile) -> None:
    blank = blank_of(replace(dryer_part, front_trim=20.0), metric_profile)
    front, rear, apex, check = blank.cut_marks
    assert front == CutMark(end="front", distance=20.0, when="before_bending", measured_from="front_end")
    assert (rear.end, rear.when, rear.measured_from) == ("rear", "after_bending", "last_bend_end")
    assert rear.distance == pytest.approx(157.0)
    # Straight 157, tangent 103 and half the OD of 50 at the outer apex of 90°.
    assert apex.measured_from == "last_outer_apex"
    assert apex.distance == pytest.approx(157.0 + 103.0 + 25.0)
    assert (check.when, check.measured_from) == ("check_only", "rear_end")
    assert check.distance == pytest.approx(143.0)


def test_a_large_last_bend_has_no_outer_apex_to_measure_from(dryer_part: Part, metric_profile: MachineProfile) -> None:
    (table,) = metric_profile.tables
    rows = (*table.rows[:-1], replace(table.rows[-1], angle_deg=160.0))
    hairpin = ((0.0, 0.0, 0.0), (1000.0, 0.0, 0.0), (1000.0 - 900.0 * math.cos(math.radians(25.0)), 380.36, 0.0))
    part = replace(dryer_part, centreline=Centreline(vertices=tuple(Vertex(x=x, y=y, z=z) for x, y, z in hairpin)))
    plan = plan_part(replace(part, rear_trim=30.0), replace(metric_profile, tables=(replace(table, rows=rows),)))
    assert plan.program is not None
    assert [mark.measured_from for mark in plan.program.blank.cut_marks] == ["last_bend_end", "rear_end"]
    assert not [check for check in plan.program.checks if check.id.startswith(("apex-leg", "outer-apex"))]


def test_a_part_without_bends_is_cut_from_the_front_cut(dryer_part: Part, metric_profile: MachineProfile) -> None:
    straight = replace(dryer_part, centreline=Centreline(vertices=(Vertex(x=0, y=0, z=0), Vertex(x=0, y=450, z=0))))
    plain = blank_of(straight, metric_profile)
    assert (plain.length, plain.cut_marks) == (450.0, ())
    trimmed = blank_of(replace(straight, rear_trim=50.0), metric_profile)
    assert trimmed.length == 500.0
    assert [(mark.measured_from, mark.distance) for mark in trimmed.cut_marks] == [
        ("front_cut", 450.0),
        ("rear_end", 50.0),
    ]


def saw_cautions(part: Part, profile: MachineProfile) -> list[str]:
    return [finding.text for finding in plan_part(part, profile).findings if "saw stops" in finding.text]


@pytest.mark.parametrize("trim", ["front", "none"])
def test_a_blank_between_saw_stops_says_what_to_take_off(
    dryer_part: Part, metric_profile: MachineProfile, trim: TrimEnds
) -> None:
    profile = replace(roomy(metric_profile), blank=replace(metric_profile.blank, resolution=25.0))
    assert saw_cautions(replace(dryer_part, trim=trim), profile) == [
        "the saw stops at 825 mm, the blank is 823.58 mm: take the 1.42 mm off before bending, or let the part have "
        "trim at the rear"
    ]
    assert saw_cautions(replace(dryer_part, trim="both"), profile) == []


def test_a_fixed_blank_is_held_against_the_saw_stops(dryer_part: Part, metric_profile: MachineProfile) -> None:
    profile = replace(metric_profile, blank=replace(metric_profile.blank, resolution=5.0))
    assert saw_cautions(replace(dryer_part, blank=1000.0), profile) == []
    (text,) = saw_cautions(replace(dryer_part, blank=1001.0), profile)
    assert text.startswith("the saw stops at 1005 mm, the blank is 1001 mm: take the 4 mm off")


@pytest.mark.parametrize(("stop", "cut"), [(0.06, False), (5.0, True)])
def test_what_the_saw_stop_adds_is_cut_off_only_where_a_saw_can(
    dryer_part: Part,
    metric_profile: MachineProfile,
    stop: float,
    cut: bool,  # noqa: FBT001 - a column of the table
) -> None:
    """What stays on is part of the rear straight, so that it is foretold."""
    shop = roomy(metric_profile)
    coarse = replace(shop, blank=replace(shop.blank, resolution=stop))
    exact, program = plan_part(dryer_part, shop).program, plan_part(dryer_part, coarse).program
    assert exact is not None
    assert program is not None
    added = program.blank.length - exact.blank.length
    assert 0.0 < added < stop
    assert bool(program.blank.cut_marks) is cut
    assert ("rear-cut" in {check.id for check in program.checks}) is cut
    longer = program.finished.straights[-1] - exact.finished.straights[-1]
    assert longer == pytest.approx(0.0 if cut else added, abs=1e-9)
