"""`bendgen compare` from a program and a measured file to a verdict."""

import json
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from bendgen.cli.app import app

ROOT = Path(__file__).parents[2]
STEPS = ROOT / "samples" / "expected" / "dryer_inlet" / "GD-118_B_1.steps.json"
SAMPLE = ROOT / "samples" / "measured_GD-118_B_1.csv"
run = CliRunner()


@pytest.fixture
def measured(tmp_path: Path) -> Path:
    return tmp_path / "measured.csv"


def test_the_sample_is_out_and_says_why() -> None:
    result = run.invoke(app, ["compare", str(STEPS), str(SAMPLE)])
    assert result.exit_code == 1
    assert "1 OUT OF TOLERANCE" in result.stdout
    assert "cause: every angle open by 0.88°: springback: 98% of the miss" in result.stdout
    assert "bend 1 is oval, 51.6 mm by 48.9 mm" in result.stdout


def test_a_good_piece_is_told_with_status_0(measured: Path) -> None:
    measured.write_text("check,value,unit\nangle-1,89.9,deg\nangle-2,90.1,deg\nstraight-2,133.6,mm\n", encoding="utf-8")
    result = run.invoke(app, ["compare", str(STEPS), str(measured)])
    assert result.exit_code == 0
    assert "all in tolerance" in result.stdout
    assert "cause" not in result.stdout


def test_many_pieces_become_a_series(measured: Path) -> None:
    rows = [f"{i},angle-1,{89.8 + 0.02 * (i * 7 % 5)},deg" for i in range(1, 9)]
    measured.write_text("piece,check,value,unit\n" + "\n".join(rows) + "\n", encoding="utf-8")
    result = run.invoke(app, ["compare", str(STEPS), str(measured)])
    assert result.exit_code == 0
    assert "8 pieces measured, all in tolerance" in result.stdout
    assert "SERIES" in result.stdout
    assert "Cpk" in result.stdout


def test_json_holds_the_same(measured: Path) -> None:
    shutil.copy(SAMPLE, measured)
    result = run.invoke(app, ["compare", str(STEPS), str(measured), "--json"])
    assert result.exit_code == 1
    content = json.loads(result.stdout)
    assert content["format"] == "bendgen-comparison"
    (piece,) = content["pieces"]
    assert piece["causes"][0]["kind"] == "springback"
    assert {check["id"]: check["in_tolerance"] for check in piece["checks"]}["straight-2"]
    assert content["in_tolerance"] is False
    assert piece["ovality"][0]["bend"] == 1


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("check,value,unit\nangle-7,3,deg\n", "line 2, column check: expected a known check of the sheet"),
        ("what,is,this\n1,2,3\n", "line 1: expected a head row with the columns check, value, unit"),
    ],
)
def test_bad_input_is_one_line_and_status_2(measured: Path, text: str, expected: str) -> None:
    measured.write_text(text, encoding="utf-8")
    result = run.invoke(app, ["compare", str(STEPS), str(measured)])
    assert result.exit_code == 2
    assert expected in result.stderr
    assert "Traceback" not in result.output


def test_a_step_list_of_another_kind_is_refused(measured: Path) -> None:
    measured.write_text("check,value,unit\nangle-1,90,deg\n", encoding="utf-8")
    result = run.invoke(app, ["compare", str(SAMPLE), str(measured)])
    assert result.exit_code == 2
    assert "expected JSON" in result.stderr
