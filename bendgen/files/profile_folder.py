"""A machine profile from its folder of TOML files.

The files used are machine.toml, dies/*.toml, tables/*.toml and materials/*.toml, always in the order of their paths
relative to the folder; proof.toml, which `machine proof` writes, is read beside them and is no part of the digest, as
it changes no step. Other files, files elsewhere and files whose name begins with a dot are ignored.
"""

import hashlib
import os
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path

from bendgen.errors import InputError, Mistake
from bendgen.files.die_models import DieFile
from bendgen.files.field_types import context_from_data
from bendgen.files.machine_models import MachineFile
from bendgen.files.proof_file import read_proof
from bendgen.files.table_checks import TableCaution, check_springback
from bendgen.files.table_models import MaterialFile, TableFile
from bendgen.files.text_files import read_content
from bendgen.files.toml_input import parse_toml
from bendgen.files.validation import Flaw, Table, mistakes_from_flaws, nearest_of, validate
from bendgen.records.machine import MachineProfile

MACHINE = "machine.toml"
MODELS: dict[str, type[Table]] = {"dies": DieFile, "tables": TableFile, "materials": MaterialFile}


@dataclass(frozen=True, slots=True, kw_only=True)
class ProfileCheck:
    """What a profile folder holds and what is wrong with it.

    profile : None if there is any mistake
    cautions : of the tables that are sound by themselves
    dies, tables, materials : number of files, wrong ones included
    """

    profile: MachineProfile | None
    mistakes: tuple[Mistake, ...]
    cautions: tuple[TableCaution, ...]
    dies: int
    tables: int
    materials: int


@dataclass(slots=True, kw_only=True)
class _InputFile:
    """One file of the folder: `data` is None if it is no TOML, `table` if it has flaws of its own."""

    file: str
    content: bytes = b""
    data: dict[str, object] | None = None
    table: Table | None = None
    flaws: list[Flaw] = field(default_factory=list)
    mistakes: list[Mistake] = field(default_factory=list)

    def all_mistakes(self) -> list[Mistake]:
        return [*self.mistakes, *mistakes_from_flaws(self.flaws, self.data or {}, self.file)]


def read_profile(folder: Path) -> MachineProfile:
    """Machine profile in a folder.

    Its digest is the SHA-256 over the files used, in order of relative path: of each the path (with slashes), a NUL,
    the number of bytes in decimal digits, a NUL, and the bytes.

    Raises
    ------
    InputError
        Every mistake of every file, in the order of the files.
    """
    check = check_profile(folder)
    if check.profile is None:
        raise InputError(check.mistakes)
    return check.profile


def check_profile(folder: Path) -> ProfileCheck:
    """Everything wrong with a profile folder, or merely odd, and the profile if nothing is wrong."""
    files = [_read_file(path, file) for file, path in _files_used(folder)]
    _check_die_ids(_files_in("dies", files))
    _check_dies_of_tables(_files_in("tables", files), _files_in("dies", files))
    mistakes = [*_missing_files(folder, files), *(mistake for file in files for mistake in file.all_mistakes())]
    tables = [file.table.record(file.file) for file in files if isinstance(file.table, TableFile)]
    profile = None
    if not mistakes:
        try:
            profile = _with_proof(_profile_from_files(files), folder)
        except InputError as error:
            mistakes.extend(error.mistakes)
    return ProfileCheck(
        profile=profile,
        mistakes=tuple(sorted(mistakes, key=lambda mistake: mistake.file)),
        cautions=tuple(caution for table in tables for caution in check_springback(table)),
        dies=len(_files_in("dies", files)),
        tables=len(_files_in("tables", files)),
        materials=len(_files_in("materials", files)),
    )


