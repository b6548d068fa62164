"""`bendgen program`: what is written, what is said, and the status, for one part and for many."""

import json
from pathlib import Path
from types import SimpleNamespace

import pytest
from typer.testing import CliRunner, Result

from bendgen.cli.app import app

ROOT = Path(__file__).parents[2]
DRYER, HOOP, TOO_TIGHT = (
    str(ROOT / "samples" / f"{name}.toml") for name in ("dryer_inlet", "guard_hoop", "too_tight_offset")
)
FILES = {"machine.csv", "sheet.html", "sheet.txt", "steps.csv", "steps.json"}


def program(*arguments: str, out: Path) -> Result:
    machine = str(ROOT / "machine_profiles" / "bay2")
    return CliRunner().invoke(app, ["program", *arguments, "--machine", machine, "--out", str(out), "--no-html"])


def names(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()} if folder.exists() else set()


def steps_of(file: Path) -> list[list[float]]:
    steps = json.loads(file.read_text(encoding="utf-8"))["steps"]
    return [[step[key] for key in ("feed", "rotation", "bend")] for step in steps]


@pytest.fixture
def broken(tmp_path: Path) -> str:
    file = tmp_path / "broken.toml"
    file.write_text(Path(DRYER).read_text(encoding="utf-8").replace("od = 50.0", "od = -50.0"), encoding="utf-8")
    return str(file)


def test_one_part_is_five_files_and_one_line(tmp_path: Path) -> None:
    machine = str(ROOT / "machine_profiles" / "bay2")
    result = CliRunner().invoke(app, ["program", DRYER, "--machine", machine, "--out", str(tmp_path / "new")])
    assert (result.exit_code, result.stderr) == (0, "")
    assert names(tmp_path / "new") == {f"GD-118_B_1.{suffix}" for suffix in FILES}
    assert result.stdout.startswith("GD-118 B issue 1 (id ")
    assert result.stdout.count("\n") == 1


def test_every_part_that_can_be_made_is_written_and_the_worst_gives_the_status(tmp_path: Path, broken: str) -> None:
    out = tmp_path / "out"
    result = program(broken, TOO_TIGHT, DRYER, out=out)
    assert result.exit_code == 2
    assert names(out) == {f"GD-118_B_1.{suffix}" for suffix in FILES - {"sheet.html"}}
    assert result.stderr == f"{broken}: tube.od: expected a number greater than 0, found -50.0\n"
    assert "GD-119 A: not written, 1 limit broken: clamp\n" in result.stdout
    assert result.stdout.endswith("3 parts: 1 written, 1 refused, 1 not readable\n")


def test_a_limit_is_status_1(tmp_path: Path) -> None:
    result = program(TOO_TIGHT, DRYER, out=tmp_path)
    assert result.exit_code == 1
    assert program(TOO_TIGHT, out=tmp_path).exit_code == 1


def test_tooling_that_does_not_serve_a_part_leaves_the_others(tmp_path: Path) -> None:
    foreign = tmp_path / "foreign.toml"
    foreign.write_text(Path(DRYER).read_text(encoding="utf-8").replace('"d50-r100"', '"d50-r101"'), encoding="utf-8")
    result = program(str(foreign), HOOP, out=tmp_path / "out")
    assert result.exit_code == 2
    assert result.stderr.startswith(f"{foreign}: ")
    assert "d50-r101" in result.stderr
    assert len(names(tmp_path / "out")) == 4


def test_the_next_issue_takes_the_next_number(tmp_path: Path) -> None:
    for issue in (1, 2):
        assert f"issue {issue} " in program(DRYER, out=tmp_path).stdout
    assert "issue 7 " in program(DRYER, "--issue", "7", out=tmp_path).stdout
    assert "issue 8 " in program(DRYER, out=tmp_path).stdout


def test_an_issue_that_is_there_is_refused_before_any_part_is_written(tmp_path: Path) -> None:
    program(DRYER, "--issue", "3", out=tmp_path)
    before = {path: path.read_bytes() for path in tmp_path.iterdir()}
    result = program(HOOP, DRYER, "--issue", "3", out=tmp_path)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "GD-118_B_3" in result.stderr
    assert {path: path.read_bytes() for path in tmp_path.iterdir()} == before


