import json
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from bendgen.cli.app import app

SAMPLES = Path(__file__).parents[2] / "machine_profiles"
run = CliRunner()


@pytest.fixture
def bay2(tmp_path: Path) -> Path:
    """A copy of the metric sample to break."""
    return Path(shutil.copytree(SAMPLES / "bay2", tmp_path / "bay2"))


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), encoding="utf-8")


@pytest.mark.parametrize(
    ("sample", "line"),
    [
        (
            "bay2",
            "Bay 2 mandrel bender: 5 die sets, 8 tables, 2 materials; no mistakes, no cautions; no table yet: d42-r65",
        ),
        (
            "bay5_inch",
            "Bay 5 inch bender: 4 die sets, 5 tables, 2 materials; no mistakes, no cautions; no table yet: 2.5in-r3.75",
        ),
    ],
)
def test_samples_are_sound(sample: str, line: str) -> None:
    result = run.invoke(app, ["machine", "check", str(SAMPLES / sample)])
    assert (result.exit_code, result.stdout, result.stderr) == (0, f"{line}\n", "")


def test_mistakes_of_all_files_at_once(bay2: Path) -> None:
    edit(bay2 / "machine.toml", "grip = 60.0", "grip = -60.0")
    edit(bay2 / "dies" / "d50-r100.toml", "clamp = 110.0", 'clamp = "a hand"')
    edit(bay2 / "dies" / "d60-r120.toml", "sleeve", "sleve")
    edit(bay2 / "tables" / "d38-r57_304l_1.5_2025-11-04.toml", 'die = "d38-r57"', 'die = "d38-r75"')
    result = run.invoke(app, ["machine", "check", str(bay2)])
    assert (result.exit_code, result.stdout) == (2, "")
    files = [line.split(": ")[:2] for line in result.stderr.splitlines()]
    assert files == [
        ["dies/d50-r100.toml", "clamp"],
        ["dies/d60-r120.toml", "sleve"],
        ["machine.toml", "carriage.grip"],
        ["tables/d38-r57_304l_1.5_2025-11-04.toml", "die"],
    ]
    assert "dies/d50-r100.toml: clamp: expected a number greater than 0, found 'a hand'" in result.stderr
    assert "'sleeve'" in result.stderr
    assert "'d38-r57'" in result.stderr


def fall_in_the_table(bay2: Path) -> None:
    edit(bay2 / "tables" / "d38-r57_304l_1.5_2025-11-04.toml", "springback = 2.20", "springback = 1.40")


def test_cautions_are_named_and_the_machine_may_be_used(bay2: Path) -> None:
    fall_in_the_table(bay2)
    result = run.invoke(app, ["machine", "check", str(bay2)])
    caution, summary = result.stdout.splitlines()
    assert (result.exit_code, result.stderr) == (0, "")
    assert caution.startswith("caution: tables/d38-r57_304l_1.5_2025-11-04.toml: row[3]")
    assert "no mistakes, 1 caution;" in summary


def test_quiet_prints_nothing_unless_there_are_mistakes(bay2: Path) -> None:
    fall_in_the_table(bay2)
    result = run.invoke(app, ["machine", "check", str(bay2), "--quiet"])
    assert (result.exit_code, result.output) == (0, "")
    edit(bay2 / "machine.toml", "grip = 60.0", "grip = 0")
    result = run.invoke(app, ["machine", "check", str(bay2), "--quiet"])
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == "machine.toml: carriage.grip: expected a number greater than 0, found 0\n"


def test_json_holds_mistakes_and_cautions(bay2: Path) -> None:
    fall_in_the_table(bay2)
    edit(bay2 / "machine.toml", "grip = 60.0", "grip = 0")
    result = run.invoke(app, ["machine", "check", str(bay2), "--json"])
    found = json.loads(result.stdout)
    assert result.exit_code == 2
    assert (found["format"], found["version"]) == ("bendgen-machine-check", 1)
    assert found["mistakes"] == [
        {"file": "machine.toml", "place": "carriage.grip", "expected": "a number greater than 0", "found": "0"}
    ]
    assert [caution["file"] for caution in found["cautions"]] == ["tables/d38-r57_304l_1.5_2025-11-04.toml"]
    assert (found["dies"], found["tables"], found["materials"]) == (5, 8, 2)


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    result = run.invoke(app, ["machine", "check", str(tmp_path / "bay9")])
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == f"{tmp_path / 'bay9'}: expected the folder of a machine profile, found nothing\n"
