"""A new die set: answers as somebody types them, checked as the reader does, written as one new file."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from bendgen.errors import InputError, Mistake
from bendgen.files.die_models import DieFile
from bendgen.files.field_types import context_from_data
from bendgen.files.new_file import number_or_text, write_new_file
from bendgen.files.output_names import DEVICE, MOST_BYTES
from bendgen.files.profile_folder import MACHINE, check_profile
from bendgen.files.toml_input import load_toml
from bendgen.files.validation import mistakes_from_flaws, validate
from bendgen.units import Units

NEW_DIE = "new die set"  # what mistakes name instead of a file, which there is none of yet
TEXT_KEYS = frozenset({"id", "stack", "set_up"})


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownDies:
    """What a new die set must not clash with. units: of machine.toml; files: `dies/…` by die id."""

    units: Units
    files: Mapping[str, str]


def read_known_dies(folder: Path) -> KnownDies:
    """Die sets a profile has so far, perhaps none; its tables may still have mistakes, or wait for the new die.

    Raises
    ------
    InputError    mistakes in machine.toml or in a die's file
    """
    mistakes = [mistake for mistake in check_profile(folder).mistakes if _is_in_the_way(mistake, folder)]
    if mistakes:
        raise InputError(mistakes)
    paths = sorted(path for path in (folder / "dies").glob("*.toml") if not path.name.startswith("."))
    return KnownDies(
        units=context_from_data(load_toml(folder / MACHINE))["units"],
        files={str(load_toml(path)["id"]): f"dies/{path.name}" for path in paths},
    )


def _is_in_the_way(mistake: Mistake, folder: Path) -> bool:
    return mistake.file in {MACHINE, str(folder)} or mistake.file.startswith("dies/")


def die_data(answers: Mapping[str, str], units: str) -> dict[str, object]:
    """Content of a die's file from typed answers: "110" becomes a number, "4 1/2" stays as written."""
    return {"units": units} | {key: _value(key, answer) for key, answer in answers.items()}


def _value(key: str, answer: str) -> object:
    if key in TEXT_KEYS:
        return answer
    if key == "walls":
        walls = re.split(r"\s+to\s+|,", answer)
        return [number_or_text(wall) for wall in walls] if len(walls) == 2 else answer
    return number_or_text(answer)


def check_new_die(data: Mapping[str, object], known: KnownDies) -> list[Mistake]:
    """Every mistake in a new die set: those the reader would find, and clashes with the die sets there are."""
    _, flaws = validate(DieFile, data, context_from_data(data))
    mistakes = mistakes_from_flaws(flaws, data, NEW_DIE)
    die_id = data.get("id")
    if isinstance(die_id, str) and not any(mistake.place == "id" for mistake in mistakes):
        mistakes += _id_mistakes(die_id, known)
    return mistakes


def _id_mistakes(die_id: str, known: KnownDies) -> list[Mistake]:
    def mistaken(expected: str, found: str) -> list[Mistake]:
        return [Mistake(file=NEW_DIE, place="id", expected=expected, found=found)]

    if die_id in known.files:
        return mistaken("an id of its own", f"the id of {known.files[die_id]}")
    if not _can_name_a_file(die_id):
        return mistaken("letters, digits, '.', '_' and '-', as the file is named after it", repr(die_id))
    for file in known.files.values():
        if file.casefold() == _file_of(die_id).casefold():
            return mistaken("an id whose file does not exist yet", f"the file {file}")
    return []


def _file_of(die_id: str) -> str:
    return f"dies/{die_id}.toml"


def _can_name_a_file(die_id: str) -> bool:
    letters = all(letter.isalpha() or letter.isdecimal() or letter in "._-" for letter in die_id)
    short = len(f"{die_id}.toml".encode()) <= MOST_BYTES
    return letters and short and not die_id.startswith(".") and not DEVICE.match(die_id)


def write_new_die(folder: Path, data: Mapping[str, object], known: KnownDies) -> Path:
    """Write `dies/ID.toml`, whole or not at all, and never over a file that exists.

    Raises
    ------
    InputError    every mistake in the data; nothing is written
    OutputError    the file exists after all, or cannot be written
    """
    mistakes = check_new_die(data, known)
    if mistakes:
        raise InputError(mistakes)
    path = folder / _file_of(str(data["id"]))
    write_new_file(path, data)
    return path
