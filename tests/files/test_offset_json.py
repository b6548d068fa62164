"""A solved offset in JSON, on its own and in a step list."""

import json
from dataclasses import replace

import pytest
from pydantic import TypeAdapter

from bendgen.files.offset_items import OffsetFile
from bendgen.files.offset_json import format_offset_json
from bendgen.files.steps_json import format_steps_json, program_id
from bendgen.records.bend_program import BendProgram
from bendgen.records.offset import OffsetAnswer, OffsetSolution

ANSWER = OffsetAnswer(angle_deg=16.5, between=110.0, front_straight=177.0, rear_straight=177.0, run=166.0)
SOLUTION = OffsetSolution(
    rise=40.0,
    answer=ANSWER,
    gentlest=replace(ANSWER, angle_deg=5.9, between=379.0),
    tightest=replace(ANSWER, angle_deg=16.6),
    rise_per_tenth_degree=0.29,
    front_turns_to_deg=0.0,
    rear_turns_to_deg=180.0,
    die="d50-r100",
)
ITEM = {"angle": 16.5, "between": 110.0, "front_straight": 177.0, "rear_straight": 177.0, "run": 166.0}


@pytest.fixture
def offset_program(example_program: BendProgram) -> BendProgram:
    return replace(example_program, offset=SOLUTION)


def test_an_explored_offset(offset_program: BendProgram) -> None:
    text = format_offset_json(offset_program, SOLUTION)
    TypeAdapter(OffsetFile).validate_json(text, strict=True)
    content = json.loads(text)
    assert (content["format"], content["version"]) == ("bendgen-offset", 1)
    assert content["tube"]["od"] == 50.0
    assert content["machine"]["name"] == "Bay 2 mandrel bender"
    assert [table["lot"] for table in content["tables"]] == ["7731"]
    assert content["basis"] == "measured"
    assert content["offset"] == {
        "die": "d50-r100",
        "rise": 40.0,
        "answer": ITEM,
        "gentlest": {**ITEM, "angle": 5.9, "between": 379.0},
        "tightest": {**ITEM, "angle": 16.6},
        "rise_per_tenth_degree": 0.29,
        "front_turns_to": 0.0,
        "rear_turns_to": 180.0,
    }


def test_a_straight_tube_has_no_basis(blank_program: BendProgram) -> None:
    assert json.loads(format_offset_json(blank_program, SOLUTION))["basis"] is None


def test_a_step_list_holds_its_offset_or_null(example_program: BendProgram, offset_program: BendProgram) -> None:
    texts = [format_steps_json(p, program_id="0a1b2c3d", issue=1) for p in (example_program, offset_program)]
    assert json.loads(texts[0])["offset"] is None
    assert json.loads(texts[1])["offset"]["answer"] == ITEM


def test_the_id_changes_with_the_offset(example_program: BendProgram, offset_program: BendProgram) -> None:
    assert program_id(offset_program, 1) != program_id(example_program, 1)
