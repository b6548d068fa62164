"""The neutral step list as JSON: what it holds, its id, and reading it back."""

import hashlib
import json
import math
from collections.abc import Callable
from dataclasses import fields, replace
from datetime import date
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter

from bendgen.bending.planning import plan_part
from bendgen.errors import InputError
from bendgen.files.output_models import StepsFile
from bendgen.files.step_list_json import parse_steps_json
from bendgen.files.steps_json import format_steps_json, program_id
from bendgen.records.bend_program import Bendability, BendProgram, EndLeft, Uncertainty
from bendgen.records.comparison import Cause
from bendgen.records.correction import BendCorrection, CommandsBefore, Correction
from bendgen.records.machine import ShapeLimits
from bendgen.records.part import EndFit, Part, PipingCode, Tolerance
from bendgen.records.tube import Perforation, Tube

Content = dict[str, Any]


def content_of(program: BendProgram) -> Content:
    content: Content = json.loads(format_steps_json(program, program_id="0a1b2c3d", issue=3))
    return content


def test_holds_the_keys_of_the_format(example_program: BendProgram) -> None:
    content = content_of(example_program)
    assert (content["format"], content["version"], content["id"]) == ("bendgen-steps", 1, "0a1b2c3d")
    assert content["part"]["number"] == "GD-118"
    assert content["part"]["issue"] == 3
    assert content["machine"] == {"name": "Bay 2 mandrel bender", "sha256": "0" * 64}
    assert content["tables"] == [
        {"file": "tables/d50-r100_304l_1.5_2026-03-14.toml", "issued": "2026-03-14", "lot": "7731"}
    ]
    assert content["blank"]["cut_marks"][0] == {
        "end": "rear",
        "distance": 157.0,
        "when": "after_bending",
        "measured_from": "last_bend_end",
    }
    assert content["wanted"]["vertices"][2] == [300.0, 360.0, 0.0]
    assert len(content["predicted"]["points"]) == 6
    assert content["predicted"]["largest_deviation"] == 0.0
    assert content["tolerance"] == {"length": 1.0, "angle": 0.5, "offset": 1.0, "iso2768": None, "source": "default"}
    assert content["checks"][4] == {
        "id": "leg-front",
        "quantity": "apex leg",
        "from": "front end",
        "to": "vertex 2",
        "when": "after cutting",
        "predicted": 300.0,
        "tolerance": 1.0,
        "unit": "mm",
        "band": None,
        "uncertainty": None,
    }
    assert content["findings"][0]["cures"][0]["change"]["key"] == "centreline.vertices"


def test_ends_bendability_bands_and_uncertainty(example_program: BendProgram) -> None:
    unsure = Uncertainty(expanded=0.5, shares=(0.8, 0.2))
    check = replace(example_program.checks[0], band=(990.0, 1001.5), uncertainty=unsure)
    program = replace(
        example_program,
        checks=(check, *example_program.checks[1:]),
        ends=(EndLeft(end="rear", kind="sized", needed=40.0, left=38.5),),
        bendability=(
            Bendability(
                die="d50-r100",
                bend_ratio=2.0,
                wall_factor=25.0,
                outer_strain=0.25,
                thinning_percent=20.0,
                code_factors=(1.125, 0.917),
            ),
        ),
    )
    content = content_of(program)
    assert content["checks"][0]["band"] == [990.0, 1001.5]
    assert content["checks"][0]["uncertainty"] == {"expanded": 0.5, "shares": [0.8, 0.2]}
    assert content["ends"] == [{"end": "rear", "kind": "sized", "needed": 40.0, "left": 38.5}]
    assert content["bendability"] == [
        {
            "die": "d50-r100",
            "bend_ratio": 2.0,
            "wall_factor": 25.0,
            "outer_strain": 0.25,
            "thinning_percent": 20.0,
            "code_wall": None,
            "code_factors": [1.125, 0.917],
            "outer_pitch": None,
        }
    ]


