"""`bendgen offset`, as somebody types it."""

import json
import tomllib
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from bendgen.cli.app import app
from bendgen.files.part_file import read_part
from bendgen.records.offset import EndOffCentre

PROFILES = Path(__file__).parents[2] / "machine_profiles"
BAY2 = ("--machine", str(PROFILES / "bay2"), "--od", "50", "--wall", "1.5", "--material", "304L", "--die", "d50-r100")
BAY5 = (
    *("--machine", str(PROFILES / "bay5_inch"), "--od", "2", "--wall", "0.065", "--material", "304L"),
    *("--die", "2in-r4"),
)
JOG = ("--rise", "40", "--length", "520", "--end", "60")


def run(*arguments: str) -> Result:
    return CliRunner().invoke(app, ["offset", *arguments])


def fields(output: str) -> dict[str, str]:
    """Name and text of the first block."""
    rows = (
        line.split("  ", 1) for line in output.split("\n\n", maxsplit=1)[0].splitlines() if not line.startswith(" ")
    )
    return {row[0]: row[1].strip() for row in rows}


def test_an_answer() -> None:
    result = run(*BAY2, *JOG)
    assert (result.exit_code, result.stderr) == (0, "")
    found = fields(result.stdout)
    assert found["rise"] == "40.00 mm"
    assert found["finished length"] == "520.00 mm"
    assert found["each bend"] == "16.49° finished; the second goes the opposite way"
    assert found["die set"] == "d50-r100"
    assert found["table"] == "tables/d50-r100_304l_1.5_2026-03-14.toml"
    assert found["to command"] == "17.6°, springback between two measured rows of the table"
    for line in ("gentlest    5.88°", "this one   16.49°", "tightest   16.49°", "Up is where the rise goes."):
        assert line in result.stdout


def test_lengths_are_in_the_unit_of_the_machine_unless_they_say_another() -> None:
    result = run(*BAY5, "--rise", "1 1/2", "--length", "800 mm", "--end", '3"')
    found = fields(result.stdout)
    assert (result.exit_code, found["rise"], found["finished length"]) == (0, "1.500 in", "31.496 in")


def test_json_holds_millimetres() -> None:
    result = run(*BAY5, "--rise", "1 1/2", "--length", "800 mm", "--end", "3", "--json")
    content = json.loads(result.stdout)
    assert (content["format"], content["version"]) == ("bendgen-offset", 1)
    assert content["offset"]["rise"] == pytest.approx(38.1)
    assert content["tube"]["od"] == pytest.approx(50.8)
    assert content["basis"] == "between"


def test_the_choices() -> None:
    angle = json.loads(run(*BAY2, *JOG, "--angle", "12", "--json").stdout)["offset"]
    between = json.loads(run(*BAY2, *JOG, "--between", "150", "--json").stdout)["offset"]
    gentle = json.loads(run(*BAY2, *JOG, "--gentle", "--json").stdout)["offset"]
    assert angle["answer"]["angle"] == 12.0
    assert between["answer"]["between"] == pytest.approx(150.0)
    assert gentle["answer"]["angle"] == pytest.approx(gentle["gentlest"]["angle"], abs=0.1)
    assert angle["gentlest"] == between["gentlest"] == gentle["gentlest"]


def test_ends_off_a_common_axis() -> None:
    ends = ("--front-out", "20", "--front-clock", "0", "--rear-out", "30", "--rear-clock", "180")
    result = run(*BAY2, "--length", "520", "--end", "60", *ends)
    assert result.exit_code == 0
    assert fields(result.stdout)["rise"] == "50.00 mm"
    assert "From its front end the tube turns off towards 6 o'clock (straight down)." in result.stdout
    assert "From its rear end the tube turns off towards 12 o'clock (straight up)." in result.stdout


def test_an_estimate_says_so() -> None:
    tube = ("--od", "42.4", "--wall", "2", "--material", "304L")
    result = run("--machine", str(PROFILES / "bay2"), *tube, *JOG)
    assert result.exit_code == 0
    assert "from material data, no trial bends" in fields(result.stdout)["to command"]
    assert fields(result.stdout)["table"] == "none serves this tube"
    assert "CAUTION table, bends 1, 2: trial piece" in result.stdout


def test_a_straight_tube() -> None:
    result = run(*BAY2, "--rise", "0", "--length", "520", "--end", "60")
    assert result.exit_code == 0
    assert fields(result.stdout)["bends"] == "none: both ends are in line, a straight tube"


def test_nothing_fits() -> None:
    result = run(*BAY2, "--rise", "40", "--length", "320", "--end", "80")
    assert (result.exit_code, result.stderr) == (1, "")
    assert result.stdout.startswith(
        "LIMIT offset: two bends of 16.49° leave 76.963 mm of straight at either end; 80 mm"
    )
    for change in (
        "(offset.shortest_end = 76.963)",
        "(offset.length = 326.074)",
        "(offset.rise = 34.243)",
        '(part.die = "d50-r75")',
    ):
        assert change in result.stdout


