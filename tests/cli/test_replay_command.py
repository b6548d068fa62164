"""`bendgen replay`: what a list leaves open is asked for, and the tube that it makes is shown."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from bendgen.cli.app import app

BAY2 = str(Path(__file__).parents[2] / "machine_profiles" / "bay2")
TUBE = ("--od", "50", "--wall", "1.5", "--material", "304L", "--die", "d50-r100")


@pytest.fixture
def steps(tmp_path: Path) -> str:
    file = tmp_path / "steps.csv"
    file.write_text("feed_mm,rotation_deg,bend_deg\n100,0,90\n50,90,90\n", encoding="utf-8")
    return str(file)


def replay(*arguments: str) -> Result:
    return CliRunner().invoke(app, ["replay", *arguments, "--machine", BAY2])


def test_finished_bends_of_a_list(steps: str) -> None:
    # By hand: 90° springs back 2.93° on the die of CLR 100, so R = 100 · 92.93 / 90, which is also the tangent length.
    result = replay(steps, "--angles", "finished", "--rear", "60", *TUBE, "--json")
    assert result.exit_code == 0
    tangent = 100.0 * 92.93 / 90.0
    x, y, z = 100.0 + tangent, 50.0 + 2.0 * tangent, tangent + 60.0
    corners = ([0.0, 0.0, 0.0], [x, 0.0, 0.0], [x, y, 0.0], [x, y, z])
    vertices = json.loads(result.stdout)["vertices"]
    assert [pytest.approx(corner, abs=1e-6) for corner in corners] == vertices


def test_commanded_bends_on_a_blank(steps: str) -> None:
    Path(steps).write_text("feed_mm,rotation_deg,bend_deg\n100,0,92.93\n", encoding="utf-8")
    told = replay(steps, "--angles", "commanded", "--blank", "27 1/2 in", *TUBE).stdout
    assert "   1                 100.00          0.000               90.000            103.26\n" in told
    assert "blank                                     698.5 mm\n" in told


def test_a_rear_straight_may_be_nothing(steps: str) -> None:
    assert "rear                   0.00\n" in replay(steps, "--angles", "finished", "--rear", "0", *TUBE).stdout


@pytest.mark.parametrize(
    ("options", "why"),
    [
        ((), "say either --blank or --rear: where does the tube end?"),
        (("--blank", "900", "--rear", "60"), "say either --blank or --rear: where does the tube end?"),
        (("--rear", "60"), "say --angles commanded or --angles finished: what does the bend column hold?"),
        (("--rear", "60", "--angles", "finished"), "does not name the tube: say --od, --wall, --material"),
        (("--rear", "60", "--angles", "finished", "--od", "50"), "does not name the tube: say --wall, --material"),
        (("--rear", "-1", "--angles", "finished", *TUBE), "--rear: expected a length of 0 or more, found '-1'"),
        (("--blank", "0", "--angles", "finished", *TUBE), "--blank: expected a length greater than 0, found '0'"),
        (("--blank", "long", "--angles", "finished", *TUBE), "--blank: no length: 'long'"),
    ],
)
def test_what_a_list_leaves_open_is_asked_for(steps: str, options: tuple[str, ...], why: str) -> None:
    result = replay(steps, *options)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.endswith(f"{why}\n")


def test_a_list_that_says_all_takes_no_options() -> None:
    sample = Path(BAY2).parents[1] / "samples" / "expected" / "dryer_inlet" / "GD-118_B_1.steps.json"
    assert replay(str(sample)).exit_code == 0
    result = replay(str(sample), "--rear", "60", "--perforated")
    assert result.exit_code == 2
    assert result.stderr.endswith("the step list says it itself; leave out --rear, --perforated\n")
