"""Each rule with a value just inside and just outside its limit, judged before rounding with 1e-6 to spare.

The fixtures' die has CLR 100; a finished 90° springs 2.7°, so the arc of 92.7° winds 161.79 mm of tube, opens to a
radius of 103 and uses 157.792 mm of blank.
"""

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from bendgen.bending.planning import plan_part
from bendgen.records.findings import Finding
from bendgen.records.machine import MachineProfile, ShapeLimits
from bendgen.records.part import Centreline, Part, Vertex, WantedBend, WantedSteps
from bendgen.records.tooling import ContourClamp

USED = 103.0 * math.pi / 2.0 - 4.0
WOUND = math.radians(92.7) * 100.0
WITHIN, BEYOND = 0.5e-6, 3e-6  # mm or degrees past a limit


def elbow(part: Part, straight: float = 200.0, angle: float = 90.0, rear: float = 400.0) -> Part:
    """One bend, given as a step; trim forbidden, so that every shortage is a limit."""
    return steps_part(part, (straight, 0.0, angle), rear=rear)


def steps_part(part: Part, *bends: tuple[float, float, float], rear: float = 400.0) -> Part:
    wish = WantedSteps(bends=tuple(WantedBend(straight=s, rotation_deg=r, angle_deg=a) for s, r, a in bends), rear=rear)
    return replace(part, centreline=None, steps=wish, trim="none")


def with_die(profile: MachineProfile, **changes: Any) -> MachineProfile:  # noqa: ANN401 - any field of a die set
    (die,) = profile.dies
    return replace(profile, dies=(replace(die, **changes),))


def limits(part: Part, profile: MachineProfile) -> list[Finding]:
    return [finding for finding in plan_part(part, profile).findings if finding.level == "limit"]


def broken(part: Part, profile: MachineProfile) -> list[str]:
    return [finding.rule for finding in limits(part, profile)]


def cautions(part: Part, profile: MachineProfile) -> list[tuple[str, int | None, str]]:
    findings = plan_part(part, profile).findings
    return [(f.rule, f.step, f.text) for f in findings if f.level == "caution"]


Case = Callable[[Part, MachineProfile, float], tuple[Part, MachineProfile]]


