"""`tables/*.toml` and `materials/*.toml`, key by key."""

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Annotated

from pydantic import Field

from bendgen.files.field_types import (
    Count,
    FinishedAngle,
    HardeningExponent,
    Length,
    Number,
    NumberFromZero,
    PositiveLength,
    PositiveNumber,
    Text,
)
from bendgen.files.table_checks import check_rows
from bendgen.files.validation import Flaw, Table, together
from bendgen.records.allowances import AllowanceRow, AllowanceTable, MaterialData
from bendgen.units import Units


class RowTable(Table):
    """`[[row]]`: one measured angle."""

    angle: FinishedAngle
    springback: Number
    elongation: Length | None = None
    clr: PositiveLength | None = None
    bends: Count | None = None
    spread: NumberFromZero | None = None

    def record(self) -> AllowanceRow:
        """Row, in mm and degrees."""
        return AllowanceRow(
            angle_deg=self.angle,
            springback_deg=self.springback,
            elongation=self.elongation,
            clr=self.clr,
            bends=self.bends,
            spread_deg=self.spread,
        )


def _check_row_tables(sound: Mapping[int, RowTable], count: int) -> Iterator[Flaw]:
    return check_rows({index: row.record() for index, row in sound.items()}, count)


class TableFile(Table):
    """The whole of a table's file."""

    units: Units
    die: Text
    material: Text
    wall: PositiveLength
    perforated: bool
    source: Text
    issued: date
    lot: Text | None = None
    temper: Text | None = None
    proven_angle: FinishedAngle | None = None
    row: Annotated[list[RowTable], Field(min_length=2), together(_check_row_tables)]

    def record(self, file: str) -> AllowanceTable:
        """Table, in mm and degrees; file: path relative to the profile folder."""
        return AllowanceTable(
            file=file,
            die=self.die,
            material=self.material,
            wall=self.wall,
            perforated=self.perforated,
            source=self.source,
            issued=self.issued,
            rows=tuple(row.record() for row in self.row),
            lot=self.lot,
            temper=self.temper,
            proven_angle_deg=self.proven_angle,
        )


class MaterialFile(Table):
    """The whole of a material's file, for estimates where no table exists."""

    units: Units
    material: Text
    source: Text
    issued: date
    youngs_modulus_mpa: PositiveNumber
    strength_coefficient_mpa: PositiveNumber
    hardening_exponent: HardeningExponent

    def record(self, file: str) -> MaterialData:
        """Material's data, in MPa; file: path relative to the profile folder."""
        return MaterialData(file=file, **self.model_dump(exclude={"units"}))
