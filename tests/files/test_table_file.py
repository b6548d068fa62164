"""Learned tables as files: names, contents that read back, and rows that make no table."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from bendgen.errors import OutputError
from bendgen.files.table_file import table_data, table_file_name, with_file, write_tables
from bendgen.files.table_models import TableFile
from bendgen.files.toml_input import load_toml
from bendgen.files.validation import validate
from bendgen.records.allowances import AllowanceRow, AllowanceTable
from bendgen.records.trials import Lesson, TubeKind
from bendgen.units import Units

TABLE = AllowanceTable(
    file="",
    die="d50-r100",
    material="Mild Steel",
    wall=1.651,
    perforated=True,
    source="trial bends: invented.csv",
    issued=date(2026, 3, 14),
    lot="A/7",
    temper="Annealed",
    proven_angle_deg=60.0,
    rows=(
        AllowanceRow(angle_deg=30.0, springback_deg=1.5, elongation=1.27, clr=103.886, bends=2, spread_deg=0.05),
        AllowanceRow(angle_deg=60.0, springback_deg=2.0, elongation=2.54, clr=102.87),
    ),
)
LESSON = Lesson(kind=TubeKind(die="d50-r100", material="304L", wall=1.5, perforated=False), lot=None, bends=2)


def test_names() -> None:
    plain = replace(TABLE, material="304L", wall=1.5, perforated=False, lot=None, temper=None)
    assert table_file_name(plain, "mm") == "tables/d50-r100_304l_1.5_2026-03-14.toml"
    assert table_file_name(replace(plain, lot="7731"), "mm") == "tables/d50-r100_304l_1.5_lot-7731_2026-03-14.toml"
    assert (
        table_file_name(TABLE, "in") == "tables/d50-r100_mild-steel_0.065_perforated_annealed_lot-A_7_2026-03-14.toml"
    )
    long = table_file_name(replace(plain, lot="x" * 300), "mm").removeprefix("tables/")
    assert len(long) == 120
    assert long.endswith("_2026-03-14.toml")


@pytest.mark.parametrize("units", ["mm", "in"])
def test_what_is_written_reads_back(units: Units, tmp_path: Path) -> None:
    (path,) = write_tables([replace(TABLE, file="tables/new.toml")], tmp_path, units)
    model, flaws = validate(TableFile, load_toml(path), {"units": units})
    assert flaws == []
    assert model is not None
    read = model.record("")
    assert (read.die, read.lot, read.issued, read.proven_angle_deg) == ("d50-r100", "A/7", TABLE.issued, 60.0)
    assert read.wall == pytest.approx(TABLE.wall)
    for row, written in zip(read.rows, TABLE.rows, strict=True):
        assert (row.angle_deg, row.springback_deg) == (written.angle_deg, written.springback_deg)
        assert (row.bends, row.spread_deg) == (written.bends, written.spread_deg)
        assert row.elongation == pytest.approx(written.elongation)
        assert row.clr == pytest.approx(written.clr)


def test_what_is_not_known_is_not_written() -> None:
    bare = replace(TABLE, lot=None, temper=None, proven_angle_deg=None)
    assert not {"lot", "temper", "proven_angle"} & set(table_data(bare, "mm"))


def test_nothing_is_ever_overwritten(tmp_path: Path) -> None:
    table = replace(TABLE, file="tables/new.toml")
    (path,) = write_tables([table], tmp_path, "mm")
    before = path.read_bytes()
    with pytest.raises(OutputError, match="would overwrite"):
        write_tables([replace(table, file="tables/other.toml"), replace(table, lot="8")], tmp_path, "mm")
    assert [found.name for found in (tmp_path / "tables").iterdir()] == ["new.toml"]
    assert path.read_bytes() == before


def test_a_lesson_learns_the_name_of_its_file() -> None:
    named = with_file(replace(LESSON, table=TABLE), "in").table
    assert named is not None
    assert named.file == table_file_name(TABLE, "in")
    assert with_file(LESSON, "mm") is LESSON


def test_rows_that_make_no_table_are_refused() -> None:
    rows = (TABLE.rows[0], replace(TABLE.rows[1], angle_deg=29.0))
    refused = with_file(replace(LESSON, table=replace(TABLE, rows=rows)), "mm")
    assert refused.table is None
    assert refused.refusal == (
        "the rows make no table: row[2].angle: expected an angle greater than that of row 1 (30), found 29"
    )
