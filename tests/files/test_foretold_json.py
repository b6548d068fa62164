"""What a program foretells comes back from its JSON as it went in; a file that cannot be it is one clear line."""

import json
from typing import Any

import pytest

from bendgen.bending.foretold import foretold_of_program
from bendgen.bending.planning import plan_part
from bendgen.bending.uncertainty import with_uncertainty
from bendgen.errors import InputError
from bendgen.files.foretold_json import parse_foretold
from bendgen.files.steps_json import format_steps_json, program_id
from bendgen.records.bend_program import BendProgram
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part


@pytest.fixture
def program(dryer_part: Part, metric_profile: MachineProfile) -> BendProgram:
    planned = plan_part(dryer_part, metric_profile).program
    assert planned is not None
    return with_uncertainty(planned)


def text_of(program: BendProgram) -> str:
    return format_steps_json(program, program_id=program_id(program, 4), issue=4)


def test_comes_back_as_it_went_in(program: BendProgram) -> None:
    told = foretold_of_program(program, program_id=program_id(program, 4), issue=4)
    assert parse_foretold(text_of(program), "x.steps.json") == told
    assert any(check.uncertainty for check in told.checks)


def test_a_list_that_names_neither_hand_nor_end_is_of_the_part_as_drawn(program: BendProgram) -> None:
    data = json.loads(text_of(program))
    del data["part"]["mirrored"], data["part"]["from_rear"]
    told = parse_foretold(json.dumps(data), "x.steps.json")
    assert (told.mirrored, told.from_rear) == (False, False)


def broken(text: str, *keys: str | int, value: object) -> str:
    data: Any = json.loads(text)
    item = data
    for key in keys[:-1]:
        item = item[key]
    item[keys[-1]] = value
    return json.dumps(data)


@pytest.mark.parametrize(
    ("keys", "value", "expected"),
    [
        (("checks", 0, "predicted"), "900", "checks[1].predicted: expected a number"),
        (("wanted", "straights"), [1.0], "wanted.straights: expected 3 items for 2 steps, found 1"),
        (("predicted", "points"), [], "predicted.points: expected 6 items for 2 steps, found 0"),
        (("wanted", "vertices"), [[0.0, 0.0, 0.0]], "wanted.vertices: expected 4 items for 2 steps, found 1"),
        (("steps", 1, "bend"), 400.0, "steps[2].bend: expected a number greater than 0 and less than 360"),
        (("predicted", "points", 0), [1.0], "predicted.points[1]: expected [x, y, z]"),
        (("machine_steps", "feed"), "sideways", "machine_steps.feed: expected"),
    ],
)
def test_a_broken_file_is_one_clear_line(
    program: BendProgram, keys: tuple[str | int, ...], value: object, expected: str
) -> None:
    with pytest.raises(InputError) as caught:
        parse_foretold(broken(text_of(program), *keys, value=value), "x.steps.json")
    assert str(caught.value).startswith(f"x.steps.json: {expected}")
    assert "\n" not in str(caught.value)


def test_a_key_of_a_newer_version_is_passed_over(program: BendProgram) -> None:
    assert parse_foretold(broken(text_of(program), "new_key", value=1), "x") == parse_foretold(text_of(program), "x")