def _files_used(folder: Path) -> list[tuple[str, Path]]:
    """Relative path, with slashes, and path of each file used."""
    paths = [folder / MACHINE] if (folder / MACHINE).exists() else []
    for name in MODELS:
        if (folder / name).is_dir():
            paths += [path for path in (folder / name).iterdir() if path.suffix == ".toml" and path.name[0] != "."]
    return sorted((path.relative_to(folder).as_posix(), path) for path in paths)


def _missing_files(folder: Path, files: Iterable[_InputFile]) -> Iterator[Mistake]:
    if not folder.is_dir():
        found = "a file" if folder.exists() else ""
        perhaps = f", perhaps {folder.parent}" if folder.name == MACHINE else ""
        yield Mistake(file=str(folder), place="", expected=f"the folder of a machine profile{perhaps}", found=found)
        return
    if not any(file.file == MACHINE for file in files):
        yield Mistake(file=MACHINE, place="", expected="the machine's own file in the profile folder", found="")
    if not _files_in("dies", files):
        yield Mistake(
            file="dies",
            place="",
            expected="a folder with a .toml file for each die set, as bendgen machine add-die writes it",
            found="",
        )


def _files_in(name: str, files: Iterable[_InputFile]) -> list[_InputFile]:
    return [file for file in files if file.file.startswith(f"{name}/")]


def _read_file(path: Path, file: str) -> _InputFile:
    """One file, read once: what is hashed is what was understood."""
    if not file.isprintable():
        mistake = Mistake(file=ascii(file), place="", expected="a file name that can be printed", found="another")
        return _InputFile(file=file, mistakes=[mistake])
    try:
        content = read_content(path, file, expected="a TOML file")
        data = parse_toml(content, file)
    except InputError as error:
        return _InputFile(file=file, mistakes=list(error.mistakes))
    model = MODELS.get(path.parent.name, MachineFile) if file != MACHINE else MachineFile
    table, flaws = validate(model, data, context_from_data(data))
    return _InputFile(file=file, content=content, data=data, table=table, flaws=flaws)


def _check_die_ids(dies: Iterable[_InputFile]) -> None:
    """Add a flaw to every die file whose id an earlier one has."""
    first: dict[str, str] = {}
    for die in dies:
        die_id = (die.data or {}).get("id")
        if isinstance(die_id, str) and first.setdefault(die_id, die.file) != die.file:
            found = f"the id of {first[die_id]}"
            die.flaws.append(Flaw(place=("id",), expected="an id of its own", found=found))


def _check_dies_of_tables(tables: Iterable[_InputFile], dies: Iterable[_InputFile]) -> None:
    """Add a flaw to every table of an unknown die; none while the id of some die cannot be read."""
    ids = [(die.data or {}).get("id") for die in dies]
    known = [die_id for die_id in ids if isinstance(die_id, str)]
    if len(known) < len(ids) or not known:
        return
    for table in tables:
        die_id = (table.data or {}).get("die")
        if isinstance(die_id, str) and die_id not in known:
            table.flaws.append(Flaw(place=("die",), expected=nearest_of(die_id, known, "die id"), found=repr(die_id)))


def _profile_from_files(files: Iterable[_InputFile]) -> MachineProfile:
    """Profile, all files being sound."""
    tables = [(file.file, file.table) for file in files]
    machine = next(table for _, table in tables if isinstance(table, MachineFile))
    return replace(
        machine.record(),
        sha256=_digest(files),
        dies=tuple(table.record() for _, table in tables if isinstance(table, DieFile)),
        tables=tuple(table.record(file) for file, table in tables if isinstance(table, TableFile)),
        materials=tuple(table.record(file) for file, table in tables if isinstance(table, MaterialFile)),
    )


def _with_proof(profile: MachineProfile, folder: Path) -> MachineProfile:
    return replace(profile, proved_on=read_proof(profile, folder))


def _digest(files: Iterable[_InputFile]) -> str:
    digest = hashlib.sha256()
    for file in files:
        digest.update(b"%b\0%d\0%b" % (os.fsencode(file.file), len(file.content), file.content))
    return digest.hexdigest()
