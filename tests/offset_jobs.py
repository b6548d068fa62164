"""A bender without springback, for offsets whose answers are known from elsewhere."""

from dataclasses import dataclass
from datetime import date

from bendgen.bending.allowances import AllowanceCurves, curves_of_table
from bendgen.records.allowances import AllowanceRow, AllowanceTable
from bendgen.records.machine import (
    BendAxis,
    BlankLimits,
    Carriage,
    FeedAxis,
    MachineProfile,
    OutputForm,
    RotationAxis,
)
from bendgen.records.offset import OffsetWish
from bendgen.records.part import Part
from bendgen.records.tooling import DieSet
from bendgen.records.tube import Tube


@dataclass(frozen=True, kw_only=True)
class RigidBender:
    """Die, machine and curves of a tube that keeps the shape of its die."""

    die: DieSet
    profile: MachineProfile
    curves: AllowanceCurves


def rigid_bender(*, clr: float, clamp: float = 0.0, od: float = 20.0, resolution_deg: float = 0.1) -> RigidBender:
    """Bender that draws left, with one die and next to no limits; every number is invented."""
    die = DieSet(id="only", tube_od=od, clr=clr, clamp=clamp, largest_bend_deg=180.0)
    table = AllowanceTable(
        file="tables/only.toml",
        die="only",
        material="304L",
        wall=1.5,
        perforated=False,
        source="invented: no springback",
        issued=date(2026, 1, 5),
        rows=tuple(AllowanceRow(angle_deg=angle, springback_deg=0.0, elongation=0.0) for angle in (0.5, 180.0)),
    )
    profile = MachineProfile(
        name="Invented bender",
        units="mm",
        sha256="0" * 64,
        bend=BendAxis(side="left", largest_deg=180.0, resolution_deg=resolution_deg, repeatability_deg=0.05),
        rotation=RotationAxis(resolution_deg=0.1, repeatability_deg=0.05),
        feed=FeedAxis(resolution=0.1, repeatability=0.1),
        carriage=Carriage(travel=1e6, closest=1.0, grip=20.0),
        blank=BlankLimits(shortest=0.0, longest=1e6),
        output=OutputForm(
            units="mm",
            feed="incremental",
            rotation="incremental",
            rotation_positive="clockwise_from_carriage",
            columns=("number", "feed", "rotation", "bend"),
            headings=("number", "feed", "rotation", "bend"),
        ),
        dies=(die,),
        tables=(table,),
    )
    return RigidBender(die=die, profile=profile, curves=curves_of_table(table, clr))


def offset_part(wish: OffsetWish, *, od: float = 20.0, die: str | None = None) -> Part:
    """Part that asks for an offset."""
    return Part(
        name="Duct past a bearing",
        number="GD-121",
        revision="A",
        quantity=1,
        units="mm",
        tube=Tube(od=od, wall=1.5, material="304L"),
        offset=wish,
        die=die,
    )
