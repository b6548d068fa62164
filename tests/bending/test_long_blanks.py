"""A blank too long to carry is cured by taking out as much as is too long, and no less."""

from dataclasses import replace

from bendgen.bending.planning import plan_part
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part


def test_a_blank_a_fraction_of_a_thousandth_too_long_is_cured(metric_profile: MachineProfile, dryer_part: Part) -> None:
    program = plan_part(dryer_part, metric_profile).program
    assert program is not None
    travel = program.blank.length - metric_profile.carriage.grip - 20.0004
    short = replace(metric_profile, carriage=replace(metric_profile.carriage, travel=travel))
    (carriage,) = [finding for finding in plan_part(dryer_part, short).findings if finding.rule == "carriage"]
    assert carriage.level == "limit"
    assert any(cure.text.endswith("shorter") for cure in carriage.cures)
