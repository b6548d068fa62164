"""One line for each part, and one for all."""

from dataclasses import replace

import pytest

from bendgen.records.bend_program import BendProgram
from bendgen.records.findings import Finding
from bendgen.records.part import Part
from bendgen.reports.program_summary import refused_line, summary_line, written_line


def test_written_part(example_program: BendProgram) -> None:
    program = replace(example_program, blank=replace(example_program.blank, length=984.6))
    line = written_line(
        program, program_id="1a2b3c4d", issue=2, files=("GD-118_B_2.sheet.txt", "GD-118_B_2.steps.json")
    )
    assert line == (
        "GD-118 B issue 2 (id 1a2b3c4d): 2 bends, blank 984.6 mm, 12 pieces, 1 caution; "
        "wrote GD-118_B_2.sheet.txt, GD-118_B_2.steps.json"
    )


def test_trial_piece_is_said_instead_of_the_quantity(example_program: BendProgram) -> None:
    program = replace(example_program, trial_piece=("bend 1: estimated",), findings=())
    line = written_line(program, program_id="1a2b3c4d", issue=1, files=("x",))
    assert "TRIAL PIECE, bend one only; wrote x" in line
    assert "12" not in line


def test_refused_part_names_each_broken_rule_once(dryer_part: Part) -> None:
    clamp = Finding(rule="clamp", level="limit", step=1, value=1.0, limit=2.0, unit="mm", text="too short")
    findings = (
        clamp,
        replace(clamp, step=2),
        replace(clamp, rule="trim", level="caution"),
        replace(clamp, rule="grip"),
    )
    assert refused_line(dryer_part, findings) == "GD-118 B: not written, 3 limits broken: clamp, grip"


@pytest.mark.parametrize(
    ("written", "trial_pieces", "refused", "unreadable", "line"),
    [
        (1, 0, 0, 0, "1 part: 1 written"),
        (2, 1, 1, 0, "3 parts: 2 written (1 as trial piece), 1 refused"),
        (0, 0, 0, 2, "2 parts: 0 written, 2 not readable"),
    ],
)
def test_summary(written: int, trial_pieces: int, refused: int, unreadable: int, line: str) -> None:
    text = summary_line(written=written, trial_pieces=trial_pieces, refused=refused, unreadable=unreadable)
    assert text == line