def test_each_step_is_neutral_and_in_full(inch_program: BendProgram) -> None:
    step = content_of(inch_program)["steps"][1]
    assert (step["number"], step["die"]) == (2, "d50-r100")
    assert (step["feed"], step["rotation"], step["bend"]) == (154.0, 90.0, 92.7)
    assert step["passed"] == inch_program.steps[1].passed
    assert step["basis"] == {"springback": "measured", "formed_clr": "arc kept", "elongation": "measured"}
    machine = content_of(inch_program)["machine_steps"]
    assert (machine["units"], machine["feed"], machine["steps"][1]["rotation"]) == ("in", "passed", -90.0)


def test_a_bend_of_half_a_turn_has_no_vertices(example_program: BendProgram) -> None:
    hoop = replace(example_program, wanted=replace(example_program.wanted, vertices=None))
    assert content_of(hoop)["wanted"]["vertices"] is None


def test_text_of_any_script_appears_literally(example_program: BendProgram) -> None:
    part = replace(example_program.part, name='أنبوب "Größe" 管')
    text = format_steps_json(replace(example_program, part=part), program_id="0a1b2c3d", issue=1)
    assert 'أنبوب \\"Größe\\" 管' in text


def test_no_minus_zero(example_program: BendProgram) -> None:
    turned = replace(example_program.steps[0], rotation_deg=-0.0, feed=-0.0)
    text = format_steps_json(replace(example_program, steps=(turned,)), program_id="0a1b2c3d", issue=1)
    assert "-0.0" not in text


def test_a_value_that_is_no_number_is_never_written(example_program: BendProgram) -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        format_steps_json(replace(example_program, largest_deviation=math.nan), program_id="0a1b2c3d", issue=1)


# ---- the schema ----


@pytest.mark.parametrize("name", ["example_program", "inch_program", "blank_program", "perforated_program"])
def test_satisfies_the_model_the_schema_is_made_from(name: str, request: pytest.FixtureRequest) -> None:
    program: BendProgram = request.getfixturevalue(name)
    text = format_steps_json(program, program_id="0a1b2c3d", issue=1)
    TypeAdapter(StepsFile).validate_json(text, strict=True)


@pytest.mark.parametrize("name", ["metric_profile", "inch_profile"])
def test_a_planned_program_satisfies_the_model(dryer_part: Part, name: str, request: pytest.FixtureRequest) -> None:
    program = plan_part(dryer_part, request.getfixturevalue(name)).program
    assert program is not None
    text = format_steps_json(program, program_id="0a1b2c3d", issue=1)
    TypeAdapter(StepsFile).validate_json(text, strict=True)
    assert [step.feed for step in parse_steps_json(text, "a.json").steps] == [step.feed for step in program.steps]


def test_has_no_key_that_the_model_lacks(example_program: BendProgram) -> None:
    model = TypeAdapter(StepsFile)  # takes over no key that it does not know
    assert model.dump_python(model.validate_python(content_of(example_program))) == content_of(example_program)


@pytest.fixture
def perforated_program(example_program: BendProgram) -> BendProgram:
    tube = replace(
        example_program.part.tube,
        perforated=True,
        seam_deg=90.0,
        lot="7731",
        temper="annealed",
        perforation=Perforation(hole=3.0, pitch=5.0, pattern="60", plain_front=40.0),
    )
    return replace(example_program, part=replace(example_program.part, tube=tube), trial_piece=("perforated",))


# ---- the id ----


def test_id_is_the_beginning_of_a_sha256_of_the_file_itself(example_program: BendProgram) -> None:
    content = content_of(example_program)
    del content["id"]
    for table in content["tables"]:
        del table["issued"]
    spelling = json.dumps(content, sort_keys=True, separators=(",", ":"))
    assert program_id(example_program, 3) == hashlib.sha256(spelling.encode()).hexdigest()[:8]


def test_id_does_not_change_with_a_table_issued_again(example_program: BendProgram) -> None:
    later = replace(example_program.tables[0], issued=date(2026, 9, 1))
    assert program_id(replace(example_program, tables=(later,)), 1) == program_id(example_program, 1)


