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


def test_a_piece_of_which_nothing_has_a_tolerance_is_not_called_good(measured: Path) -> None:
    measured.write_text("piece,check,value,unit\n1,diameter-largest-2,51.6,mm\n", encoding="utf-8")
    result = run.invoke(app, ["compare", str(STEPS), str(measured)])
    assert result.exit_code == 0
    assert "1 piece measured, 1 NOT JUDGED\n" in result.stdout
    assert "piece 1: 0 readings, NOT JUDGED: nothing was read that has a tolerance" in result.stdout
    with measured.open("a", encoding="utf-8") as more:
        more.write("2,angle-1,89.9,deg\n")
    result = run.invoke(app, ["compare", str(STEPS), str(measured)])
    assert "2 pieces measured, 1 NOT JUDGED, the others in tolerance\n" in result.stdout
    assert result.stdout.endswith("in tolerance: 2\n")


@pytest.mark.parametrize(
    ("angle", "verdict"), [("", None), ("2,angle-1,89.9,deg\n", None), ("2,angle-1,80,deg\n", False)]
)
def test_nor_does_json_call_it_good(measured: Path, angle: str, *, verdict: bool | None) -> None:
    measured.write_text(f"piece,check,value,unit\n1,diameter-largest-2,51.6,mm\n{angle}", encoding="utf-8")
    content = json.loads(run.invoke(app, ["compare", str(STEPS), str(measured), "--json"]).stdout)
    assert content["in_tolerance"] is verdict
    assert content["pieces"][0]["in_tolerance"] is None


def test_lengths_are_those_of_the_sheet(measured: Path, tmp_path: Path) -> None:
    """A part drawn in mm and bent on a machine that counts in inches has a sheet in inches."""
    content = json.loads(STEPS.read_text(encoding="utf-8"))
    content["machine_steps"]["units"] = "in"
    steps = tmp_path / "inches.steps.json"
    steps.write_text(json.dumps(content), encoding="utf-8")
    measured.write_text("check,value,unit\nstraight-2,5.2598,in\n", encoding="utf-8")
    result = run.invoke(app, ["compare", str(steps), str(measured)])
    assert result.exit_code == 0
    (row,) = [line for line in result.stdout.splitlines() if line.startswith("  straight-2")]
    assert row.split()[1:3] == ["5.260", "5.256"]  # 133.6 mm and the 133.5 mm predicted
    assert row.endswith(" in")


def test_many_pieces_become_a_series(measured: Path) -> None:
    rows = [f"{i},angle-1,{89.8 + 0.02 * (i * 7 % 5)},deg" for i in range(1, 9)]
    measured.write_text("piece,check,value,unit\n" + "\n".join(rows) + "\n", encoding="utf-8")
    result = run.invoke(app, ["compare", str(STEPS), str(measured)])
    assert result.exit_code == 0
    assert "8 pieces measured, all in tolerance" in result.stdout
    assert "in tolerance: 1, 2, 3, 4, 5, 6, 7, 8" in result.stdout
    assert "\nSeries\n" in result.stdout
    assert "Cpk" in result.stdout


def test_of_good_pieces_only_what_is_remarkable_is_told(measured: Path) -> None:
    rows = ["1,angle-1,89.9,deg", "2,angle-1,90.1,deg", "2,diameter-largest-1,51,mm", "2,diameter-smallest-1,49,mm"]
    measured.write_text("piece,check,value,unit\n" + "\n".join(rows) + "\n", encoding="utf-8")
    told = run.invoke(app, ["compare", str(STEPS), str(measured)]).stdout
    assert "\npiece 2: 1 reading, in tolerance\n  bend 1 is oval, 51 mm by 49 mm" in told
    assert "\nin tolerance: 1\n" in told
    assert "off wanted" not in told  # no table of readings


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
    assert "expected a .steps.json, found readings of measured pieces" in result.stderr


BAY2 = ROOT / "machine_profiles" / "bay2"
PART = ROOT / "samples" / "dryer_inlet.toml"


@pytest.fixture
def issued(tmp_path: Path) -> Path:
    """Folder with issue 1 of the sample."""
    result = run.invoke(app, ["program", str(PART), "--machine", str(BAY2), "--out", str(tmp_path / "out")])
    assert result.exit_code == 0, result.output
    return tmp_path / "out"


