"""Changes to a part that a cure may ask for."""

from dataclasses import replace

import pytest

from bendgen.bending.changes import can_be_written, longer_straight
from bendgen.bending.hands import reverse_part
from bendgen.bending.layout import layout_of_part
from bendgen.records.part import Part, WantedBend, WantedSteps


@pytest.mark.parametrize("number", [1, 2, 3])
def test_no_cure_shortens_a_straight_given_in_numbers_past_nothing(dryer_part: Part, number: int) -> None:
    bends = tuple(WantedBend(straight=40.0, rotation_deg=0.0, angle_deg=30.0) for _ in range(2))
    part = replace(dryer_part, centreline=None, steps=WantedSteps(bends=bends, rear=40.0))
    layout = layout_of_part(part)
    assert can_be_written(longer_straight(part, layout, number, -40.0))
    assert not can_be_written(longer_straight(part, layout, number, -48.87))


@pytest.mark.parametrize(
    ("number", "key"), [(1, "steps.bend[1].straight"), (2, "steps.bend[2].straight"), (3, "steps.rear")]
)
def test_the_straight_that_is_named_is_the_one_that_grows(dryer_part: Part, number: int, key: str) -> None:
    bends = tuple(WantedBend(straight=straight, rotation_deg=0.0, angle_deg=30.0) for straight in (150.0, 200.0))
    part = replace(dryer_part, centreline=None, steps=WantedSteps(bends=bends, rear=250.0))
    changed = longer_straight(part, layout_of_part(part), number, 7.0)
    steps = changed.part.steps
    assert steps is not None
    grown = [150.0, 200.0, 250.0]
    grown[number - 1] += 7.0
    assert [*(bend.straight for bend in steps.bends), steps.rear] == pytest.approx(grown)
    assert changed.change.key == key
    assert changed.change.value == pytest.approx(grown[number - 1])


def test_a_straight_of_a_part_bent_from_its_rear_is_named_as_filed(dryer_part: Part) -> None:
    bends = tuple(WantedBend(straight=straight, rotation_deg=0.0, angle_deg=30.0) for straight in (150.0, 200.0))
    filed = replace(dryer_part, centreline=None, steps=WantedSteps(bends=bends, rear=250.0))
    part = reverse_part(filed)
    changed = longer_straight(part, layout_of_part(part), 1, 7.0)
    assert (changed.change.key, changed.change.value) == ("steps.rear", 257.0)


def test_a_vertex_may_stand_anywhere(dryer_part: Part) -> None:
    assert can_be_written(longer_straight(dryer_part, layout_of_part(dryer_part), 1, -400.0))