def test_id_changes_with_the_issue(example_program: BendProgram) -> None:
    assert program_id(example_program, 1) != program_id(example_program, 2)


OTHER_PART_VALUES: dict[str, object] = {
    "name": "Dryer outlet pipe",
    "number": "GD-119",
    "revision": "C",
    "quantity": 13,
    "units": "in",
    "tube": Tube(od=50.0, wall=1.6, material="304L"),
    "die": "d50-r100",
    "trim": "rear",
    "front_trim": 1.0,
    "rear_trim": 143.0,
    "blank": 1000.0,
    "tolerance": Tolerance(length=2.0),
    "limits": ShapeLimits(thinning_percent=20.0),
    "mirrored": True,
    "from_rear": True,
    "front_fit": EndFit(kind="sized", straight=40.0),
    "rear_fit": EndFit(kind="plain", straight=20.0),
    "code": PipingCode(rule="B31.1", minimum_wall=1.2),
    "correction": Correction(
        replaces_id="0123abcd",
        replaces_issue=1,
        piece="1",
        causes=(Cause(kind="springback", amount=0.8, unit="deg", share=0.9),),
        bends=(BendCorrection(springback_deg=0.8), BendCorrection(springback_deg=0.8)),
        before=(CommandsBefore(feed=200.0, rotation_deg=0.0, bend_deg=92.7),),
    ),
}


SHOWN_BY_ITS_SHAPE = ("centreline", "offset", "route", "steps")


@pytest.mark.parametrize("field", [field.name for field in fields(Part) if field.name not in SHOWN_BY_ITS_SHAPE])
def test_id_changes_with_everything_a_part_says(example_program: BendProgram, field: str) -> None:
    other: Callable[..., Part] = replace
    part = other(example_program.part, **{field: OTHER_PART_VALUES[field]})
    assert program_id(replace(example_program, part=part), 1) != program_id(example_program, 1)


def test_id_changes_with_the_shape_wanted(example_program: BendProgram) -> None:
    wanted = replace(example_program.wanted, points=example_program.wanted.points[::-1])
    assert program_id(replace(example_program, wanted=wanted), 1) != program_id(example_program, 1)


def test_id_changes_with_any_file_of_the_profile(example_program: BendProgram) -> None:
    profile = replace(example_program.profile, sha256="1" * 64)
    assert program_id(replace(example_program, profile=profile), 1) != program_id(example_program, 1)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(feed=st.floats(-1e5, 1e5).filter(lambda feed: feed != 154.0))
def test_id_changes_with_the_last_digit_of_a_step(example_program: BendProgram, feed: float) -> None:
    steps = (example_program.steps[0], replace(example_program.steps[1], feed=feed))
    assert program_id(replace(example_program, steps=steps), 1) != program_id(example_program, 1)


# ---- reading it back ----


def test_round_trip(perforated_program: BendProgram) -> None:
    read = parse_steps_json(format_steps_json(perforated_program, program_id="0a1b2c3d", issue=1), "a.steps.json")
    assert read.id == "0a1b2c3d"
    assert read.angles == "commanded"
    assert read.tube == perforated_program.part.tube
    assert (read.blank, read.front_trim, read.rear_trim) == (
        perforated_program.blank.length,
        perforated_program.blank.front_trim,
        perforated_program.blank.rear_trim,
    )
    assert [(step.number, step.die, step.feed, step.rotation_deg, step.bend_deg) for step in read.steps] == [
        (step.number, step.die, step.feed, step.rotation_deg, step.bend_deg) for step in perforated_program.steps
    ]


def test_a_blank_without_steps_is_read(blank_program: BendProgram) -> None:
    read = parse_steps_json(format_steps_json(blank_program, program_id="0a1b2c3d", issue=1), "a.steps.json")
    assert read.steps == ()
    assert read.blank == 450.0


