"""A part's file, key by key."""

from typing import TYPE_CHECKING, Annotated, Any, Literal

from pydantic import AfterValidator, Field, ValidationInfo, field_validator

from bendgen.files.field_types import (
    ClockPosition,
    Count,
    FinishedAngle,
    Length,
    LengthFromZero,
    MergeAngle,
    PositiveLength,
    PositiveNumber,
    Rotation,
    Text,
    sized,
)
from bendgen.files.machine_models import LimitsTable
from bendgen.files.part_use_models import CodeTable, EndsTable
from bendgen.files.path_checks import COMMAS, MOST_VERTICES, check_path
from bendgen.files.validation import Flaw, Table, UnfitError, table_within, together, unfit
from bendgen.records.machine import ShapeLimits
from bendgen.records.part import Centreline, Part, Tolerance, TrimEnds, Vertex, WantedBend, WantedSteps
from bendgen.records.tube import Perforation, Tube
from bendgen.units import Units

if TYPE_CHECKING:
    from bendgen.files.offset_models import OffsetTable
    from bendgen.files.route_models import RouteTable


class PartTable(Table):
    """`[part]`: what the shop calls it and what it has fixed."""

    name: Text
    number: Text
    revision: Text
    quantity: Count
    die: Text | None = None
    trim: TrimEnds = "both"
    front_trim: LengthFromZero | None = None
    blank: PositiveLength | None = None
    rear_trim: LengthFromZero | None = None

    @field_validator("front_trim", "rear_trim")
    @classmethod
    def check_trim(cls, trim: float | None, info: ValidationInfo) -> float | None:
        """No trim at an end where the part forbids it; nothing to cut is no trim."""
        end = str(info.field_name).removesuffix("_trim")
        ends = info.data.get("trim", "both")
        if trim and ends not in ("both", end):
            raise unfit(f"no trim at the {end}, as trim = '{ends}'")
        return trim

    @field_validator("rear_trim")
    @classmethod
    def check_rear_trim(cls, rear_trim: float | None, info: ValidationInfo) -> float | None:
        """Refuse both blank and rear trim: one follows from the other."""
        if info.data.get("blank") is not None:
            raise unfit("only one of 'blank' and 'rear_trim'", "both")
        return rear_trim


class PerforationTable(Table):
    """`[tube.perforation]`."""

    hole: PositiveLength
    pitch: PositiveLength
    pattern: Literal["60", "square"]
    plain_front: LengthFromZero = 0.0
    plain_rear: LengthFromZero = 0.0

    @field_validator("pitch")
    @classmethod
    def check_pitch(cls, pitch: float, info: ValidationInfo) -> float:
        """Holes leave something between them."""
        if pitch <= info.data.get("hole", 0.0):
            raise unfit("a pitch greater than 'hole'")
        return pitch

    def record(self) -> Perforation:
        """Holes, in mm."""
        return Perforation(**self.model_dump())


class TubeTable(Table):
    """`[tube]`."""

    od: PositiveLength
    wall: PositiveLength
    material: Text
    perforated: bool = False
    lot: Text | None = None
    temper: Text | None = None
    seam: ClockPosition | None = None
    perforation: PerforationTable | None = None

    @field_validator("wall")
    @classmethod
    def check_wall(cls, wall: float, info: ValidationInfo) -> float:
        """Leave the tube a bore."""
        if "od" in info.data and wall >= info.data["od"] / 2.0:
            raise unfit("a wall less than half of 'od'")
        return wall

    @field_validator("perforation")
    @classmethod
    def check_perforation(cls, perforation: PerforationTable, info: ValidationInfo) -> PerforationTable:
        """Holes only in a perforated tube."""
        if info.data.get("perforated") is False:
            raise unfit("perforated = true beside it", "a tube without holes")
        return perforation

    def record(self) -> Tube:
        """Tube, in mm and degrees."""
        return Tube(
            od=self.od,
            wall=self.wall,
            material=self.material,
            perforated=self.perforated,
            temper=self.temper,
            lot=self.lot,
            seam_deg=self.seam,
            perforation=None if self.perforation is None else self.perforation.record(),
        )


def _check_clr(vertex: list[float]) -> list[float]:
    if len(vertex) == 4 and not vertex[3] > 0.0:
        raise UnfitError(Flaw(place=(3,), expected="a CLR greater than 0", found=f"{vertex[3]:g}; {COMMAS}"))
    return vertex