def test_a_corrected_issue_names_the_sheet_to_destroy(issued: Path) -> None:
    steps = issued / "GD-118_B_1.steps.json"
    old = json.loads(steps.read_text(encoding="utf-8"))["id"]
    correct = ["--correct", str(PART), "--machine", str(BAY2), "--out", str(issued)]
    result = run.invoke(app, ["compare", str(steps), str(SAMPLE), *correct])
    assert result.exit_code == 1
    assert f"destroy issue 1, sheet id {old}" in result.stdout
    sheet = (issued / "GD-118_B_2.sheet.txt").read_text(encoding="utf-8")
    assert f"DESTROY ISSUE 1, SHEET ID {old}" in sheet
    assert "every angle open by 0.88°: springback" in sheet
    page = (issued / "GD-118_B_2.sheet.html").read_text(encoding="utf-8")
    assert f"DESTROY ISSUE 1, SHEET ID {old}" in page
    content = json.loads((issued / "GD-118_B_2.steps.json").read_text(encoding="utf-8"))
    assert content["steps"][0]["bend"] == pytest.approx(93.8)
    assert content["part"]["correction"]["replaces_id"] == old


def test_a_new_issue_elsewhere_still_has_a_higher_number(issued: Path, tmp_path: Path) -> None:
    steps = issued / "GD-118_B_1.steps.json"
    elsewhere = tmp_path / "elsewhere"
    correct = ["--correct", str(PART), "--machine", str(BAY2), "--out", str(elsewhere)]
    assert run.invoke(app, ["compare", str(steps), str(SAMPLE), *correct]).exit_code == 1
    assert (elsewhere / "GD-118_B_2.steps.json").exists()


def test_the_steps_that_remain(issued: Path, measured: Path) -> None:
    text = "check,value,unit\nangle-1,89.1,deg\napex-leg-front,329.2,mm\n"
    measured.write_text(text, encoding="utf-8")
    correct = ["--correct", str(PART), "--machine", str(BAY2), "--made", "1"]
    result = run.invoke(app, ["compare", str(issued / "GD-118_B_1.steps.json"), str(measured), *correct])
    assert result.exit_code == 1
    assert "1 of 2 bends made; the carriage stands" in result.stdout
    assert not (issued / "GD-118_B_2.steps.json").exists()


@pytest.mark.parametrize("made", [[], ["--made", "1"]])
def test_another_machine_is_not_corrected(issued: Path, tmp_path: Path, made: list[str]) -> None:
    """Its tables may be the same: what one machine springs back, and how it counts, is not the other's."""
    other = shutil.copytree(BAY2, tmp_path / "bay3")
    profile = (other / "machine.toml").read_text(encoding="utf-8")
    (other / "machine.toml").write_text(profile.replace("Bay 2 mandrel bender", "Bay 3 bender"), encoding="utf-8")
    correct = ["--correct", str(PART), "--machine", str(other), "--out", str(issued), *made]
    result = run.invoke(app, ["compare", str(issued / "GD-118_B_1.steps.json"), str(SAMPLE), *correct])
    assert result.exit_code == 2
    assert "found machine 'Bay 3 bender' instead of 'Bay 2 mandrel bender'" in result.stderr
    assert not (issued / "GD-118_B_2.steps.json").exists()


def test_lots_are_not_mixed_in_a_correction(issued: Path, measured: Path) -> None:
    """One lot opens and the other closes by 0.9°: their mean is good, and neither is."""
    rows = [f"1,A1,angle-{bend},89.1,deg\n2,B7,angle-{bend},90.9,deg\n" for bend in (1, 2)]
    measured.write_text("piece,lot,check,value,unit\n" + "".join(rows), encoding="utf-8")
    steps = issued / "GD-118_B_1.steps.json"
    correct = ["--correct", str(PART), "--machine", str(BAY2), "--out", str(issued)]
    result = run.invoke(app, ["compare", str(steps), str(measured), *correct])
    assert result.exit_code == 2
    assert "pieces of more than one lot, 'A1', 'B7': correct by the pieces of one" in result.stderr
    measured.write_text("piece,lot,check,value,unit\n" + "".join(rows).replace("B7", "A1"), encoding="utf-8")
    assert run.invoke(app, ["compare", str(steps), str(measured), *correct]).exit_code == 1


def test_another_part_is_not_corrected(issued: Path, tmp_path: Path) -> None:
    changed = tmp_path / "changed.toml"
    changed.write_text(PART.read_text(encoding="utf-8").replace("[330, 340, 0]", "[330, 350, 0]"), encoding="utf-8")
    steps = issued / "GD-118_B_1.steps.json"
    correct = ["--correct", str(changed), "--machine", str(BAY2), "--out", str(issued)]
    result = run.invoke(app, ["compare", str(steps), str(SAMPLE), *correct])
    assert result.exit_code == 2
    assert "step 2: feed" in result.stderr
    assert not (issued / "GD-118_B_2.steps.json").exists()


