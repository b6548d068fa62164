"""A file given to the wrong command is told by what it is, and the right one beside it is named."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from bendgen.errors import InputError
from bendgen.files.foretold_json import read_foretold
from bendgen.files.measured_csv import read_measured
from bendgen.files.part_file import read_part
from bendgen.files.profile_folder import read_profile
from bendgen.files.step_list_file import read_step_list
from bendgen.files.trials_csv import read_trials
from bendgen.files.tube_source import read_source
from bendgen.records.found_tube import Answers

ROOT = Path(__file__).parents[2]
SAMPLES, BAY2 = ROOT / "samples", ROOT / "machine_profiles" / "bay2"
ISSUE = SAMPLES / "expected" / "dryer_inlet"
STEPS = ISSUE / "GD-118_B_1.steps.json"

ANSWERS = Answers(
    feed="incremental", rotation="incremental", rotation_positive="clockwise_from_carriage", angles="commanded"
)
READERS: dict[str, Callable[[Path], object]] = {
    "a part's file, TOML": read_part,
    "a .steps.json": read_foretold,
    "a step list, .steps.json or CSV": read_step_list,
    "a measured part, CSV": lambda path: read_measured(path, read_foretold(STEPS)),
    "trial bends, CSV": lambda path: read_trials(path, read_profile(BAY2)),
    "a file that shows a tube": lambda path: read_source(path, ANSWERS),
}
FILES = {
    "a part's file": SAMPLES / "dryer_inlet.toml",
    "a machine's own file, machine.toml": BAY2 / "machine.toml",
    "a die set's file": BAY2 / "dies" / "d50-r100.toml",
    "a table of springback": BAY2 / "tables" / "d50-r100_304l_1.5_2026-03-14.toml",
    "material data": BAY2 / "materials" / "304l.toml",
    "a .steps.json": STEPS,
    "a list of steps as CSV": ISSUE / "GD-118_B_1.steps.csv",
    "trial bends": SAMPLES / "trials_d42-r65.csv",
    "readings of measured pieces": SAMPLES / "measured_GD-118_B_1.csv",
    "a page": None,
}
OWN = {
    ("a part's file, TOML", "a part's file"),
    ("a .steps.json", "a .steps.json"),
    ("a step list, .steps.json or CSV", "a .steps.json"),
    ("a step list, .steps.json or CSV", "a list of steps as CSV"),
    ("a measured part, CSV", "readings of measured pieces"),
    ("trial bends, CSV", "trial bends"),
    ("a file that shows a tube", "a list of steps as CSV"),
}


@pytest.mark.parametrize("found", FILES)
@pytest.mark.parametrize("expected", READERS)
def test_every_reader_takes_its_own_kind_and_names_all_others(expected: str, found: str, tmp_path: Path) -> None:
    copy = tmp_path / (
        "copy.json" if FILES[found] == STEPS else "copy"
    )  # no name tells what it is, but for the step list
    original = FILES[found]
    copy.write_bytes(b"<!DOCTYPE html>\n<title>a, b</title>\n" if original is None else original.read_bytes())
    if (expected, found) in OWN:
        READERS[expected](copy)
        return
    with pytest.raises(InputError) as refused:
        READERS[expected](copy)
    assert str(refused.value) == f"{copy}: expected {expected}, found {found}"


def test_whatever_stands_between_the_columns(tmp_path: Path) -> None:
    readings = tmp_path / "readings.csv"
    readings.write_text("check;value;unit\nangle-1;89,5;deg\n", encoding="utf-8")
    with pytest.raises(InputError, match="expected trial bends, CSV, found readings of measured pieces"):
        READERS["trial bends, CSV"](readings)


def test_the_step_list_beside_a_file_of_the_same_issue_is_named(tmp_path: Path) -> None:
    machine_csv = tmp_path / "GD-118_B_1.machine.csv"
    machine_csv.write_bytes((ISSUE / machine_csv.name).read_bytes())
    found = "found a .machine.csv, in the form of one machine"
    with pytest.raises(InputError) as refused:
        read_step_list(machine_csv)
    assert str(refused.value) == f"{machine_csv}: expected a step list, .steps.json or CSV, {found}"
    shutil.copy(STEPS, tmp_path)
    for reader in (read_step_list, read_foretold):
        with pytest.raises(InputError) as refused:
            reader(machine_csv)
        beside = f"{tmp_path / STEPS.name}, which lies beside it"
        assert str(refused.value) == f"{machine_csv}: expected {beside}, {found}"


def test_a_machine_is_its_folder() -> None:
    with pytest.raises(InputError) as refused:
        read_profile(BAY2 / "machine.toml")
    assert str(refused.value).endswith(f"expected the folder of a machine profile, perhaps {BAY2}, found a file")
