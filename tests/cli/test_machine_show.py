import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from bendgen.cli.app import app
from bendgen.files.profile_folder import read_profile
from bendgen.reports.machine_card import machine_card

SAMPLES = Path(__file__).parents[2] / "machine_profiles"
run = CliRunner()

NO_DIES = (
    "dies: expected a folder with a .toml file for each die set, as bendgen machine add-die writes it, found nothing"
)


@pytest.mark.parametrize("sample", ["bay2", "bay5_inch"])
def test_the_card_of_a_sample(sample: str) -> None:
    result = run.invoke(app, ["machine", "show", str(SAMPLES / sample)])
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == machine_card(read_profile(SAMPLES / sample))


def test_json_has_the_keys_of_the_files_and_millimetres() -> None:
    result = run.invoke(app, ["machine", "show", str(SAMPLES / "bay5_inch"), "--json"])
    shown = json.loads(result.stdout)
    assert (result.exit_code, result.stderr) == (0, "")
    assert (shown["format"], shown["version"], shown["units"]) == ("bendgen-machine", 1, "mm")
    assert shown["bend"]["largest"] == 190.0
    assert shown["rotation"]["range"] == [-360.0, 360.0]
    assert shown["carriage"]["grip"] == pytest.approx(2.5 * 25.4)
    assert shown["output"]["units"] == "in"
    dies = {die["id"]: die for die in shown["dies"]}
    assert dies["1.5in-r2.25"]["clr"] == pytest.approx(2.25 * 25.4)
    assert dies["1.5in-r2.25"]["largest_bend"] == 185.0
    annealed = shown["tables"][0]
    assert (annealed["issued"], annealed["lot"], annealed["rows"][0]["angle"]) == ("2026-02-03", "H42", 45.0)


def test_mistakes_are_named_instead(tmp_path: Path) -> None:
    result = run.invoke(app, ["machine", "show", str(tmp_path)])
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.splitlines() == [
        NO_DIES,
        "machine.toml: expected the machine's own file in the profile folder, found nothing",
    ]
