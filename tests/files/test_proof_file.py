"""proof.toml: written once, read while the signs are those that were proved."""

import shutil
from datetime import date
from pathlib import Path

import pytest

from bendgen.errors import InputError, OutputError
from bendgen.files.new_proof import write_proof
from bendgen.files.profile_folder import check_profile, read_profile

BAY2 = Path(__file__).parents[2] / "machine_profiles" / "bay2"
DAY = date(2026, 3, 20)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(BAY2, tmp_path / "bay2"))


def change_machine(folder: Path, old: str, new: str) -> None:
    path = folder / "machine.toml"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_a_profile_is_never_proved_until_it_is(folder: Path) -> None:
    before = read_profile(folder)
    assert before.proved_on is None
    write_proof(before, folder, proved=DAY)
    after = read_profile(folder)
    assert (after.proved_on, after.sha256) == (DAY, before.sha256)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('side = "left"', 'side = "right"'),
        ('"clockwise_from_carriage"', '"counterclockwise_from_carriage"'),
        ('rotation = "incremental"', 'rotation = "absolute"'),
        ('feed = "incremental"', 'feed = "passed"'),
    ],
)
def test_changed_signs_are_not_proved(folder: Path, old: str, new: str) -> None:
    write_proof(read_profile(folder), folder, proved=DAY)
    change_machine(folder, old, new)
    assert read_profile(folder).proved_on is None


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("travel = 3100.0", "travel = 3000.0"),
        ('columns = ["number", "feed", "rotation", "bend"]', 'columns = ["number", "bend", "feed", "rotation"]'),
    ],
)
def test_other_changes_leave_the_proof_standing(folder: Path, old: str, new: str) -> None:
    write_proof(read_profile(folder), folder, proved=DAY)
    change_machine(folder, old, new)
    assert read_profile(folder).proved_on == DAY


def test_a_proof_is_not_overwritten_unless_forced(folder: Path) -> None:
    profile = read_profile(folder)
    path = write_proof(profile, folder, proved=DAY)
    with pytest.raises(OutputError):
        write_proof(profile, folder, proved=date(2026, 4, 1))
    assert read_profile(folder).proved_on == DAY
    assert write_proof(profile, folder, proved=date(2026, 4, 1), force=True) == path
    assert read_profile(folder).proved_on == date(2026, 4, 1)


def test_a_broken_proof_is_named_like_any_other_mistake(folder: Path) -> None:
    (folder / "proof.toml").write_text('proved = "today"\nsign = 3\n', encoding="utf-8")
    check = check_profile(folder)
    assert check.profile is None
    assert {mistake.place for mistake in check.mistakes} == {"proved", "sign", "signs"}
    assert {mistake.file for mistake in check.mistakes} == {"proof.toml"}
    with pytest.raises(InputError):
        read_profile(folder)
