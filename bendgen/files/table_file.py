"""Tables learned from trial bends, written into a profile's `tables/` as files of their own."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

import tomli_w

from bendgen.errors import Mistake
from bendgen.files.field_types import context_from_data
from bendgen.files.output_names import safe_name
from bendgen.files.table_models import TableFile
from bendgen.files.validation import mistakes_from_flaws, validate
from bendgen.files.whole_files import write_whole_files
from bendgen.records.allowances import AllowanceRow, AllowanceTable
from bendgen.records.trials import Lesson
from bendgen.units import FINE_DECIMALS, Units, units_from_mm


def table_file_name(table: AllowanceTable, units: Units) -> str:
    """Path of a new table within its profile's folder, `tables/d50-r100_304l_1.5_lot-7731_2026-03-14.toml`."""
    facts = [table.die, table.material.casefold(), f"{_length(table.wall, units):g}"]
    facts += ["perforated"] * table.perforated
    facts += [table.temper.casefold()] if table.temper else []
    facts += [f"lot-{table.lot}"] if table.lot else []
    stem = "_".join(fact.replace(" ", "-") for fact in facts)
    return f"tables/{safe_name(stem, f'_{table.issued.isoformat()}.toml')}"


def table_data(table: AllowanceTable, units: Units) -> dict[str, object]:
    """Content of a table's file, lengths in `units`."""
    data: dict[str, object | None] = {
        "units": units,
        "die": table.die,
        "material": table.material,
        "wall": _length(table.wall, units),
        "perforated": table.perforated,
        "source": table.source,
        "issued": table.issued,
        "lot": table.lot,
        "temper": table.temper,
        "proven_angle": table.proven_angle_deg,
        "row": [_row_data(row, units) for row in table.rows],
    }
    return _without_none(data)


def _row_data(row: AllowanceRow, units: Units) -> dict[str, object]:
    return _without_none(
        {
            "angle": row.angle_deg,
            "springback": row.springback_deg,
            "elongation": None if row.elongation is None else _length(row.elongation, units),
            "clr": None if row.clr is None else _length(row.clr, units),
            "bends": row.bends,
            "spread": row.spread_deg,
        }
    )


def _without_none(data: Mapping[str, object | None]) -> dict[str, object]:
    return {key: value for key, value in data.items() if value is not None}


def _length(length: float, units: Units) -> float:
    return round(units_from_mm(length, units), FINE_DECIMALS[units] + 1)


def with_file(lesson: Lesson, units: Units) -> Lesson:
    """Lesson whose table has its file's name; without a table, if the profile's reader would refuse that file."""
    if lesson.table is None:
        return lesson
    table = replace(lesson.table, file=table_file_name(lesson.table, units))
    mistakes = check_table(table, units)
    if not mistakes:
        return replace(lesson, table=table)
    reasons = "; ".join(f"{found.place}: expected {found.expected}, found {found.found}" for found in mistakes)
    return replace(lesson, table=None, fit=None, shift=None, refusal=f"the rows make no table: {reasons}")


def check_table(table: AllowanceTable, units: Units) -> list[Mistake]:
    """Every mistake that the reader of the profile would find in the table's file."""
    data = table_data(table, units)
    _, flaws = validate(TableFile, data, context_from_data(data))
    return mistakes_from_flaws(flaws, data, table.file)


def write_tables(tables: Sequence[AllowanceTable], folder: Path, units: Units) -> list[Path]:
    """Write each table to its file in the profile's folder, all of them or none.

    Raises
    ------
    OutputError    one of the files exists, or cannot be written
    """
    files = {folder / table.file: tomli_w.dumps(table_data(table, units)) for table in tables}
    write_whole_files(files)
    return list(files)
