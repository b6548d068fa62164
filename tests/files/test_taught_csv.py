"""Measured bends as trial bends: what tells the setback radius goes with the first, or not at all."""

import pytest

from bendgen.bending.foretold import foretold_of_program
from bendgen.bending.planning import plan_part
from bendgen.files.taught_csv import format_taught_csv
from bendgen.files.trials_csv import parse_trials
from bendgen.records.foretold import Foretold
from bendgen.records.machine import MachineProfile
from bendgen.records.measured import MeasuredPiece, Reading
from bendgen.records.part import Part


@pytest.fixture
def foretold(dryer_part: Part, metric_profile: MachineProfile) -> Foretold:
    program = plan_part(dryer_part, metric_profile).program
    assert program is not None
    return foretold_of_program(program)


def piece(**readings: float) -> MeasuredPiece:
    taken = (Reading(line=2, check=check.replace("_", "-"), value=value) for check, value in readings.items())
    return MeasuredPiece(piece="1", lot="77", readings=tuple(taken))


def test_a_front_leg_that_was_read_tells_the_setback_radius(foretold: Foretold, metric_profile: MachineProfile) -> None:
    text = format_taught_csv(foretold, (piece(angle_1=89.6, angle_2=89.7, apex_leg_front=299.5),))
    first, second = parse_trials(text, "taught.csv", metric_profile)
    assert (first.measured_deg, first.feed, first.front_leg) == (89.6, foretold.steps[0].feed, 299.5)
    assert (second.measured_deg, second.feed, second.front_leg) == (89.7, None, None)
    assert (first.lot, first.legs) == ("77", "apex")


def test_a_feed_without_a_leg_is_left_out(foretold: Foretold, metric_profile: MachineProfile) -> None:
    (first,) = parse_trials(format_taught_csv(foretold, (piece(angle_1=89.6),)), "taught.csv", metric_profile)
    assert (first.feed, first.front_leg) == (None, None)
