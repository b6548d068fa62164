"""The files of one program: together, tied by one id, never half."""

import json
import pickle
import subprocess
import sys
import time
from pathlib import Path

import pytest

from bendgen.errors import OutputError
from bendgen.files.output_names import SHEET_PAGE, SHEET_TEXT, next_issue
from bendgen.files.program_files import refuse_existing_issues, write_program
from bendgen.files.step_list_file import read_step_list
from bendgen.files.steps_json import program_id
from bendgen.records.bend_program import BendProgram

SUFFIXES = (".steps.csv", ".machine.csv", ".sheet.txt", ".steps.json")


def test_writes_four_files_the_json_last(example_program: BendProgram, tmp_path: Path) -> None:
    written = write_program(example_program, tmp_path / "new", issue=3, sheets={SHEET_TEXT: "SHEET\n"})
    assert written == tuple(tmp_path / "new" / f"GD-118_B_3{suffix}" for suffix in SUFFIXES)
    assert sorted((tmp_path / "new").iterdir()) == sorted(written)
    assert written[2].read_text(encoding="utf-8") == "SHEET\n"


def test_one_id_ties_them(example_program: BendProgram, tmp_path: Path) -> None:
    steps, machine, _, content = write_program(example_program, tmp_path, issue=3, sheets={SHEET_TEXT: ""})
    tied_by = program_id(example_program, 3)
    assert json.loads(content.read_text(encoding="utf-8"))["id"] == tied_by
    for table in (steps, machine):
        rows = table.read_text(encoding="utf-8").splitlines()
        assert [row.split(",")[-1] for row in rows] == ["id", tied_by, tied_by]


def test_both_lists_read_back_as_the_same_steps(inch_program: BendProgram, tmp_path: Path) -> None:
    steps, _, _, content = write_program(inch_program, tmp_path, issue=1, sheets={SHEET_TEXT: ""})
    assert read_step_list(steps).steps == read_step_list(content).steps
    assert read_step_list(steps).id == read_step_list(content).id == program_id(inch_program, 1)


def test_an_issue_is_never_overwritten(example_program: BendProgram, tmp_path: Path) -> None:
    written = write_program(example_program, tmp_path, issue=1, sheets={SHEET_TEXT: "first"})
    with pytest.raises(OutputError) as caught:
        write_program(example_program, tmp_path, issue=1, sheets={SHEET_TEXT: "second"})
    assert str(caught.value) == f"would overwrite {', '.join(map(str, written))}; nothing was written"
    assert written[2].read_text(encoding="utf-8") == "first"
    assert next_issue(tmp_path, example_program.part) == 2


def test_an_issue_that_is_there_is_refused_with_what_would_help(example_program: BendProgram, tmp_path: Path) -> None:
    write_program(example_program, tmp_path, issue=1, sheets={SHEET_TEXT: "first"})
    with pytest.raises(
        OutputError, match="without --issue the next number is taken, and --force replaces what is there"
    ):
        refuse_existing_issues([example_program.part], tmp_path, issue=1)
    refuse_existing_issues([example_program.part], tmp_path, issue=2)


def test_unless_forced(example_program: BendProgram, tmp_path: Path) -> None:
    write_program(example_program, tmp_path, issue=1, sheets={SHEET_TEXT: "first"})
    written = write_program(example_program, tmp_path, issue=1, sheets={SHEET_TEXT: "second"}, force=True)
    assert written[2].read_text(encoding="utf-8") == "second"


def test_a_page_of_the_issue_replaced_does_not_stay(example_program: BendProgram, tmp_path: Path) -> None:
    both = {SHEET_TEXT: "first", SHEET_PAGE: "first page"}
    written = write_program(example_program, tmp_path, issue=1, sheets=both)
    again = write_program(example_program, tmp_path, issue=1, sheets={SHEET_TEXT: "second"}, force=True)
    assert {path.name for path in set(written) - set(again)} == {"GD-118_B_1.sheet.html"}
    assert sorted(tmp_path.iterdir()) == sorted(again)


WRITE_ISSUES = """
import itertools, pickle, sys
from pathlib import Path
from bendgen.files.program_files import write_program

program = pickle.loads(sys.stdin.buffer.read())
for issue in itertools.count(1):
    write_program(program, Path(sys.argv[1]), issue=issue, sheets={".sheet.txt": "SHEET\\n" * 20_000})
    print(flush=True)
"""


@pytest.mark.parametrize("delay", [0.0013 * step for step in range(8)])
def test_a_kill_leaves_whole_files_and_json_only_with_its_issue_complete(
    example_program: BendProgram, tmp_path: Path, delay: float
) -> None:
    writer = subprocess.Popen(
        [sys.executable, "-c", WRITE_ISSUES, tmp_path], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    )
    with writer:
        assert writer.stdin is not None
        assert writer.stdout is not None
        writer.stdin.write(pickle.dumps(example_program))
        writer.stdin.close()
        writer.stdout.readline()
        time.sleep(delay)
        writer.kill()
    last = next_issue(tmp_path, example_program.part) - 1
    assert last >= 1
    for issue in range(1, last + 1):
        paths = [tmp_path / f"GD-118_B_{issue}{suffix}" for suffix in SUFFIXES]
        there = [path.exists() for path in paths]
        assert there == sorted(there, reverse=True), "a file appeared before the ones it comes after"
        assert issue == last or all(there)
        check_whole([path for path in paths if path.exists()])
    ours = {f"GD-118_B_{issue}{suffix}" for issue in range(1, last + 1) for suffix in SUFFIXES}
    assert all(path.name in ours or path.suffix == ".unfinished" for path in tmp_path.iterdir())


def check_whole(paths: list[Path]) -> None:
    for path in paths:
        if path.name.endswith(".sheet.txt"):
            assert path.read_text(encoding="utf-8") == "SHEET\n" * 20_000
        elif not path.name.endswith(".machine.csv"):
            assert len(read_step_list(path).steps) == 2
        else:
            assert path.read_text(encoding="utf-8").count("\n") == 3