VertexList = Annotated[list[Length], sized("[x, y, z] or [x, y, z, clr]", 3, 4), AfterValidator(_check_clr)]


class CentrelineTable(Table):
    """`[centreline]`."""

    vertices: Annotated[list[VertexList], Field(min_length=2, max_length=MOST_VERTICES), together(check_path)]
    merge_below: MergeAngle | None = None

    def record(self) -> Centreline:
        """Path, in mm."""
        vertices = (Vertex(x=x, y=y, z=z, clr=clr[0] if clr else None) for x, y, z, *clr in self.vertices)
        return Centreline(vertices=tuple(vertices), merge_below_deg=self.merge_below)


class WantedBendTable(Table):
    """One item of `bend` in `[steps]`."""

    straight: LengthFromZero
    rotation: Rotation
    angle: FinishedAngle
    clr: PositiveLength | None = None

    def record(self) -> WantedBend:
        """Bend, in mm and degrees."""
        return WantedBend(straight=self.straight, rotation_deg=self.rotation, angle_deg=self.angle, clr=self.clr)


class StepsTable(Table):
    """`[steps]`."""

    bend: Annotated[list[WantedBendTable], Field(max_length=MOST_VERTICES)]
    rear: LengthFromZero

    @field_validator("rear")
    @classmethod
    def check_rear(cls, rear: float, info: ValidationInfo) -> float:
        """Without a bend the last straight is the whole tube."""
        if info.data.get("bend") == [] and rear == 0.0:
            raise unfit("a number greater than 0, as there is no bend")
        return rear

    def record(self) -> WantedSteps:
        """Wanted steps, in mm and degrees."""
        return WantedSteps(bends=tuple(bend.record() for bend in self.bend), rear=self.rear)


class ToleranceTable(Table):
    """`[tolerance]`; `iso2768` names a class in place of `length` and `angle`."""

    iso2768: Literal["f", "m", "c", "v"] | None = None
    length: PositiveLength | None = None
    angle: PositiveNumber | None = None
    offset: PositiveLength | None = None

    @field_validator("length", "angle")
    @classmethod
    def check_single_source(cls, value: float | None, info: ValidationInfo) -> float | None:
        """Either a class or numbers."""
        if info.data.get("iso2768") is not None:
            raise unfit(f"only one of 'iso2768' and '{info.field_name}'", "both")
        return value

    def record(self) -> Tolerance:
        """Tolerances, in mm and degrees; what is not given stays at the default."""
        given = {"length": self.length, "angle_deg": self.angle, "offset": self.offset}
        numbers = {key: value for key, value in given.items() if value is not None}
        return Tolerance(iso2768=self.iso2768, source="part", **numbers)


def _offset_model() -> type["OffsetTable"]:
    from bendgen.files.offset_models import OffsetTable  # noqa: PLC0415

    return OffsetTable


def _route_model() -> type["RouteTable"]:
    from bendgen.files.route_models import RouteTable  # noqa: PLC0415

    return RouteTable


class PartFile(Table):
    """The whole of a part's file; that it holds exactly one wish is checked by `part_file`."""

    units: Units
    part: PartTable
    tube: TubeTable
    centreline: CentrelineTable | None = None
    offset: Annotated[Any, table_within(_offset_model)] = None
    route: Annotated[Any, table_within(_route_model)] = None
    steps: StepsTable | None = None
    tolerance: ToleranceTable | None = None
    limits: LimitsTable | None = None
    ends: EndsTable | None = None
    code: CodeTable | None = None

    def record(self) -> Part:
        """Part, in mm and degrees."""
        ends = self.ends or EndsTable()
        return Part(
            **self.part.model_dump(),
            units=self.units,
            tube=self.tube.record(),
            centreline=None if self.centreline is None else self.centreline.record(),
            offset=None if self.offset is None else self.offset.record(),
            route=None if self.route is None else self.route.record(),
            steps=None if self.steps is None else self.steps.record(),
            tolerance=Tolerance() if self.tolerance is None else self.tolerance.record(),
            limits=ShapeLimits() if self.limits is None else self.limits.record(),
            front_fit=None if ends.front is None else ends.front.record(),
            rear_fit=None if ends.rear is None else ends.rear.record(),
            code=None if self.code is None else self.code.record(),
        )
