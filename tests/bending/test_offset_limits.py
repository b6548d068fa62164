"""An offset for which nothing fits: the finding, and the changes that would make it fit."""

from dataclasses import replace

import pytest

from bendgen.bending.hands import mirror_part, reverse_part
from bendgen.bending.planning import plan_part
from bendgen.records.findings import Finding
from bendgen.records.machine import MachineProfile
from bendgen.records.offset import EndOffCentre, OffsetWish
from bendgen.records.tooling import ContourClamp
from tests.offset_jobs import RigidBender, offset_part, rigid_bender

JOG = OffsetWish(rise=40.0, length=520.0, shortest_end=60.0)
CLAMP = 110.0

# A rise of 40 on CLR 100 with 110 between: 200 (1 - cos A) + 110 sin A = 40 has A = 16.68411° and a run of 162.78821.
# Ends of 60 leave a run of 400: 40 / tan A + 200 tan(A / 2) = 400 has A = 5.85953° and 381.57568 between.


@pytest.fixture
def bender() -> RigidBender:
    return rigid_bender(clr=100.0, clamp=CLAMP)


def misfit(wish: OffsetWish, profile: MachineProfile) -> Finding:
    plan = plan_part(offset_part(wish), profile)
    assert plan.program is None
    (finding,) = plan.findings
    assert (finding.rule, finding.level, finding.step) == ("offset", "limit", None)
    return finding


def changes(finding: Finding) -> list[tuple[str, object]]:
    return [(cure.change.key, cure.change.value) for cure in finding.cures]


def test_ends_that_leave_no_room(bender: RigidBender) -> None:
    finding = misfit(replace(JOG, length=320.0, shortest_end=90.0), bender.profile)
    assert finding.text == "two bends of 16.68° leave 78.606 mm of straight at either end; 90 mm is asked for"
    assert finding.value == pytest.approx(78.606, abs=5e-4)
    assert finding.limit == 90.0
    # The straight left is rounded down and the length up, to the last thousandth that fits.
    assert changes(finding)[:2] == [("offset.shortest_end", 78.605), ("offset.length", 342.789)]
    assert [key for key, _ in changes(finding)[2:]] == ["offset.rise"]


@pytest.mark.parametrize("rise", [0.01, 0.3])
def test_a_rise_too_small_for_die_and_machine(bender: RigidBender, rise: float) -> None:
    die = replace(bender.die, smallest_bend_deg=1.0)
    finding = misfit(replace(JOG, rise=rise), replace(bender.profile, dies=(die,)))
    # 2 · 100 (1 - cos 1°) + 110 sin 1° = 1.950
    assert finding.text == f"die 'only' cannot make a rise of {rise:g} mm in 520 mm; the nearest is 1.95 mm"
    assert changes(finding) == [("offset.rise", 1.951)]


def test_a_length_shorter_than_any_offset(bender: RigidBender) -> None:
    die = replace(bender.die, smallest_bend_deg=1.0, largest_bend_deg=30.0)
    finding = misfit(replace(JOG, length=60.0, shortest_end=0.0), replace(bender.profile, dies=(die,)))
    assert finding.value is not None
    assert finding.value < 0.0
    assert changes(finding) == [("offset.length", 162.789)]


def test_a_clamp_longer_than_the_part(bender: RigidBender) -> None:
    finding = misfit(replace(JOG, angle_deg=40.0), replace(bender.profile, dies=(replace(bender.die, clamp=5000.0),)))
    assert finding.text == "no two bends of die 'only' fit into 520 mm with an angle of 40°"


def test_an_angle_that_no_die_makes(bender: RigidBender) -> None:
    short = replace(bender.profile, dies=(replace(bender.die, largest_bend_deg=5.0),))
    finding = misfit(replace(JOG, angle_deg=12.0, length=300.0), short)
    assert finding.text == "die 'only' and the machine make no bends with an angle of 12°"
    assert (finding.value, finding.limit) == (None, None)


def test_another_die_set_for_the_tube(bender: RigidBender) -> None:
    tight = replace(bender.die, id="tight", clr=50.0, clamp=60.0)
    tables = (*bender.profile.tables, replace(bender.profile.tables[0], file="tables/tight.toml", die="tight"))
    other_tube = replace(tight, id="other", tube_od=25.0)
    profile = replace(bender.profile, dies=(bender.die, tight, other_tube), tables=tables)
    plan = plan_part(offset_part(replace(JOG, length=320.0, shortest_end=90.0), die="only"), profile)
    assert ("part.die", "tight") in changes(plan.findings[0])
    assert ("part.die", "other") not in changes(plan.findings[0])


def test_a_given_angle_to_blame(bender: RigidBender) -> None:
    large, small = (
        misfit(replace(JOG, angle_deg=40.0), bender.profile),
        misfit(replace(JOG, angle_deg=2.0), bender.profile),
    )
    assert large.text == "two bends of 40° do not fit; from 5.86° to 16.68° they would"
    assert small.text == "two bends of 2° do not fit; from 5.86° to 16.68° they would"
    assert ("offset.angle", 16.68) in changes(large)
    assert ("offset.angle", 5.86) in changes(small)
    assert "offset.length" in [key for key, _ in changes(small)]


def test_a_given_straight_between_to_blame(bender: RigidBender) -> None:
    short, long = (
        misfit(replace(JOG, between=30.0), bender.profile),
        misfit(replace(JOG, between=600.0), bender.profile),
    )
    assert short.text == "a straight between of 30 mm does not fit; from 110 mm to 381.576 mm it would"
    assert changes(short) == [("offset.between", 110.0)]
    assert changes(long)[0] == ("offset.between", 381.575)
    assert "offset.length" in [key for key, _ in changes(long)]


