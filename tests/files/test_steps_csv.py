"""Steps as CSV: neutral whatever the machine, and in the machine's own form."""

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bendgen.errors import OutputError
from bendgen.files.step_list_csv import parse_steps_csv
from bendgen.files.steps_csv import format_machine_csv, format_steps_csv, plain_number
from bendgen.records.bend_program import BendProgram
from bendgen.records.machine import MachineProfile

NEUTRAL = """\
number,die,feed_mm,rotation_deg,bend_deg,id
1,d50-r100,197.0,0.0,92.7,0a1b2c3d
2,d50-r100,154.0,90.0,92.7,0a1b2c3d
"""


def with_die(program: BendProgram, die: str) -> BendProgram:
    return replace(
        program,
        steps=tuple(replace(step, die=die) for step in program.steps),
        machine_steps=tuple(replace(step, die=die) for step in program.machine_steps),
    )


def with_headings(profile: MachineProfile, *headings: str) -> MachineProfile:
    return replace(profile, output=replace(profile.output, headings=headings))


def test_neutral_list(example_program: BendProgram) -> None:
    assert format_steps_csv(example_program, "0a1b2c3d") == NEUTRAL


def test_neutral_list_is_the_same_for_every_machine(inch_program: BendProgram) -> None:
    assert format_steps_csv(inch_program, "0a1b2c3d") == NEUTRAL


def test_metric_machine(example_program: BendProgram) -> None:
    assert format_machine_csv(example_program, "0a1b2c3d") == (
        "number,feed,rotation,bend,id\n1,197.0,0.0,92.7,0a1b2c3d\n2,154.0,90.0,92.7,0a1b2c3d\n"
    )


def test_inch_machine_in_its_own_columns(inch_program: BendProgram) -> None:
    assert format_machine_csv(inch_program, "0a1b2c3d") == (
        "line,tool,degrees,turn,stop,id\n1,d50-r100,92.5,0.0,7.756,0a1b2c3d\n2,d50-r100,92.5,-90.0,20.031,0a1b2c3d\n"
    )


def test_a_blank_has_a_head_only(blank_program: BendProgram) -> None:
    assert format_steps_csv(blank_program, "0a1b2c3d") == "number,die,feed_mm,rotation_deg,bend_deg,id\n"
    assert format_machine_csv(blank_program, "0a1b2c3d") == "number,feed,rotation,bend,id\n"


def test_no_free_text_enters(example_program: BendProgram) -> None:
    part = replace(example_program.part, name="=HYPERLINK(1)", number="+1", revision="@x")
    assert format_steps_csv(replace(example_program, part=part), "0a1b2c3d") == NEUTRAL


def test_a_die_with_comma_and_quote_is_quoted_and_read_back(example_program: BendProgram) -> None:
    text = format_steps_csv(with_die(example_program, 'R100, 4" "hard"'), "0a1b2c3d")
    assert text.splitlines()[1] == '1,"R100, 4"" ""hard""",197.0,0.0,92.7,0a1b2c3d'
    assert parse_steps_csv(text, "a.csv").steps[0].die == 'R100, 4" "hard"'


@pytest.mark.parametrize("die", ["=1+1", "+1", "-d50", "@d50", " =1+1", "\uff1d1"])
def test_a_die_that_would_be_a_formula_is_refused(example_program: BendProgram, die: str) -> None:
    for write in (format_steps_csv, format_machine_csv):
        with pytest.raises(OutputError) as caught:
            write(with_die(example_program, die), "0a1b2c3d")
        assert str(caught.value) == (
            f"'{die}' cannot stand in a CSV, a spreadsheet would take it for a formula: rename it"
        )


def test_a_heading_that_would_be_a_formula_is_refused(example_program: BendProgram) -> None:
    profile = with_headings(example_program.profile, "#", "=Y", "B", "C")
    with pytest.raises(OutputError, match="'=Y' cannot stand in a CSV"):
        format_machine_csv(replace(example_program, profile=profile), "0a1b2c3d")


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_numbers_in_full_without_exponent_or_minus_zero(value: float) -> None:
    text = plain_number(value)
    assert re.fullmatch(r"-?[0-9]+(\.[0-9]+)?", text)
    assert float(text) == value
    assert text not in ("-0", "-0.0")


@pytest.mark.parametrize(
    ("value", "text"), [(1e-7, "0.0000001"), (-0.0, "0.0"), (1e22, "10000000000000000000000"), (152.4, "152.4")]
)
def test_plain_number(value: float, text: str) -> None:
    assert plain_number(value) == text
