"""Trial bends read from a CSV, one bend a line; columns in any order, those not known are passed over.

Lengths are in mm where their columns end in `_mm`, in inches where they end in `_in`, and may be written as a shop
writes them, `4 1/2`; one file has one of the two. A plain `wall` is in the unit of the other lengths or, where there
are none, in that of the machine's folder.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Annotated

from pydantic import ConfigDict, PlainValidator

from bendgen.errors import InputError, Mistake, mistaken
from bendgen.files.csv_lines import CsvLine, cell_value, head_text
from bendgen.files.field_types import FinishedAngle, PositiveLength, Text, TurnLimit
from bendgen.files.other_files import refuse_other_kinds
from bendgen.files.own_csv import check_width, own_csv_lines
from bendgen.files.text_files import read_text_file
from bendgen.files.validation import Flaw, Table, mistakes_from_flaws, nearest_of, unfit, validate
from bendgen.records.machine import MachineProfile
from bendgen.records.trials import Leg, TrialBend, TubeKind
from bendgen.units import Units

NEEDED = ("die", "material", "wall", "perforated", "lot", "commanded_deg", "measured_deg")
LENGTHS = ("wall", "feed", "blank", "front_leg", "rear_leg", "carriage_move", "gauge_clr")
WORDS = ("die", "material", "lot", "temper", "perforated", "restruck", "legs")
UNIT_ENDINGS: dict[str, Units] = {"_mm": "mm", "_in": "in"}
YES_NO = {"yes": True, "true": True, "1": True, "no": False, "false": False, "0": False}
EXPECTED_HEAD = f"a head row with the columns {', '.join(NEEDED)}"


def _yes_or_no(value: object) -> bool:
    answer = YES_NO.get(str(value).casefold())
    if answer is None:
        raise unfit("yes or no")
    return answer


YesNo = Annotated[bool, PlainValidator(_yes_or_no)]


class TrialRow(Table):
    """One line; lengths in the unit of the file."""

    model_config = ConfigDict(extra="ignore")
    die: Text
    material: Text
    wall: PositiveLength
    perforated: YesNo
    commanded_deg: TurnLimit
    measured_deg: FinishedAngle
    lot: Text | None = None
    temper: Text | None = None
    feed: PositiveLength | None = None
    blank: PositiveLength | None = None
    front_leg: PositiveLength | None = None
    rear_leg: PositiveLength | None = None
    legs: Leg = "apex"
    carriage_move: PositiveLength | None = None
    gauge_clr: PositiveLength | None = None
    restruck: YesNo = False

    def record(self, line: int) -> TrialBend:
        """Trial bend, in mm and degrees."""
        of_kind = {"die", "material", "wall", "perforated", "temper"}
        kind = TubeKind(**self.model_dump(include=of_kind))
        return TrialBend(line=line, kind=kind, **self.model_dump(exclude=of_kind))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Head:
    """Columns as written, the keys they stand for, and the unit of the lengths."""

    columns: list[str]
    keys: list[str]
    units: Units


def read_trials(path: Path, profile: MachineProfile) -> tuple[TrialBend, ...]:
    """Trial bends in a file of at most 1 MB, made on dies of this machine; raises InputError with every mistake."""
    text = read_text_file(path, "trial bends, CSV")
    refuse_other_kinds(text, path, "trial bends, CSV", "trials")
    return parse_trials(text, str(path), profile)


def parse_trials(text: str, file: str, profile: MachineProfile) -> tuple[TrialBend, ...]:
    """Trial bends in a CSV, which mistakes call `file`.

    Raises
    ------
    InputError    every mistake of the head row; or else every mistake of every cell, with line and column
    """
    head_line, *lines = own_csv_lines(text, file, EXPECTED_HEAD)
    head = _head(head_line, file, profile.units)
    if not lines:
        raise mistaken(file, "a line for each trial bend", "only the head")
    bends: list[TrialBend] = []
    mistakes: list[Mistake] = []
    for line in lines:
        row, found = _row(line, head, file, profile)
        mistakes.extend(found)
        if row is not None:
            bends.append(row.record(line.number))
    if mistakes:
        raise InputError(mistakes)
    return tuple(bends)


def _head(line: CsvLine, file: str, machine_units: Units) -> _Head:
    columns = [cell.casefold() for cell in line.cells]
    named = [_key_and_unit(column) for column in columns]
    mistakes = [
        Mistake(file=file, place=f"line {line.number}", expected=flaw.expected, found=flaw.found or head_text(columns))
        for flaw in _head_flaws(columns, [key for key, _ in named])
    ]
    if mistakes:
        raise InputError(mistakes)
    units = next((unit for _, unit in named if unit), machine_units)
    return _Head(columns=columns, keys=[key for key, _ in named], units=units)


def _key_and_unit(column: str) -> tuple[str, Units | None]:
    """Key a column stands for, and the unit that its name gives."""
    for ending, unit in UNIT_ENDINGS.items():
        if column.removesuffix(ending) in LENGTHS and column.endswith(ending):
            return column.removesuffix(ending), unit
    return column, None


def _head_flaws(columns: Sequence[str], keys: Sequence[str]) -> Iterator[Flaw]:
    yield from (Flaw(expected=f"a column {key}") for key in NEEDED if key not in keys)
    known = {*NEEDED, *TrialRow.model_fields}
    repeated = sorted(key for key in known if keys.count(key) > 1)
    yield from (Flaw(expected=f"one column {key}", found=f"{keys.count(key)} of them") for key in repeated)
    without_unit = sorted(set(columns) & set(LENGTHS[1:]))
    yield from (Flaw(expected=f"{key}_mm or {key}_in", found=f"'{key}' without a unit") for key in without_unit)
    inches = [column for column in columns if _key_and_unit(column)[1] == "in"]
    if inches and any(_key_and_unit(column)[1] == "mm" for column in columns):
        yield Flaw(
            expected="lengths in one unit, all columns in _mm or all in _in", found=f"'{', '.join(inches)}', too"
        )


def _row(line: CsvLine, head: _Head, file: str, profile: MachineProfile) -> tuple[TrialRow | None, list[Mistake]]:
    wrong_width = check_width(line, head.columns, file)
    if wrong_width:
        return None, [wrong_width]
    data = {
        key: cell if key in WORDS else cell_value(cell) for key, cell in zip(head.keys, line.cells, strict=True) if cell
    }
    row, flaws = validate(TrialRow, data, {"units": head.units})
    flaws += _die_flaws(data.get("die"), profile)
    columns = dict(zip(head.keys, head.columns, strict=True))
    return row, [
        replace(mistake, place=f"line {line.number}, column {columns.get(mistake.place, mistake.place)}")
        for mistake in mistakes_from_flaws(flaws, data, file)
    ]


def _die_flaws(die: object, profile: MachineProfile) -> Iterator[Flaw]:
    known = [known.id for known in profile.dies]
    if isinstance(die, str) and die not in known:
        yield Flaw(place=("die",), expected=nearest_of(die, known, "die id"), found=repr(die))
