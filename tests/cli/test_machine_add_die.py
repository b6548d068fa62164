import os
import pty
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from bendgen.cli.app import app
from bendgen.cli.machine.die_questions import QUESTIONS, REQUIRED, option_name
from bendgen.files.die_models import DieFile
from bendgen.files.profile_folder import read_profile

SAMPLES = Path(__file__).parents[2] / "machine_profiles"
run = CliRunner()

LEAST = {"id": "d76-r150", "tube-od": "76.1", "clr": "150", "clamp": "150", "largest-bend": "180"}


@pytest.fixture
def bay2(tmp_path: Path) -> Path:
    return Path(shutil.copytree(SAMPLES / "bay2", tmp_path / "bay2"))


@pytest.fixture
def bay5(tmp_path: Path) -> Path:
    return Path(shutil.copytree(SAMPLES / "bay5_inch", tmp_path / "bay5_inch"))


def add_die(folder: Path, **changes: str) -> Result:
    options = LEAST | {key.replace("_", "-"): value for key, value in changes.items()}
    words = [word for key, value in options.items() for word in (f"--{key}", value)]
    return run.invoke(app, ["machine", "add-die", str(folder), *words])


def files_in(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*")}


def test_there_is_a_question_for_every_key_of_a_die_s_file() -> None:
    assert set(QUESTIONS) == set(DieFile.model_fields) - {"units", "contour"}
    needed = {key for key, field in DieFile.model_fields.items() if field.is_required()}
    assert set(REQUIRED) == needed - {"units"}


def test_the_least_makes_one_new_file(bay2: Path) -> None:
    before = files_in(bay2)
    result = add_die(bay2)
    assert (result.exit_code, result.stderr) == (0, "")
    assert files_in(bay2) - before == {"dies/d76-r150.toml"}
    assert (bay2 / "dies" / "d76-r150.toml").read_text(encoding="utf-8") == (
        'units = "mm"\nid = "d76-r150"\ntube_od = 76.1\nclr = 150.0\nclamp = 150.0\nlargest_bend = 180.0\n'
    )
    assert result.stdout.splitlines() == [
        f"{bay2 / 'dies' / 'd76-r150.toml'}: written",
        "not given, so not checked: smallest_bend, pressure_die, pressure_travel, mandrel_ahead, walls, stack, sleeve, "
        "set_up",
        'still missing: a table from trial bends, a file in tables/ with die = "d76-r150"; '
        "until there is one, the springback is estimated and every part on this die set is a trial piece",
    ]


def test_every_option_reaches_the_profile(bay5: Path) -> None:
    result = add_die(
        bay5,
        id="3in-r4.5",
        tube_od="3",
        clr="4 1/2",
        clamp="5-3/4 in",
        smallest_bend="2.5",
        largest_bend="182",
        pressure_die="9.25",
        pressure_travel="1'-3\"",
        mandrel_ahead="45 mm",
        walls="0.065 to 0.120",
        stack="three inch",
        sleeve="1 3/4",
        set_up='wiper "3/4.5", mandrel, lubricant',
    )
    assert (result.exit_code, result.stderr) == (0, "")
    die = read_profile(bay5).die("3in-r4.5")
    assert die.tube_od == pytest.approx(76.2)
    assert die.clr == pytest.approx(114.3)
    assert die.clamp == pytest.approx(146.05)
    assert (die.smallest_bend_deg, die.largest_bend_deg) == (2.5, 182.0)
    assert die.pressure_die == pytest.approx(234.95)
    assert die.pressure_travel == pytest.approx(381.0)
    assert die.mandrel_ahead == pytest.approx(45.0)
    assert die.walls == pytest.approx((1.651, 3.048))
    assert (die.stack, die.set_up) == ("three inch", 'wiper "3/4.5", mandrel, lubricant')
    assert die.sleeve == pytest.approx(44.45)


def test_lengths_stay_as_they_were_written(bay5: Path) -> None:
    add_die(bay5, clr="4 1/2")
    assert tomllib.loads((bay5 / "dies" / "d76-r150.toml").read_text(encoding="utf-8"))["clr"] == "4 1/2"


def test_units_may_differ_from_the_machine_s(bay5: Path) -> None:
    assert add_die(bay5, units="mm").exit_code == 0
    assert read_profile(bay5).die("d76-r150").clr == 150.0


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"clr": "x"}, "new die set: clr: expected a number greater than 0, found 'x'"),
        ({"clamp": "-4"}, "new die set: clamp: expected a number greater than 0, found -4.0"),
        ({"clr": "nan"}, "new die set: clr: expected a number greater than 0, found 'nan'"),
        ({"walls": "2.0 to 1.2"}, "new die set: walls: expected the smallest value first, found the largest first"),
        ({"walls": "2.0"}, "new die set: walls: expected [smallest, largest], found '2.0'"),
        (
            {"smallest_bend": "190"},
            "new die set: largest_bend: expected a number not below 'smallest_bend', found 180.0",
        ),
        ({"units": "cm"}, "new die set: units: expected 'mm' or 'in', found 'cm'"),
        (
            {"set_up": "a\tb"},
            "new die set: set_up: expected a text without control or text-direction characters, found 'a\\tb'",
        ),
        ({"id": "d50-r100"}, "new die set: id: expected an id of its own, found the id of dies/d50-r100.toml"),
        (
            {"id": "D50-R100"},
            "new die set: id: expected an id whose file does not exist yet, found the file dies/d50-r100.toml",
        ),
        (
            {"id": "../d"},
            "new die set: id: expected letters, digits, '.', '_' and '-', as the file is named after it, found '../d'",
        ),
        (
            {"id": ".d"},
            "new die set: id: expected letters, digits, '.', '_' and '-', as the file is named after it, found '.d'",
        ),
        (
            {"id": "nul"},
            "new die set: id: expected letters, digits, '.', '_' and '-', as the file is named after it, found 'nul'",
        ),
        ({"id": " "}, "new die set: id: expected a text that is not empty, found ' '"),
    ],
)
def test_a_mistake_is_status_2_and_writes_nothing(bay2: Path, changes: dict[str, str], message: str) -> None:
    before = files_in(bay2)
    result = add_die(bay2, **changes)
    assert (result.exit_code, result.stdout, result.stderr) == (2, "", f"{message}\n")
    assert files_in(bay2) == before