def test_force_replaces_an_issue(tmp_path: Path) -> None:
    program(DRYER, "--issue", "3", out=tmp_path)
    sheet = tmp_path / "GD-118_B_3.sheet.txt"
    sheet.write_text("of yesterday", encoding="utf-8")
    assert program(DRYER, "--issue", "3", "--force", out=tmp_path).exit_code == 0
    assert sheet.read_text(encoding="utf-8").startswith("=")
    assert len(names(tmp_path)) == 4


def test_two_parts_of_one_name_are_refused_before_anything_is_written(tmp_path: Path) -> None:
    other = tmp_path / "other.toml"
    other.write_text(Path(DRYER).read_text(encoding="utf-8").replace("GD-118", "gd-118"), encoding="utf-8")
    for parts, why in (((DRYER, str(other)), "GD-118_B"), ((DRYER, DRYER), "named 2 times")):
        result = program(*parts, out=tmp_path / "out")
        assert (result.exit_code, result.stdout) == (2, "")
        assert why in result.stderr
        assert names(tmp_path / "out") == set()


def test_the_other_hand_turns_the_other_way(tmp_path: Path) -> None:
    assert program(DRYER, "--mirror", out=tmp_path).exit_code == 0
    assert program(DRYER, out=tmp_path).exit_code == 0
    ours, theirs = (steps_of(tmp_path / f"GD-118_B{hand}_1.steps.json") for hand in ("", "_mirrored"))
    assert [[feed, -rotation + 0.0, bend] for feed, rotation, bend in theirs] == ours
    assert [rotation for _, rotation, _ in ours] == [0.0, 90.0]


def test_from_the_rear_the_straights_come_the_other_way_round(tmp_path: Path) -> None:
    assert program(DRYER, "--from-rear", out=tmp_path).exit_code == 0
    first, second = steps_of(tmp_path / "GD-118_B_1.steps.json")
    # Legs 330, 340, 420: from the rear the first feed is 420 less the tangent length at 90°, R = 100 · 92.93 / 90.
    assert first[0] == pytest.approx(420.0 - 103.26, abs=0.05)
    assert second[:2] == [pytest.approx(340.0 - 2.0 * 103.26, abs=0.05), 90.0]


def test_quiet_says_nothing_but_what_is_wrong(tmp_path: Path) -> None:
    assert program(DRYER, HOOP, "--quiet", out=tmp_path).stdout == ""
    assert "LIMIT clamp, bend 2" in program(TOO_TIGHT, "--quiet", out=tmp_path).stdout


def test_json_is_the_step_list_or_the_findings(tmp_path: Path) -> None:
    written = program(DRYER, "--json", out=tmp_path)
    assert written.stdout == (tmp_path / "GD-118_B_1.steps.json").read_text(encoding="utf-8")
    refused = program(TOO_TIGHT, "--json", out=tmp_path)
    assert (refused.exit_code, json.loads(refused.stdout)["format"]) == (1, "bendgen-findings")


def test_the_predicted_axis_is_written_where_it_is_asked_for(tmp_path: Path) -> None:
    assert program(DRYER, "--axis-csv", out=tmp_path).exit_code == 0
    assert {name for name in names(tmp_path) if "axis" in name} == {"GD-118_B_1.axis.csv"}


def test_at_a_terminal_one_line_tells_which_part_is_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert program(DRYER, HOOP, out=tmp_path / "filed").stderr == ""
    terminal = SimpleNamespace(stderr=SimpleNamespace(isatty=lambda: True))
    monkeypatch.setattr("bendgen.cli.program.sys", terminal)
    told = f"\r1 of 2: {DRYER}\r2 of 2: {HOOP}\r"
    assert program(DRYER, HOOP, out=tmp_path).stderr == told
    assert program(DRYER, HOOP, "--quiet", out=tmp_path).stderr == ""
    assert program(DRYER, out=tmp_path).stderr == ""