def test_unknown_keys_are_passed_over(example_program: BendProgram) -> None:
    content = content_of(example_program)
    plain = parse_steps_json(json.dumps(content), "a.steps.json")
    for item in (content, content["part"], content["part"]["tube"], content["blank"], content["steps"][0]):
        item["of a later program"] = {"any": "thing"}
    assert parse_steps_json(json.dumps(content), "a.steps.json") == plain


def edited(edit: Callable[[Content], object]) -> Callable[[Content], str]:
    def text(content: Content) -> str:
        edit(content)
        return json.dumps(content)

    return text


NO_VERSION = "a.json: version: expected a whole number from 1, found "

BAD_FILES: list[tuple[Callable[[Content], str], list[str]]] = [
    (
        edited(lambda content: content.update(version=2)),
        ["a.json: version: expected at most 1, the newest this program reads, found 2"],
    ),
    (
        edited(lambda content: content.update(version=True)),
        [f"{NO_VERSION}True"],
    ),
    (
        edited(lambda content: content.pop("version")),
        [f"{NO_VERSION}nothing"],
    ),
    (
        edited(lambda content: content.update(format="bendgen-findings")),
        ["a.json: format: expected 'bendgen-steps', found 'bendgen-findings'"],
    ),
    (lambda _: "{}", ["a.json: format: expected 'bendgen-steps', found nothing"]),
    (lambda _: "[1]", ["a.json: expected a JSON object, found another value"]),
    (lambda _: "", ["a.json: line 1: expected JSON, found a syntax error: Expecting value"]),
    (lambda _: '{\n "id": }', ["a.json: line 2: expected JSON, found a syntax error: Expecting value"]),
    (lambda _: "[" * 100_000, ["a.json: expected JSON, found objects or lists nested too deep"]),
    (lambda _: '{"a": NaN}', ["a.json: expected JSON, found NaN, which is no number"]),
    (
        lambda _: f'{{"a": {"9" * 5000}}}',
        ["a.json: expected JSON, found Exceeds the limit (4300 digits) for integer string conversion"],
    ),
    (edited(lambda content: content.pop("id")), ["a.json: id: expected a text that is not empty, found nothing"]),
    (
        edited(lambda content: content["steps"].reverse()),
        ["a.json: steps[2].number: expected a number greater than 2, found 1"],
    ),
    (
        edited(lambda content: content["steps"][0].update(feed=1e400, rotation=200, bend=0.0, die="")),
        ["a.json: expected JSON, found Infinity, which is no number"],
    ),
    (
        edited(lambda content: content["steps"][0].update(feed=2e6, rotation=200, bend=0.0, die="")),
        [
            "a.json: steps[1].die: expected a text that is not empty, found ''",
            "a.json: steps[1].feed: expected a number of at most 1,000,000, found 2000000.0",
            "a.json: steps[1].rotation: expected a number greater than -180 and at most 180, found 200",
            "a.json: steps[1].bend: expected a number greater than 0 and less than 360, found 0.0",
        ],
    ),
    (
        edited(lambda content: (content["part"]["tube"].update(od="wide"), content["blank"].pop("length"))),
        [
            "a.json: part.tube.od: expected a number greater than 0, found 'wide'",
            "a.json: blank.length: expected a number greater than 0, found nothing",
        ],
    ),
]


@pytest.mark.parametrize(("break_it", "messages"), BAD_FILES)
def test_bad_files(example_program: BendProgram, break_it: Callable[[Content], str], messages: list[str]) -> None:
    with pytest.raises(InputError) as caught:
        parse_steps_json(break_it(content_of(example_program)), "a.json")
    assert str(caught.value).splitlines() == messages


ANY_JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=10,
)


@settings(max_examples=200, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(key=st.sampled_from(["id", "part", "blank", "steps", "format", "version"]), value=ANY_JSON)
def test_any_value_anywhere_is_read_or_refused(example_program: BendProgram, key: str, value: object) -> None:
    message = "a.json: "
    try:
        parse_steps_json(json.dumps(content_of(example_program) | {key: value}), "a.json")
    except InputError as error:
        message = str(error)
    assert message.startswith("a.json: ")