def test_the_bends_of_a_part_teach_a_table_for_their_lot(issued: Path, tmp_path: Path) -> None:
    taught = tmp_path / "taught.csv"
    steps = issued / "GD-118_B_1.steps.json"
    result = run.invoke(app, ["compare", str(steps), str(SAMPLE), "--teach", str(taught)])
    assert result.exit_code == 1
    again = run.invoke(app, ["compare", str(steps), str(SAMPLE), "--teach", str(taught)])
    assert again.exit_code == 2
    bay2 = Path(shutil.copytree(BAY2, tmp_path / "bay2"))
    learned = run.invoke(app, ["trials", str(taught), "--machine", str(bay2), "--date", "2026-11-25"])
    assert learned.exit_code == 0, learned.output
    assert "lot 8804" in learned.stdout
    assert "2 of 2 bends used" in learned.stdout


@pytest.mark.parametrize("options", [["--made", "1"], ["--correct", str(PART)], ["--machine", str(BAY2)]])
def test_options_that_belong_together(options: list[str]) -> None:
    result = run.invoke(app, ["compare", str(STEPS), str(SAMPLE), *options])
    assert result.exit_code == 2


def test_the_report_is_written_as_a_page_too(tmp_path: Path) -> None:
    page = tmp_path / "compared.html"
    result = run.invoke(app, ["compare", str(STEPS), str(SAMPLE), "--html", str(page)])
    assert result.exit_code == 1
    assert "angle-1 -0.90° OUT" in page.read_text(encoding="utf-8")
    assert run.invoke(app, ["compare", str(STEPS), str(SAMPLE), "--html", str(page)]).exit_code == 2


ROUTED = """
units = "mm"
[part]
name = "Fan outlet"
number = "GD-77"
revision = "A"
quantity = 2
[tube]
od = 50.0
wall = 1.5
material = "304L"
perforated = false
[route]
front = { at = [0, 0, 0], towards = [1, 0, 0] }
rear = { at = [900, 500, 300], towards = [0, 0, -1] }
shortest_front = 60.0
shortest_rear = 80.0
"""


def test_a_correction_keeps_the_route_that_was_bent(tmp_path: Path, measured: Path) -> None:
    part = tmp_path / "routed.toml"
    part.write_text(ROUTED, encoding="utf-8")
    out = tmp_path / "out"
    machine = ["--machine", str(BAY2), "--out", str(out)]
    assert run.invoke(app, ["program", str(part), *machine]).exit_code == 0
    for issue in (1, 2):
        steps = out / f"GD-77_A_{issue}.steps.json"
        checks = json.loads(steps.read_text(encoding="utf-8"))["checks"]
        rows = [f"{c['id']},{c['predicted'] - 1.2},deg" for c in checks if c["id"].startswith("angle-")]
        measured.write_text("check,value,unit\n" + "\n".join(rows) + "\n", encoding="utf-8")
        result = run.invoke(app, ["compare", str(steps), str(measured), "--correct", str(part), *machine])
        assert result.exit_code == 1, result.output
        anew = json.loads((out / f"GD-77_A_{issue + 1}.steps.json").read_text(encoding="utf-8"))
        old = json.loads(steps.read_text(encoding="utf-8"))
        assert anew["wanted"]["vertices"] == old["wanted"]["vertices"]
        assert anew["steps"][0]["bend"] > old["steps"][0]["bend"] + 1.0


def test_remaining_steps_that_break_a_limit_offer_no_change_of_the_part(tmp_path: Path) -> None:
    """The tube at hand is begun: what another file would make does not help it."""
    part, measured = tmp_path / "part.toml", tmp_path / "measured.csv"
    tight = PART.read_text(encoding="utf-8").replace("340, 0]", "316.6, 0]").replace("340, 420]", "316.6, 420]")
    part.write_text(tight, encoding="utf-8")
    on_bay2 = ["--machine", str(BAY2), "--out", str(tmp_path)]
    assert run.invoke(app, ["program", str(part), *on_bay2]).exit_code == 0
    measured.write_text("check,value,unit\nangle-1,88.9,deg\n", encoding="utf-8")
    steps = str(tmp_path / "GD-118_B_1.steps.json")
    result = run.invoke(app, ["compare", steps, str(measured), "--correct", str(part), *on_bay2, "--made", "1"])
    assert result.exit_code == 1
    assert "LIMIT clamp, bend 2" in result.stdout
    assert "cure:" not in result.stdout