def test_ends_placed_off_an_axis_are_moved_at_the_files_rear(bender: RigidBender) -> None:
    wish = OffsetWish(
        front=EndOffCentre(out=10.0, clock_deg=0.0),
        rear=EndOffCentre(out=60.0, clock_deg=180.0),
        length=330.0,
        shortest_end=80.0,
    )
    part = offset_part(wish)
    keys = set()
    for made in (part, mirror_part(part), reverse_part(part), mirror_part(reverse_part(part))):
        (finding,) = plan_part(made, bender.profile).findings
        (value,) = (value for key, value in changes(finding) if key == "offset.rear.out")
        keys.add(value)
    assert len(keys) == 1
    (out,) = keys
    assert isinstance(out, float)
    assert 0.0 < out < 60.0
    assert wish.rear is not None
    cured = replace(wish, rear=replace(wish.rear, out=out))
    assert plan_part(offset_part(cured), bender.profile).program is not None
    farther = replace(wish, rear=replace(wish.rear, out=out + 0.002))
    assert plan_part(offset_part(farther), bender.profile).program is None


def test_lengths_are_in_the_unit_of_the_parts_file(bender: RigidBender) -> None:
    part = replace(offset_part(replace(JOG, length=320.0, shortest_end=90.0)), units="in")
    (finding,) = plan_part(part, bender.profile).findings
    assert finding.text == "two bends of 16.68° leave 3.095 in of straight at either end; 3.543 in is asked for"
    assert changes(finding)[0] == ("offset.shortest_end", pytest.approx(3.094))


def test_what_is_still_to_cure_is_said(bender: RigidBender) -> None:
    part = replace(offset_part(replace(JOG, length=320.0, shortest_end=90.0)), trim="none")
    (finding,) = plan_part(part, bender.profile).findings
    assert finding.cures[0].text == "leave 78.605 mm at either end; still to cure then: clamp"


# ---- limits that other rules find, cured on an offset ----


def test_a_clamp_without_trim_is_cured_by_a_longer_part(bender: RigidBender) -> None:
    part = replace(offset_part(replace(JOG, length=300.0)), trim="rear")
    plan = plan_part(part, bender.profile)
    (finding,) = (found for found in plan.findings if found.level == "limit")
    assert (finding.rule, finding.step) == ("clamp", 1)
    cured = dict(changes(finding))
    assert cured["part.trim"] == "both"
    length = cured["offset.length"]
    assert isinstance(length, float)
    assert finding.limit is not None
    assert finding.value is not None
    assert length == pytest.approx(300.0 + 2.0 * (finding.limit - finding.value), abs=2e-3)
    longer = replace(part, offset=replace(JOG, length=length))
    assert plan_part(longer, bender.profile).program is not None


def test_a_blank_too_long_is_cured_by_a_shorter_part(bender: RigidBender) -> None:
    profile = replace(bender.profile, blank=replace(bender.profile.blank, longest=500.0))
    (finding,) = (f for f in plan_part(offset_part(JOG), profile).findings if f.level == "limit")
    values = [value for key, value in changes(finding) if key == "offset.length"]
    assert values
    for value in values:
        assert isinstance(value, float)
        assert value < 520.0
        assert plan_part(offset_part(replace(JOG, length=value)), profile).program is not None
    assert len(set(values)) == len(values)


def test_a_contoured_clamp_may_part_what_fits_in_two(bender: RigidBender) -> None:
    contour = ContourClamp(shortest_between=12.0, before_angle_deg=(20.0, 24.0), rotation_deg=(180.0,))
    profile = replace(bender.profile, dies=(replace(bender.die, contour=contour),))
    finding = misfit(OffsetWish(rise=30.0, length=300.0, shortest_end=60.0, angle_deg=18.0), profile)
    # 200 (1 - cos A) + 110 sin A = 30 has A = 13.05°; 30 / tan A + 200 tan(A / 2) = 180 has A = 10.52°.
    assert finding.text == "two bends of 18° do not fit; from 10.52° to 13.05° or from 20.00° to 24.00° they would"
    assert finding.limit == pytest.approx(20.0)
    assert changes(finding)[:2] == [("offset.angle", 13.04), ("offset.angle", 20.0)]


def test_a_die_set_that_nothing_is_known_about_is_no_cure(bender: RigidBender) -> None:
    unknown = replace(bender.die, id="unknown", clr=50.0, clamp=60.0)
    profile = replace(bender.profile, dies=(bender.die, unknown))
    plan = plan_part(offset_part(replace(JOG, length=320.0, shortest_end=90.0), die="only"), profile)
    assert "part.die" not in [key for key, _ in changes(plan.findings[0])]


def test_a_part_whose_ends_are_too_long_to_feed_can_be_shorter(bender: RigidBender) -> None:
    feed = replace(bender.profile.feed, largest=200.0)
    finding = misfit(replace(JOG, length=900.0), replace(bender.profile, feed=feed))
    # With 200 between, 200 (1 - cos A) + 200 sin A = 40 has A = 10.55° and a run of 233.238.
    assert finding.text == "at least 333.381 mm of straight is left at either end; the machine feeds 200 mm"
    assert [(key, value) for key, value in changes(finding) if key == "offset.length"] == [("offset.length", 633.238)]
