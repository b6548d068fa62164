"""Wrong units and slips of the pen, from the files to what is printed."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from bendgen.cli.app import app
from tests.modelled_shop import trials_csv

ROOT = Path(__file__).parents[2]
BAY2 = ROOT / "machine_profiles" / "bay2"
SAMPLE = ROOT / "samples" / "dryer_inlet.toml"
STEPS = ROOT / "samples" / "expected" / "dryer_inlet" / "GD-118_B_1.steps.json"
run = CliRunner()

PART = """
units = "mm"
[part]
name = "Dryer inlet pipe, written in inches (invented)"
number = "GD-118"
revision = "B"
quantity = 1
die = "d50-r100"
[tube]
od = 1.97
wall = 0.059
material = "304L"
[centreline]
vertices = [[0, 0, 0], [13, 0, 0], [13, 13.4, 0], [13, 13.4, 16.5]]
"""


@pytest.mark.parametrize("hand", [[], ["--mirror", "--from-rear"]])
def test_a_part_in_inches_that_says_mm(tmp_path: Path, hand: list[str]) -> None:
    part = tmp_path / "part.toml"
    part.write_text(PART, encoding="utf-8")
    asked = ["program", str(part), "--machine", str(BAY2), "--out", str(tmp_path), *hand]
    result = run.invoke(app, asked)
    assert result.exit_code == 1
    text = " ".join(result.stdout.split())
    assert "CAUTION unit: is the unit right? With all its lengths in inches it breaks no limit: OD 1.97 in" in text
    assert text.endswith('cure: let the file say that it is in inches (units = "in")')
    findings = json.loads(run.invoke(app, [*asked, "--json"]).stdout)["findings"]
    assert [finding["rule"] for finding in findings][-1] == "unit"
    part.write_text(PART.replace('"mm"', '"in"'), encoding="utf-8")
    assert run.invoke(app, asked).exit_code == 0, "the cure cures"


def test_a_part_that_only_the_file_can_hold_in_mm_is_still_refused_in_full(tmp_path: Path) -> None:
    """Ten times the largest number that a file may hold, once it were read as inches."""
    part = tmp_path / "part.toml"
    part.write_text(PART.replace("[13, 13.4, 16.5]", "[13, 13.4, 900000]"), encoding="utf-8")
    result = run.invoke(app, ["program", str(part), "--machine", str(BAY2), "--out", str(tmp_path)])
    assert result.exit_code == 1
    assert "is the unit right" not in result.stdout


def test_slips_are_asked_about_and_nothing_is_corrected_or_taught_by_them(tmp_path: Path) -> None:
    measured = tmp_path / "measured.csv"
    measured.write_text("check,value,unit\nangle-1,89.1,deg\nangle-2,8.91,deg\nstraight-2,133.5,in\n", encoding="utf-8")
    result = run.invoke(app, ["compare", str(STEPS), str(measured)])
    assert result.exit_code == 1
    assert "angle-2, line 3, reads 8.91°: is the decimal point right? It may be 89.10°" in result.stdout
    assert "straight-2, line 4, reads 3390.9 mm: is the unit right? In the other one it is 133.5 mm" in result.stdout
    assert "can't be" not in result.stdout
    said = json.loads(run.invoke(app, ["compare", str(STEPS), str(measured), "--json"]).stdout)["pieces"][0]["slips"]
    assert [(slip["check"], slip["line"], slip["kind"]) for slip in said] == [
        ("straight-2", 4, "unit"),
        ("angle-2", 3, "decimal point"),
    ]
    corrected, taught = tmp_path / "corrected", tmp_path / "taught.csv"
    correcting = ["--correct", str(SAMPLE), "--machine", str(BAY2), "--out", str(corrected)]
    for then in (correcting, ["--teach", str(taught)]):
        result = run.invoke(app, ["compare", str(STEPS), str(measured), *then])
        assert result.exit_code == 2
        assert (
            "line 4, straight-2 of piece 1; line 3, angle-2 of piece 1: expected no reading that looks" in result.stderr
        )
    assert not corrected.exists()
    assert not taught.exists()


def test_trial_bends_whose_lengths_are_inches(tmp_path: Path) -> None:
    profile = tmp_path / "bay2"
    for file in [BAY2 / "machine.toml", *BAY2.glob("*/*.toml")]:
        copy = profile / file.relative_to(BAY2)
        copy.parent.mkdir(parents=True, exist_ok=True)
        copy.write_bytes(file.read_bytes())
    legs = [
        {"commanded_deg": 93, "measured_deg": 90, "feed_mm": 5.9, "front_leg_mm": 9.97},
        {"commanded_deg": 124, "measured_deg": 120.4, "feed_mm": 5.9, "front_leg_mm": 12.95},
    ]
    csv = tmp_path / "trials.csv"
    csv.write_text(trials_csv(legs, wall=0.059), encoding="utf-8")
    result = run.invoke(app, ["trials", str(csv), "--machine", str(profile), "--date", "2026-05-01"])
    text = " ".join(result.stdout.split())
    assert text.count("as if the arc kept its length. Is the unit right? In the other one they are plausible") == 2
    assert "caution: the wall is 0.06 mm: is the unit right? 0.059 in is 1.5 mm, as other tables of this die" in text


def test_a_slip_stays_out_of_the_series(tmp_path: Path) -> None:
    measured = tmp_path / "measured.csv"
    values = [133.4, 133.5, 1336.0, 133.6, 133.5, 133.7]
    lines = [f"{piece},straight-2,{value},mm\n" for piece, value in enumerate(values, start=1)]
    measured.write_text("piece,check,value,unit\n" + "".join(lines), encoding="utf-8")
    series = json.loads(run.invoke(app, ["compare", str(STEPS), str(measured), "--json"]).stdout)["series"]
    assert [(of_check["check"], of_check["pieces"]) for of_check in series] == [
        ("straight-2", ["1", "2", "4", "5", "6"])
    ]
    assert series[0]["spread"] < 0.2
