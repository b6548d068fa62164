"""`bendgen trials` from the CSV to a table that serves a part."""

import json
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from bendgen.cli.app import app
from bendgen.files.profile_folder import check_profile
from tests.modelled_shop import trials_csv

ROOT = Path(__file__).parents[2]
SAMPLE = ROOT / "samples" / "trials_d42-r65.csv"
TABLE = "d42-r65_304l_1.6_2026-03-20.toml"
DAY = ["--date", "2026-03-20"]
run = CliRunner()

PART = """
units = "mm"
[part]
name = "Guard rail end"
number = "GD-440"
revision = "A"
quantity = 4
die = "d42-r65"
[tube]
od = 42.4
wall = 1.6
material = "304L"
perforated = false
[centreline]
vertices = [[0, 0, 0], [320, 0, 0], [320, 400, 0]]
"""


@pytest.fixture
def bay2(tmp_path: Path) -> Path:
    """A copy of the metric sample to learn into."""
    return Path(shutil.copytree(ROOT / "machine_profiles" / "bay2", tmp_path / "bay2"))


def contents(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*.toml")}


def test_the_sample_teaches_a_table_that_serves_a_part(bay2: Path, tmp_path: Path) -> None:
    before = contents(bay2)
    result = run.invoke(app, ["trials", str(SAMPLE), "--machine", str(bay2), *DAY])
    assert (result.exit_code, result.stderr) == (0, "")
    assert "d42-r65, 304L, wall 1.6 mm, plain: 8 of 9 bends used" in result.stdout
    assert f"wrote tables/{TABLE}" in result.stdout
    assert "line 7, bend left out: measured 78.5° after a command of 90°" in result.stdout
    after = contents(bay2)
    assert after.pop(f"tables/{TABLE}")
    assert after == before
    found = check_profile(bay2)
    assert (found.mistakes, found.cautions) == ((), ())
    (tmp_path / "part.toml").write_text(PART, encoding="utf-8")
    arguments = [
        "program",
        str(tmp_path / "part.toml"),
        "--machine",
        str(bay2),
        "--out",
        str(tmp_path / "out"),
        "--json",
    ]
    program = run.invoke(app, arguments)
    assert program.exit_code == 0, program.output
    steps = json.loads(program.stdout)
    assert [table["file"] for table in steps["tables"]] == [f"tables/{TABLE}"]
    assert steps["steps"][0]["basis"] == {"springback": "between", "formed_clr": "between", "elongation": "between"}
    # The rows around hold 2.60 at 87.4° and 3.10 at 116.9°: on the straight line between them 2.644 at 90°.
    assert steps["steps"][0]["springback"] == pytest.approx(2.644, abs=0.03)


def test_once_more_on_the_same_day_writes_nothing(bay2: Path) -> None:
    arguments = ["trials", str(SAMPLE), "--machine", str(bay2), *DAY]
    assert run.invoke(app, arguments).exit_code == 0
    before = contents(bay2)
    result = run.invoke(app, arguments)
    assert result.exit_code == 1
    assert "is issued 2026-03-20, too, and no part could choose: give another --date" in " ".join(result.stdout.split())
    assert contents(bay2) == before


def test_json(bay2: Path) -> None:
    result = run.invoke(app, ["trials", str(SAMPLE), "--machine", str(bay2), *DAY, "--range", "20", "120", "--json"])
    assert result.exit_code == 0
    data = json.loads(result.stdout)
    assert (data["format"], data["version"]) == ("bendgen-trials", 1)
    (lesson,) = data["lessons"]
    assert lesson["file"] == f"tables/{TABLE}"
    assert [row["bends"] for row in lesson["rows"]] == [1, 1, 2, 2, 1, 1]
    assert [found["line"] for found in lesson["left_out"]] == [7]
    assert lesson["table"]["issued"] == "2026-03-20"
    assert lesson["fit"]["degrees_of_freedom"] == 5
    assert lesson["next_bend"]["matters"] == "20 to 120°"
    assert (lesson["refusal"], lesson["shift"]) == (None, None)


def test_two_bends_show_no_scatter(bay2: Path, tmp_path: Path) -> None:
    csv = tmp_path / "two.csv"
    lines = [{"commanded_deg": 31, "measured_deg": 29.8}, {"commanded_deg": 93, "measured_deg": 90.2}]
    csv.write_text(trials_csv(lines), encoding="utf-8")
    result = run.invoke(app, ["trials", str(csv), "--machine", str(bay2), *DAY, "--json"])
    assert result.exit_code == 0
    fit = json.loads(result.stdout)["lessons"][0]["fit"]
    assert (fit["scatter"], fit["covariance"], fit["degrees_of_freedom"]) == (None, None, 0)


def test_a_new_lot_shifts_a_table(bay2: Path, tmp_path: Path) -> None:
    csv = tmp_path / "lot.csv"
    csv.write_text(trials_csv([{"commanded_deg": 93, "measured_deg": 89.8}], lot="7802"), encoding="utf-8")
    result = run.invoke(app, ["trials", str(csv), "--machine", str(bay2), "--date", "2026-04-01"])
    assert result.exit_code == 0
    text = " ".join(result.stdout.split())
    assert "wrote tables/d50-r100_304l_1.5_lot-7802_2026-04-01.toml" in text
    assert "every springback of tables/d50-r100_304l_1.5_2026-03-14.toml is shifted by +0.27°" in text
    assert check_profile(bay2).mistakes == ()


def test_advice_for_a_part(bay2: Path, tmp_path: Path) -> None:
    (tmp_path / "part.toml").write_text(PART, encoding="utf-8")
    arguments = ["trials", str(SAMPLE), "--machine", str(bay2), *DAY, "--for", str(tmp_path / "part.toml")]
    result = run.invoke(app, arguments)
    assert result.exit_code == 0
    assert "over the bends of GD-440: 90° the springback" in " ".join(result.stdout.split())


@pytest.mark.parametrize(
    ("lines", "text"),
    [
        ([{"commanded_deg": 93, "measured_deg": 90}], "all bends have one command, 93°"),
        (
            [
                {"commanded_deg": 60, "measured_deg": 58.0},
                {"commanded_deg": 90, "measured_deg": 87.0, "restruck": "yes"},
            ],
            "line 3, bend left out: re-struck: after a second stroke",
        ),
        (
            [{"commanded_deg": 60, "measured_deg": 58.0}, {"commanded_deg": 62, "measured_deg": 57.9}],
            "the rows make no table: row[2].angle: expected an angle greater than that of row 1",
        ),
    ],
)
def test_readings_that_teach_nothing(lines: list[dict[str, object]], text: str, bay2: Path, tmp_path: Path) -> None:
    csv = tmp_path / "few.csv"
    csv.write_text(trials_csv(lines), encoding="utf-8")
    before = contents(bay2)
    result = run.invoke(app, ["trials", str(csv), "--machine", str(bay2), *DAY])
    assert result.exit_code == 1
    assert "not written: " in result.stdout
    assert text in " ".join(result.stdout.split())
    assert contents(bay2) == before


@pytest.mark.parametrize(
    ("arguments", "text"),
    [
        (["--range", "90", "20"], "--range takes two angles above 0 and below 360, the smaller first"),
        (["--range", "20", "90", "--for", "part.toml"], "say either --for or --range"),
        (["--date", "14.3.2026"], "14.3.2026"),
    ],
)
def test_bad_usage(arguments: list[str], text: str, bay2: Path) -> None:
    result = run.invoke(app, ["trials", str(SAMPLE), "--machine", str(bay2), *arguments])
    assert result.exit_code == 2
    assert text in " ".join(result.stderr.split())
    assert result.stdout == ""


def test_bad_cells_and_mixed_lots_are_bad_input(bay2: Path, tmp_path: Path) -> None:
    csv = tmp_path / "lots.csv"
    lines = [{"commanded_deg": 60, "measured_deg": 58, "lot": lot} for lot in ("7731", "7802")]
    csv.write_text(trials_csv(lines), encoding="utf-8")
    result = run.invoke(app, ["trials", str(csv), "--machine", str(bay2), *DAY])
    assert (result.exit_code, result.stdout) == (2, "")
    assert "found lot '7731' and lot '7802'" in result.stderr
    csv.write_text(trials_csv([{"commanded_deg": 60, "measured_deg": "about 58"}]), encoding="utf-8")
    result = run.invoke(app, ["trials", str(csv), "--machine", str(bay2), *DAY])
    assert (result.exit_code, result.stdout) == (2, "")
    assert "line 2, column measured_deg" in result.stderr


def test_the_report_is_written_as_a_page_too_and_never_over_another(bay2: Path, tmp_path: Path) -> None:
    page = tmp_path / "trials.html"
    asked = ["trials", str(SAMPLE), "--machine", str(bay2), *DAY, "--html", str(page)]
    result = run.invoke(app, asked)
    assert result.exit_code == 0
    written = page.read_text(encoding="utf-8")
    assert "Springback over the finished angle" in written
    assert f"wrote tables/{TABLE}" in written
    (bay2 / "tables" / TABLE).unlink()
    again = run.invoke(app, asked)
    assert again.exit_code == 2
    assert not (bay2 / "tables" / TABLE).exists(), "nothing was written"
    assert page.read_text(encoding="utf-8") == written


def test_what_the_replaced_table_held_is_a_caution(bay2: Path, tmp_path: Path) -> None:
    csv = tmp_path / "angles.csv"
    lines = [{"commanded_deg": 62, "measured_deg": 60.1}, {"commanded_deg": 93, "measured_deg": 90.1}]
    csv.write_text(trials_csv(lines), encoding="utf-8")
    result = run.invoke(app, ["trials", str(csv), "--machine", str(bay2), "--date", "2026-04-01"])
    assert result.exit_code == 0
    text = " ".join(result.stdout.split())
    older = "caution: it takes the place of tables/d50-r100_304l_1.5_2026-03-14.toml, which holds"
    assert f"{older} elongation; without it blanks are sawn as if no bend gained length" in text
    assert f"{older} angles from 15.0 to 180.0°; bends below 60.1° and above 90.1°" in text
