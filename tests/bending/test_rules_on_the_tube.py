"""Rules about holes, seam, ends, code and self-contact, on whole parts: what is found, and what cures it."""

from dataclasses import replace

import pytest

from bendgen.bending.planning import plan_part
from bendgen.records.bend_program import BendProgram, EndLeft
from bendgen.records.findings import Finding
from bendgen.records.machine import MachineProfile
from bendgen.records.part import EndFit, Part, PipingCode, WantedBend, WantedSteps
from bendgen.records.tube import Perforation

# The fixtures' part: straights 197, 154 and 157, two bends that use 157.792 each; the blank is 966.584 with a rear
# trim of 143; clamp 110, grip 60.


def found(part: Part, profile: MachineProfile, rule: str) -> list[Finding]:
    return [finding for finding in plan_part(part, profile).findings if finding.rule == rule]


def program_of(part: Part, profile: MachineProfile) -> BendProgram:
    plan = plan_part(part, profile)
    assert plan.program is not None, plan.findings
    return plan.program


def with_holes(part: Part, profile: MachineProfile, holes: Perforation | None) -> tuple[Part, MachineProfile]:
    tables = tuple(replace(table, perforated=True) for table in profile.tables)
    tube = replace(part.tube, perforated=True, perforation=holes)
    return replace(part, tube=tube), replace(profile, tables=tables)


# ---- holes ----


def test_holes_of_unknown_place_are_a_general_caution(dryer_part: Part, metric_profile: MachineProfile) -> None:
    (caution,) = found(*with_holes(dryer_part, metric_profile, None), "perforated")
    assert (caution.level, caution.step) == ("caution", None)
    assert caution.text.startswith("perforated tube: keep holes clear of clamp, mandrel and collet")


def test_holes_under_clamp_and_collet_are_measured(dryer_part: Part, metric_profile: MachineProfile) -> None:
    # Plain for 150 at the front: the clamp holds 87 to 197 of the blank, 47 of it with holes. The second clamp holds
    # 398.792 to 508.792, all of it with holes. Plain for the last 40 of the part, and the trim: the collet sees none.
    holes = Perforation(hole=3.0, pitch=5.0, pattern="60", plain_front=150.0, plain_rear=40.0)
    cautions = found(*with_holes(dryer_part, metric_profile, holes), "perforated")
    clamps = [(caution.step, caution.text) for caution in cautions if "clamp" in caution.text]
    assert clamps == [
        (1, "47 mm of perforated tube lies under the clamp: expect marks and slip"),
        (2, "110 mm of perforated tube lies under the clamp: expect marks and slip"),
    ]
    assert not [caution for caution in cautions if "collet" in caution.text]


def test_holes_in_the_collet_are_measured(dryer_part: Part, metric_profile: MachineProfile) -> None:
    # A rear straight of 300 needs no trim: the last 60 of the blank lie in the collet, 15 of them plain.
    steps = WantedSteps(bends=(WantedBend(straight=200.0, rotation_deg=0.0, angle_deg=90.0),), rear=400.0)
    holes = Perforation(hole=3.0, pitch=5.0, pattern="60", plain_front=200.0, plain_rear=15.0)
    part, profile = with_holes(replace(dryer_part, centreline=None, steps=steps), metric_profile, holes)
    texts = [caution.text for caution in found(part, profile, "perforated")]
    assert texts == ["45 mm of perforated tube lies inside the collet: expect marks and slip"]


# ---- weld seam ----


