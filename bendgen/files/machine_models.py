"""`machine.toml`, key by key."""

from typing import Annotated, Literal

from pydantic import Field, ValidationInfo, field_validator

from bendgen.files.field_types import (
    Length,
    LengthFromZero,
    NumberFromZero,
    NumberRange,
    Percentage,
    PositiveLength,
    PositiveNumber,
    Text,
    TurnLimit,
    not_below,
)
from bendgen.files.validation import Table, unfit
from bendgen.records.machine import (
    BendAxis,
    BlankLimits,
    Carriage,
    Column,
    FeedAxis,
    FeedForm,
    MachineProfile,
    OperatorStands,
    OutputForm,
    RotationAxis,
    RotationForm,
    RotationPositive,
    ShapeLimits,
)
from bendgen.units import Units


class BendTable(Table):
    """`[bend]`."""

    side: Literal["left", "right"]
    smallest: TurnLimit | None = None
    largest: Annotated[TurnLimit, not_below("smallest")]
    resolution: PositiveNumber
    repeatability: NumberFromZero

    def record(self) -> BendAxis:
        """Bending arm, in degrees."""
        return BendAxis(
            side=self.side,
            largest_deg=self.largest,
            resolution_deg=self.resolution,
            repeatability_deg=self.repeatability,
            smallest_deg=self.smallest,
        )


class RotationTable(Table):
    """`[rotation]`."""

    resolution: PositiveNumber
    repeatability: NumberFromZero
    range: NumberRange | None = None

    def record(self) -> RotationAxis:
        """Rotation of the collet, in degrees."""
        return RotationAxis(
            resolution_deg=self.resolution,
            repeatability_deg=self.repeatability,
            range_deg=None if self.range is None else (self.range[0], self.range[1]),
        )


class FeedTable(Table):
    """`[feed]`."""

    resolution: PositiveLength
    repeatability: LengthFromZero
    smallest: LengthFromZero | None = None
    largest: Annotated[PositiveLength, not_below("smallest")] | None = None

    def record(self) -> FeedAxis:
        """Feed of the carriage, in mm."""
        return FeedAxis(**self.model_dump())


class CarriageTable(Table):
    """`[carriage]`."""

    closest: LengthFromZero
    travel: Annotated[PositiveLength, not_below("closest")]
    grip: PositiveLength
    load_at: Length = 0.0
    last_rear: LengthFromZero | None = None
    open_before_last: bool = False
    regrip: bool = False
    centre_height: PositiveLength | None = None

    @field_validator("open_before_last")
    @classmethod
    def check_open_before_last(cls, opens: bool, info: ValidationInfo) -> bool:  # noqa: FBT001 - pydantic calls it
        """Require the rear straight that a collet needs when it opens."""
        if opens and info.data.get("last_rear", 0.0) is None:
            raise unfit("'last_rear' beside it", "none")
        return opens

    def record(self) -> Carriage:
        """Carriage and its collet, in mm."""
        return Carriage(**self.model_dump())


class BlankTable(Table):
    """`[blank]`."""

    shortest: LengthFromZero
    longest: Annotated[PositiveLength, not_below("shortest")]
    resolution: PositiveLength | None = None

    def record(self) -> BlankLimits:
        """Limits of the blank, in mm."""
        return BlankLimits(**self.model_dump())


class OutputTable(Table):
    """`[output]`; the columns' own names head them where no headings are given."""

    units: Units
    feed: FeedForm
    rotation: RotationForm
    rotation_positive: RotationPositive
    columns: Annotated[list[Column], Field(min_length=1)]
    headings: list[Text] | None = None

    @field_validator("columns")
    @classmethod
    def check_columns(cls, columns: list[Column]) -> list[Column]:
        """Each column once."""
        if len(set(columns)) < len(columns):
            raise unfit("each column once", "a column twice")
        return columns

    @field_validator("headings")
    @classmethod
    def check_headings(cls, headings: list[str] | None, info: ValidationInfo) -> list[str] | None:
        """One heading a column."""
        columns = info.data.get("columns")
        if headings is not None and columns and len(headings) != len(columns):
            raise unfit(f"as many headings as columns ({len(columns)})", f"{len(headings)}")
        return headings

    def record(self) -> OutputForm:
        """Form in which the machine wants its steps."""
        return OutputForm(
            units=self.units,
            feed=self.feed,
            rotation=self.rotation,
            rotation_positive=self.rotation_positive,
            columns=tuple(self.columns),
            headings=tuple(self.columns if self.headings is None else self.headings),
        )


class LimitsTable(Table):
    """`[limits]`, in a machine or in a part."""

    thinning: Percentage | None = None
    wall_factor: PositiveNumber | None = None

    def record(self) -> ShapeLimits:
        """Limits of thinning and wall factor."""
        return ShapeLimits(thinning_percent=self.thinning, wall_factor=self.wall_factor)


class OperatorTable(Table):
    """`[operator]`: where the operator's own place is, left and right seen from the carriage."""

    stands: OperatorStands


class MachineFile(Table):
    """The whole of `machine.toml`."""

    units: Units
    name: Text
    bend: BendTable
    rotation: RotationTable
    feed: FeedTable
    carriage: CarriageTable
    blank: BlankTable
    output: OutputTable
    limits: LimitsTable | None = None
    operator: OperatorTable | None = None

    def record(self) -> MachineProfile:
        """Bender without its dies, tables, materials and without a digest of its files."""
        return MachineProfile(
            name=self.name,
            units=self.units,
            sha256="",
            bend=self.bend.record(),
            rotation=self.rotation.record(),
            feed=self.feed.record(),
            carriage=self.carriage.record(),
            blank=self.blank.record(),
            output=self.output.record(),
            limits=ShapeLimits() if self.limits is None else self.limits.record(),
            operator_stands=None if self.operator is None else self.operator.stands,
        )
