"""Changes to a part that a cure may ask for."""

from dataclasses import replace

import pytest

from bendgen.bending.changes import can_be_written, longer_straight
from bendgen.bending.layout import layout_of_part
from bendgen.records.part import Part, WantedBend, WantedSteps


@pytest.mark.parametrize("number", [1, 2, 3])
def test_no_cure_shortens_a_straight_given_in_numbers_past_nothing(dryer_part: Part, number: int) -> None:
    bends = tuple(WantedBend(straight=40.0, rotation_deg=0.0, angle_deg=30.0) for _ in range(2))
    part = replace(dryer_part, centreline=None, steps=WantedSteps(bends=bends, rear=40.0))
    layout = layout_of_part(part)
    assert can_be_written(longer_straight(part, layout, number, -40.0))
    assert not can_be_written(longer_straight(part, layout, number, -48.87))


def test_a_vertex_may_stand_anywhere(dryer_part: Part) -> None:
    assert can_be_written(longer_straight(dryer_part, layout_of_part(dryer_part), 1, -400.0))