def test_nothing_fits_as_json() -> None:
    result = run(*BAY2, "--rise", "40", "--length", "320", "--end", "80", "--json")
    content = json.loads(result.stdout)
    assert (result.exit_code, content["format"]) == (1, "bendgen-findings")
    assert content["findings"][0]["rule"] == "offset"


def test_an_angle_or_a_straight_between_to_blame_names_what_would_fit() -> None:
    angle = run(*BAY2, *JOG, "--angle", "30")
    assert "LIMIT offset: two bends of 30° do not fit; from 5.88° to 16.49° they would\n" in angle.stdout
    assert "cure: bend twice 16.48° (offset.angle = 16.48)" in angle.stdout
    between = run(*BAY2, *JOG, "--between", "30")
    assert "a straight between of 30 mm does not fit; from 110 mm to 379.059 mm it would" in between.stdout
    assert "(offset.between = 110)" in between.stdout


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (
            (*JOG, "--front-out", "3"),
            "options: offset: expected either 'rise' or both 'front' and 'rear', found 'rise' and 'front'\n"
            "--front-clock: expected a number, found nothing\n",
        ),
        (JOG[2:], "options: offset: expected either 'rise' or both 'front' and 'rear', found none\n"),
        ((*JOG, "--angle", "95"), "--angle: expected a number greater than 0 and at most 90, found 95.0\n"),
        ((*JOG, "--between", "-1"), "--between: expected a number of 0 or more, found -1.0\n"),
        (
            (*JOG, "--angle", "5", "--gentle"),
            "options: offset: expected at most one of 'angle', 'between' and 'prefer', found 'angle' and 'prefer'\n",
        ),
        (
            ("--rise", "40", "--length", "long", "--end", "60"),
            "--length: expected a number greater than 0, found 'long'\n",
        ),
        (("--rise", "40", "--length", "520", "--end", "-1"), "--end: expected a number of 0 or more, found -1.0\n"),
        (
            ("--rise", "0", "--length", "520", "--end", "60", "--angle", "5"),
            "both ends of the offset are in line, which takes no bend: leave out 'angle'\n",
        ),
    ],
)
def test_bad_input(arguments: tuple[str, ...], message: str) -> None:
    result = run(*BAY2, *arguments)
    assert (result.exit_code, result.stdout, result.stderr) == (2, "", message)


def test_two_dies_for_one_tube_are_listed() -> None:
    result = run(*BAY2[:-2], *JOG)
    assert result.exit_code == 2
    assert result.stderr.endswith("name the die, one of 'd50-r100' (CLR 100 mm), 'd50-r75' (CLR 75 mm)\n")


# ---- writing a part ----


def test_a_part_file_is_written_and_read_back(tmp_path: Path) -> None:
    file = tmp_path / "jog.toml"
    named = ("--name", "Duct past a bearing", "--number", "GD-121", "--revision", "A")
    ends = ("--front-out", "1 1/2", "--front-clock", "0", "--rear-out", "1", "--rear-clock", "-180")
    result = run(*BAY5, "--length", "2'-4", "--end", "3", *ends, "--write", str(file), *named)
    assert (result.exit_code, result.stdout.splitlines()[-1]) == (0, f"{file}: written")
    part = read_part(file)
    assert (part.name, part.number, part.revision, part.units) == ("Duct past a bearing", "GD-121", "A", "in")
    assert part.offset is not None
    assert part.offset.front == EndOffCentre(out=1.5 * 25.4, clock_deg=0.0)
    assert part.offset.rear == EndOffCentre(out=25.4, clock_deg=180.0)
    assert part.offset.length == pytest.approx(711.2)
    made = CliRunner().invoke(app, ["program", str(file), "--machine", BAY5[1], "--out", str(tmp_path / "out")])
    assert made.exit_code == 0


def test_placeholders_are_named(tmp_path: Path) -> None:
    file = tmp_path / "jog.toml"
    result = run(*BAY2, *JOG, "--write", str(file), "--number", "007", "--json")
    assert result.stderr == (
        f'{file}: written; replace before a program is made of it: name = "Not named yet", revision = "0"\n'
    )
    assert json.loads(result.stdout)["format"] == "bendgen-offset"
    assert tomllib.loads(file.read_text(encoding="utf-8"))["part"]["number"] == "007"


def test_a_file_is_never_overwritten(tmp_path: Path) -> None:
    file = tmp_path / "jog.toml"
    file.write_text("mine", encoding="utf-8")
    result = run(*BAY2, *JOG, "--write", str(file))
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == f"would overwrite {file}; nothing was written\n"
    assert file.read_text(encoding="utf-8") == "mine"


def test_nothing_is_written_where_nothing_fits(tmp_path: Path) -> None:
    file = tmp_path / "jog.toml"
    result = run(*BAY2, "--rise", "40", "--length", "220", "--end", "60", "--write", str(file))
    assert result.exit_code == 1
    assert not file.exists()