def test_the_seam_is_carried_through_a_program_and_mirrored_with_it(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    # Two equal bends a quarter turn apart leave the first rotation free: it stays 0.
    part = replace(dryer_part, tube=replace(dryer_part.tube, seam_deg=30.0))
    steps = program_of(part, metric_profile).steps
    assert [step.rotation_deg for step in steps] == [0.0, 90.0]
    assert [step.seam_deg for step in steps] == pytest.approx([30.0, 120.0])


def test_one_bend_is_turned_until_its_seam_is_out_of_harms_way(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    bend = WantedSteps(bends=(WantedBend(straight=200.0, rotation_deg=0.0, angle_deg=90.0),), rear=400.0)
    part = replace(dryer_part, centreline=None, steps=bend, tube=replace(dryer_part.tube, seam_deg=60.0))
    (step,) = program_of(part, metric_profile).steps
    assert step.rotation_deg == -60.0
    assert step.seam_deg == pytest.approx(0.0)


# ---- ends ----


def test_an_end_too_short_for_its_use_is_a_caution_and_on_the_program(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    front_fit, rear_fit = EndFit(kind="sized", straight=200.0), EndFit(kind="plain", straight=157.0)
    part = replace(dryer_part, front_fit=front_fit, rear_fit=rear_fit)
    (caution,) = found(part, metric_profile, "ends")
    assert caution.level == "caution"
    assert caution.text == "front end, to be sized, needs 200 mm of straight; 197 mm is left"
    front, rear = program_of(part, metric_profile).ends
    assert replace(front, left=0.0) == EndLeft(end="front", kind="sized", needed=200.0, left=0.0)
    assert replace(rear, left=0.0) == EndLeft(end="rear", kind="plain", needed=157.0, left=0.0)
    assert (front.left, rear.left) == pytest.approx((197.0, 157.0), abs=0.06)  # feeds are rounded to 0.1


# ---- B31.1, factors of table 102.4.5 as in tests/handbook/test_asme_b31_1.py ----


def on_clr(profile: MachineProfile, clr: float) -> MachineProfile:
    return replace(profile, dies=tuple(replace(die, clr=clr) for die in profile.dies))


def test_a_bend_tighter_than_the_code_knows_is_a_limit(dryer_part: Part, metric_profile: MachineProfile) -> None:
    part = replace(dryer_part, code=PipingCode(rule="B31.1", minimum_wall=1.0))
    limits = [finding for finding in found(part, metric_profile, "shape") if finding.level == "limit"]
    assert [(limit.step, limit.value, limit.limit) for limit in limits] == [(1, 100.0, 150.0), (2, 100.0, 150.0)]
    assert limits[0].text == "B31.1: CLR 100 mm is tighter than 3 D, for which its table has no factor"


@pytest.mark.parametrize(("minimum", "broken"), [(1.2, 0), (1.201, 2)])
def test_wall_before_bending_is_held_against_the_code(
    dryer_part: Part, metric_profile: MachineProfile, minimum: float, broken: int
) -> None:
    # 3 D needs 1.25 of the minimum wall: 1.2 asks for just the 1.5 there is.
    part = replace(dryer_part, code=PipingCode(rule="B31.1", minimum_wall=minimum))
    findings = found(part, on_clr(metric_profile, 150.0), "shape")
    assert [finding.level for finding in findings].count("limit") == broken
    assert findings[0].text.startswith("B31.1: pressure parts follow the code and its licensed people")


def test_more_wall_cures_a_wall_too_thin_for_the_code(dryer_part: Part, metric_profile: MachineProfile) -> None:
    # 1.22 of minimum wall asks for 1.525: within 2 % of the table's 1.5, so that the table still serves.
    part = replace(dryer_part, code=PipingCode(rule="B31.1", minimum_wall=1.22))
    profile = on_clr(metric_profile, 150.0)
    limits = [finding for finding in found(part, profile, "shape") if finding.level == "limit"]
    assert [[(cure.change.key, cure.change.value) for cure in limit.cures] for limit in limits] == [
        [("tube.wall", 1.525)],
        [("tube.wall", 1.525)],
    ]
    thicker = replace(part, tube=replace(part.tube, wall=1.525))
    assert [finding.level for finding in found(thicker, profile, "shape")] == ["caution"]


# ---- the tube meeting itself ----


def closed_ring(straight: float, part: Part) -> Part:
    """Four right angles in one plane: the last straight comes back to the first."""
    bends = [WantedBend(straight=straight, rotation_deg=0.0, angle_deg=90.0) for _ in range(4)]
    return replace(part, centreline=None, steps=WantedSteps(bends=tuple(bends), rear=straight))


def test_a_ring_that_meets_itself_is_a_limit(dryer_part: Part, metric_profile: MachineProfile) -> None:
    (limit,) = [f for f in found(closed_ring(400.0, dryer_part), metric_profile, "geometry") if f.level == "limit"]
    assert (limit.limit, limit.step) == (50.0, 4)
    assert limit.value is not None
    assert limit.value < 50.0
    assert "the tube meets itself after this bend" in limit.text
    assert any(cure.text.startswith("make straight") and cure.text.endswith("longer") for cure in limit.cures)


@pytest.mark.parametrize(("out_of_plane", "limits"), [(0.0, 1), (2.0, 1), (20.0, 0), (90.0, 0)])
def test_a_triangle_whose_last_straight_crosses_its_first(
    dryer_part: Part, metric_profile: MachineProfile, out_of_plane: float, limits: int
) -> None:
    """Two bends of 120°, vertices some 860 mm apart, an equilateral triangle in the plane.

    A rotation φ lifts the last straight where it would meet the first: by 860 · sin 60° · sin φ, 26 mm for 2° and
    255 mm for 20°. The OD is 50.
    """
    bends = (
        WantedBend(straight=900.0, rotation_deg=0.0, angle_deg=120.0),
        WantedBend(straight=500.0, rotation_deg=out_of_plane, angle_deg=120.0),
    )
    part = replace(dryer_part, centreline=None, steps=WantedSteps(bends=bends, rear=900.0))
    texts = [finding.text for finding in found(part, metric_profile, "geometry") if finding.level == "limit"]
    assert ["the tube meets itself after this bend" in text for text in texts] == [True] * limits


def test_a_spiral_stays_clear_of_itself(dryer_part: Part, metric_profile: MachineProfile) -> None:
    # The last side but one is 150 shorter: the last straight runs 150 beside the first, which is 50 thick.
    part = closed_ring(400.0, dryer_part)
    assert part.steps is not None
    *before, last = part.steps.bends
    spiral = replace(part, steps=replace(part.steps, bends=(*before, replace(last, straight=250.0))))
    assert not found(spiral, metric_profile, "geometry")