def _clamp(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    return elbow(part, straight=110.0 - past), profile


def _mandrel(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    return elbow(part, straight=35.0 - past), with_die(profile, clamp=10.0)


def _pressure_die(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    # Carriage before the bend: the rear straight of 400 and what the bend uses, less the grip of 60.
    return elbow(part), with_die(profile, pressure_die=340.0 + USED + past)


def _pressure_travel(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    return elbow(part), with_die(profile, pressure_travel=WOUND - past)


def _grip(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    return elbow(part, rear=300.0 - past), with_die(profile, pressure_die=None)


def _grip_where_the_collet_opens(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    carriage = replace(profile.carriage, open_before_last=True, last_rear=30.0)
    return elbow(part, rear=30.0 - past), with_die(replace(profile, carriage=carriage), pressure_die=None)


def _carriage(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    # Blank 200 + 157.792 + 400, less the grip of 60 and 25 that lie past the tangent line at loading.
    carriage = replace(profile.carriage, load_at=25.0, travel=515.0 + USED - past)
    return elbow(part), replace(profile, carriage=carriage)


def _bend_of_the_machine(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    return elbow(part), replace(profile, bend=replace(profile.bend, largest_deg=92.7 - past))


def _bend_of_the_die(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    return elbow(part), with_die(profile, largest_bend_deg=92.7 - past)


def _smallest_bend(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    return elbow(part), with_die(profile, smallest_bend_deg=90.0 + past)


def _table(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    return elbow(part, angle=135.0 + past), profile  # rows end at 120°


def _rotation(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    rotation = replace(profile.rotation, range_deg=(-60.0, 100.0 - past))
    return steps_part(part, (200.0, 0.0, 30.0), (200.0, 100.0, 30.0)), replace(profile, rotation=rotation)


def _smallest_feed(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    return elbow(part), replace(profile, feed=replace(profile.feed, smallest=200.0 + past))


def _largest_feed(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    return elbow(part), replace(profile, feed=replace(profile.feed, largest=200.0 - past))


def _shortest_blank(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    return elbow(part), replace(profile, blank=replace(profile.blank, shortest=600.0 + USED + past))


def _longest_blank(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    return elbow(part), replace(profile, blank=replace(profile.blank, longest=600.0 + USED - past))


def _blank_too_short_for_the_part(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    return replace(elbow(part), blank=600.0 + USED - past), profile


def _thinning(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    # OD 50 on CLR 100: 1 - 100 / 125 is 20 %; the stricter of part and profile counts.
    return replace(elbow(part), limits=ShapeLimits(thinning_percent=20.0 - past)), replace(
        profile, limits=ShapeLimits(thinning_percent=25.0)
    )


def _wall_factor(part: Part, profile: MachineProfile, past: float) -> tuple[Part, MachineProfile]:
    return elbow(part), replace(profile, limits=ShapeLimits(wall_factor=50.0 / 1.5 - past))


CASES: dict[str, list[Case]] = {
    "clamp": [_clamp],
    "mandrel": [_mandrel],
    "pressure die": [_pressure_die, _pressure_travel],
    "grip": [_grip, _grip_where_the_collet_opens],
    "carriage": [_carriage],
    "bend": [_bend_of_the_machine, _bend_of_the_die, _smallest_bend],
    "table": [_table],
    "rotation": [_rotation],
    "feed": [_smallest_feed, _largest_feed],
    "blank": [_shortest_blank, _longest_blank, _blank_too_short_for_the_part],
    "shape": [_thinning, _wall_factor],
}


@pytest.mark.parametrize(("rule", "case"), [(rule, case) for rule, cases in CASES.items() for case in cases])
def test_just_inside_and_just_outside(dryer_part: Part, metric_profile: MachineProfile, rule: str, case: Case) -> None:
    assert broken(*case(dryer_part, metric_profile, -1.0)) == []
    assert broken(*case(dryer_part, metric_profile, WITHIN)) == []
    assert broken(*case(dryer_part, metric_profile, BEYOND)) == [rule]
    (finding,) = limits(*case(dryer_part, metric_profile, 1.0))
    assert finding.rule == rule
    assert finding.value is not None
    assert finding.limit is not None
    assert abs(finding.value - finding.limit) == pytest.approx(1.0, abs=1e-6)
    (farther,) = limits(*case(dryer_part, metric_profile, 2.0))
    assert farther.value is not None
    assert farther.limit is not None
    # A millimetre or degree more moves what is compared or what it is compared with, never both.
    moved = sorted((abs(farther.value - finding.value), abs(farther.limit - finding.limit)))
    assert moved == pytest.approx([0.0, 1.0], abs=1e-6)


def test_all_findings_come_at_once(dryer_part: Part, metric_profile: MachineProfile) -> None:
    part = steps_part(dryer_part, (50.0, 0.0, 90.0), (20.0, 90.0, 140.0), rear=100.0)
    assert broken(part, metric_profile) == ["table", "clamp", "clamp", "mandrel", "grip"]


def test_texts_of_limits(dryer_part: Part, metric_profile: MachineProfile) -> None:
    found = {f.rule: f.text for f in limits(elbow(dryer_part, straight=20.0, rear=200.0), metric_profile)}
    assert found == {
        "clamp": "20 mm of straight ahead; the clamp of 'd50-r100' needs 110 mm",
        "mandrel": "20 mm of straight ahead; the mandrel of 'd50-r100' needs 35 mm",
        "grip": "200 mm of straight behind the last bend; the collet needs 300 mm",
    }
    inches = replace(elbow(dryer_part, straight=25.4), units="in")
    assert limits(inches, metric_profile)[0].text == "1 in of straight ahead; the clamp of 'd50-r100' needs 4.331 in"


@pytest.mark.parametrize("wall", [1.2, 1.5, 2.0])
def test_walls_that_the_mandrel_takes(dryer_part: Part, metric_profile: MachineProfile, wall: float) -> None:
    (table,) = metric_profile.tables
    profile = replace(metric_profile, tables=(replace(table, wall=wall),))
    fitting = replace(elbow(dryer_part), tube=replace(dryer_part.tube, wall=wall))
    assert broken(fitting, profile) == []


@pytest.mark.parametrize(("wall", "limit"), [(1.19, 1.2), (2.01, 2.0)])
def test_walls_that_the_mandrel_does_not_take(
    dryer_part: Part, metric_profile: MachineProfile, wall: float, limit: float
) -> None:
    (table,) = metric_profile.tables
    profile = replace(metric_profile, tables=(replace(table, wall=wall),))
    (finding,) = limits(replace(elbow(dryer_part), tube=replace(dryer_part.tube, wall=wall)), profile)
    assert (finding.rule, finding.value, finding.limit) == ("mandrel", wall, limit)
    assert finding.text == f"wall {wall:g} mm; the mandrel of 'd50-r100' takes 1.2 mm to 2 mm"


def test_an_od_off_the_groove(dryer_part: Part, metric_profile: MachineProfile) -> None:
    tube = replace(dryer_part.tube, od=50.06)
    (finding,) = limits(replace(elbow(dryer_part), tube=tube, die="d50-r100"), metric_profile)
    assert (finding.rule, finding.step, finding.value, finding.limit) == ("tube", 1, 50.06, 50.0)
    assert broken(replace(elbow(dryer_part), tube=replace(tube, od=50.04)), metric_profile) == []


CONTOUR = ContourClamp(shortest_between=12.0, before_angle_deg=(85.0, 95.0), rotation_deg=(0.0, 180.0))


@pytest.mark.parametrize(
    ("before", "rotation", "needed"),
    [
        (90.0, 0.0, 12.0),
        (90.0, 0.5, 12.0),
        (90.0, -179.6, 12.0),
        (90.0, 1.0, 110.0),
        (90.0, 90.0, 110.0),
        (60.0, 0.0, 110.0),  # commanded 61.9
        (92.0, 0.0, 12.0),  # commanded 94.75
        (93.0, 0.0, 110.0),  # commanded 95.78
    ],
)
def test_a_contoured_clamp_fits_only_the_bend_it_was_cut_for(
    dryer_part: Part, metric_profile: MachineProfile, before: float, rotation: float, needed: float
) -> None:
    profile = with_die(metric_profile, contour=CONTOUR, mandrel_ahead=None)
    part = steps_part(dryer_part, (200.0, 0.0, before), (5.0, rotation, 60.0))
    found = [f for f in limits(part, profile) if f.rule == "clamp"]
    assert [(f.step, f.limit) for f in found] == [(2, needed)]


def test_a_contoured_clamp_needs_a_bend_before(dryer_part: Part, metric_profile: MachineProfile) -> None:
    (finding,) = limits(elbow(dryer_part, straight=50.0), with_die(metric_profile, contour=CONTOUR))
    assert finding.limit == 110.0


def test_overlapping_bends(dryer_part: Part, metric_profile: MachineProfile) -> None:
    corners = ((0.0, 0.0, 0.0), (400.0, 0.0, 0.0), (400.0, 150.0, 0.0), (0.0, 150.0, 0.0))
    drawn = Centreline(vertices=tuple(Vertex(x=x, y=y, z=z) for x, y, z in corners))
    found = limits(replace(dryer_part, centreline=drawn), metric_profile)
    (overlap,) = [f for f in found if f.rule == "geometry" and f.limit == 0.0]
    # 150 less two tangents of 103; both bends fit at a formed radius of 75, which a die of 75 / 1.03 makes.
    assert overlap.value == pytest.approx(-56.0)
    assert overlap.text.endswith("the largest CLR that fits is 72.82 mm")


def test_the_floor(dryer_part: Part, metric_profile: MachineProfile) -> None:
    # The second bend turns the first leg straight down: 400 + 103 and half the OD hang below the axis.
    part = steps_part(dryer_part, (400.0, 0.0, 90.0), (200.0, -90.0, 90.0))

    def at_height(height: float) -> MachineProfile:
        return replace(metric_profile, carriage=replace(metric_profile.carriage, centre_height=height))

    assert broken(part, at_height(528.0)) == []
    (finding,) = limits(part, at_height(527.0))
    assert (finding.rule, finding.step) == ("floor", 2)
    assert finding.value == pytest.approx(528.0)
    assert finding.text == "the tube hangs 528 mm below the machine's axis; the floor is 527 mm below"
    unknown = replace(metric_profile, carriage=replace(metric_profile.carriage, centre_height=None))
    assert broken(part, unknown) == []


def test_what_a_profile_does_not_say_is_not_checked(dryer_part: Part, metric_profile: MachineProfile) -> None:
    silent = with_die(
        replace(metric_profile, feed=replace(metric_profile.feed, smallest=None, largest=None)),
        pressure_die=None,
        pressure_travel=None,
        mandrel_ahead=None,
        walls=None,
    )
    assert (
        broken(
            elbow(dryer_part, straight=3000.0, rear=1000.0),
            replace(silent, carriage=replace(silent.carriage, travel=1e5)),
        )
        == []
    )


def test_a_second_hold_is_a_caution(dryer_part: Part, metric_profile: MachineProfile) -> None:
    profile = replace(metric_profile, carriage=replace(metric_profile.carriage, travel=600.0, regrip=True))
    found = [text for rule, _, text in cautions(elbow(dryer_part), profile) if rule == "carriage"]
    # Blank 757.79 less grip 60 and travel 600.
    assert found == [
        "the blank is 97.79 mm too long for the carriage's travel of 600 mm: load it with the collet that far ahead "
        "of the rear end and take a second hold there"
    ]


def test_trims_are_cautions_that_name_the_saw_cut(dryer_part: Part, metric_profile: MachineProfile) -> None:
    part = replace(elbow(dryer_part, straight=80.0, rear=250.0), trim="both")
    assert cautions(part, metric_profile) == [
        ("clamp", None, "30 mm added at the front for clamp and mandrel: saw it off after bending"),
        ("grip", None, "50 mm added at the rear for the collet: saw it off after bending"),
    ]
    long = replace(metric_profile, blank=replace(metric_profile.blank, shortest=700.0 + USED))
    assert cautions(part, long)[-1] == (
        "blank",
        None,
        "290 mm added at the rear to reach the shortest blank, 857.79 mm: saw it off after bending",
    )


def test_a_die_change_is_a_caution_unless_both_stand_in_one_stack(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    (die,) = metric_profile.dies
    (table,) = metric_profile.tables
    bends = tuple(WantedBend(straight=200.0, rotation_deg=0.0, angle_deg=60.0, clr=clr) for clr in (100.0, 75.0, 75.0))
    part = replace(dryer_part, centreline=None, steps=WantedSteps(bends=bends, rear=400.0))

    def die_cautions(stack: str | None) -> list[tuple[str, int | None, str]]:
        other = replace(die, id="d50-r75", clr=75.0, stack=stack)
        profile = replace(metric_profile, dies=(die, other), tables=(table, replace(table, die="d50-r75")))
        return [caution for caution in cautions(part, profile) if caution[0] == "die"]

    assert die_cautions("lower") == []
    change = ("die", 2, "die change before this bend: take out 'd50-r100', put in 'd50-r75'")
    assert die_cautions("upper") == [change]
    assert die_cautions(None) == [change]


def test_beyond_the_rows_is_a_trial_piece(dryer_part: Part, metric_profile: MachineProfile) -> None:
    plan = plan_part(elbow(dryer_part, angle=130.0), metric_profile)
    assert plan.program is not None
    reason = "finished angle 130.00° is beyond the table's rows, 30° to 120°"
    assert plan.program.trial_piece == (f"bend 1: {reason}",)
    at_the_row = plan_part(elbow(dryer_part, angle=120.0), metric_profile)
    assert at_the_row.program is not None
    assert at_the_row.program.trial_piece == ()


def test_a_perforated_tube_beyond_its_proven_angle_is_a_trial_piece(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    (table,) = metric_profile.tables
    profile = replace(metric_profile, tables=(replace(table, perforated=True, proven_angle_deg=60.0),))
    part = replace(elbow(dryer_part), tube=replace(dryer_part.tube, perforated=True))
    plan = plan_part(part, profile)
    assert plan.program is not None
    reason = "finished angle 90.00° is more than this perforated tube is proven for, 60°"
    assert plan.program.trial_piece == (f"bend 1: {reason}",)


def test_limits_are_judged_before_rounding(dryer_part: Part, metric_profile: MachineProfile) -> None:
    # At 0.5 mm the feed of 109.9 is rounded up to 110, which is what the clamp needs: it still is too short.
    coarse = replace(metric_profile, feed=replace(metric_profile.feed, resolution=0.5))
    assert broken(elbow(dryer_part, straight=109.9), coarse) == ["clamp"]
    # 110.0 at a resolution of 3 mm becomes 111, at 4 mm 108: neither matters.
    for resolution in (3.0, 4.0):
        profile = replace(metric_profile, feed=replace(metric_profile.feed, resolution=resolution))
        assert broken(elbow(dryer_part, straight=110.0), profile) == []