def test_all_mistakes_at_once(bay2: Path) -> None:
    result = add_die(bay2, id="d50-r100", clr="x", clamp="0")
    assert [line.split(": ")[1] for line in result.stderr.splitlines()] == ["clr", "clamp", "id"]


def test_a_file_of_that_name_with_another_id_is_kept(bay2: Path) -> None:
    path = bay2 / "dies" / "d76-r150.toml"
    shutil.copy(bay2 / "dies" / "d42-r65.toml", path)
    (bay2 / "dies" / "d42-r65.toml").unlink()
    content = path.read_bytes()
    result = add_die(bay2)
    assert result.exit_code == 2
    assert "found the file dies/d76-r150.toml" in result.stderr
    assert path.read_bytes() == content


def test_without_a_terminal_missing_options_are_named(bay2: Path) -> None:
    result = run.invoke(app, ["machine", "add-die", str(bay2), "--id", "d76", "--clr", "100"])
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == ("not given: --tube-od, --clamp, --largest-bend (as no one is at a terminal to be asked)\n")


def test_the_first_die_set_of_a_new_machine(bay2: Path) -> None:
    for name in ("dies", "tables"):
        shutil.rmtree(bay2 / name)
    assert add_die(bay2).exit_code == 0
    assert [die.id for die in read_profile(bay2).dies] == ["d76-r150"]


def test_a_table_may_have_been_waiting_for_the_die_set(bay2: Path) -> None:
    table = (bay2 / "tables" / "d38-r57_304l_1.5_2025-11-04.toml").read_text(encoding="utf-8")
    (bay2 / "tables" / "new.toml").write_text(table.replace("d38-r57", "d76-r150"), encoding="utf-8")
    assert add_die(bay2).exit_code == 0
    assert read_profile(bay2).die("d76-r150").clr == 150.0


def test_mistakes_in_another_die_s_file_come_first(bay2: Path) -> None:
    (bay2 / "dies" / "bad.toml").write_text("id = 3\n", encoding="utf-8")
    result = add_die(bay2)
    assert result.exit_code == 2
    assert all(line.startswith("dies/bad.toml: ") for line in result.stderr.splitlines())


def at_a_terminal(folder: Path, *options: str, typed: str) -> tuple[int, str]:
    """Run the command with somebody at a terminal who types; exit status and stdout."""
    keyboard, terminal = pty.openpty()
    try:
        os.write(keyboard, typed.encode())
        done = subprocess.run(
            [sys.executable, "-m", "bendgen", "machine", "add-die", str(folder), *options],
            stdin=terminal,
            capture_output=True,
            text=True,
            timeout=60,
            check=False,
        )
    finally:
        os.close(keyboard)
        os.close(terminal)
    return done.returncode, done.stdout + done.stderr


def test_somebody_at_a_terminal_is_asked_and_asked_again(bay2: Path) -> None:
    answers = [
        "d50-r100",
        "d76-r150",
        "",
        "76.1",
        "a lot",
        "150",
        "150",
        "",
        "180",
        "",
        "",
        "",
        "1.5 to 2.6",
        "",
        "",
        "",
    ]
    status, text = at_a_terminal(bay2, typed="".join(f"{answer}\n" for answer in answers))
    assert status == 0, text
    assert "new die set: id: expected an id of its own" in text
    assert "this one is needed" in text
    assert "new die set: clr: expected a number greater than 0, found 'a lot'" in text
    die = read_profile(bay2).die("d76-r150")
    assert (die.tube_od, die.clr, die.clamp, die.walls, die.stack) == (76.1, 150.0, 150.0, (1.5, 2.6), None)


def test_what_the_options_say_is_not_asked(bay2: Path) -> None:
    given = [word for key, value in LEAST.items() if key != "clamp" for word in (f"--{key}", value)]
    status, text = at_a_terminal(bay2, *given, typed="150\n" + "\n" * 8)
    assert status == 0, text
    assert QUESTIONS["clamp"] in text
    assert QUESTIONS["clr"] not in text


def test_what_the_options_got_wrong_is_said_before_anything_is_asked(bay2: Path) -> None:
    status, text = at_a_terminal(bay2, "--clr", "x", "--units", "cm", typed="")
    assert status == 2
    assert text.splitlines() == [
        "new die set: units: expected 'mm' or 'in', found 'cm'",
        "new die set: clr: expected a number greater than 0, found 'x'",
    ]


def test_leaving_at_a_question_writes_nothing(bay2: Path) -> None:
    before = files_in(bay2)
    status, text = at_a_terminal(bay2, typed="d76-r150\n\x04")
    assert (status, text.splitlines()[-1]) == (130, "stopped")
    assert files_in(bay2) == before


def test_every_option_is_in_the_help() -> None:
    text = run.invoke(app, ["machine", "add-die", "--help"]).stdout
    assert all(option_name(key) in text for key in QUESTIONS)
