"""A step list in JSON, as far as a measured part is held against it; keys that are not known are passed over."""

from typing import Annotated, Literal

from pydantic import Field

from bendgen.files.field_types import (
    Count,
    FinishedAngle,
    Number,
    NumberFromZero,
    PositiveNumber,
    Rotation,
    Text,
    sized,
)
from bendgen.files.foretold_part import Told, ToldPart
from bendgen.records.bend_program import Blank, Check, CutEnd, CutMark, CutMoment, CutZero, Uncertainty
from bendgen.records.bent_tube import Bend, BentTube, Point, Shape
from bendgen.records.foretold import Foretold, ForetoldStep
from bendgen.records.machine import FeedForm, RotationForm
from bendgen.records.part import Tolerance
from bendgen.units import Units

JsonPoint = Annotated[list[Number], sized("[x, y, z]", 3)]
Band = Annotated[list[Number], sized("[smallest, largest]", 2)]


class ToldCutMark(Told):
    """One of `blank.cut_marks`."""

    end: CutEnd
    distance: Number
    when: CutMoment
    measured_from: CutZero


class ToldBlank(Told):
    """`blank`."""

    length: PositiveNumber
    front_trim: NumberFromZero
    rear_trim: NumberFromZero
    cut_marks: list[ToldCutMark]

    def record(self) -> Blank:
        """Blank, in mm."""
        return Blank(
            length=self.length,
            front_trim=self.front_trim,
            rear_trim=self.rear_trim,
            cut_marks=tuple(CutMark(**mark.model_dump()) for mark in self.cut_marks),
        )


class ToldStep(Told):
    """One of `steps`."""

    number: Count
    die: Text
    feed: Number
    rotation: Rotation
    bend: FinishedAngle  # commanded, but within the same range
    elongation: Number
    slope: PositiveNumber
    width_change: Number | None = None

    def record(self) -> ForetoldStep:
        """Step, in mm and degrees."""
        return ForetoldStep(
            number=self.number,
            die=self.die,
            feed=self.feed,
            rotation_deg=self.rotation,
            bend_deg=self.bend,
            elongation=self.elongation,
            slope=self.slope,
            straights_held=self.width_change is not None,
        )


class ToldMachine(Told):
    """`machine`."""

    name: Text


class ToldForms(Told):
    """`machine_steps`."""

    units: Units
    feed: FeedForm
    rotation: RotationForm


class ToldBend(Told):
    """A finished bend."""

    angle: FinishedAngle
    rotation: Rotation
    clr: PositiveNumber


class ToldShape(Told):
    """`wanted` or `predicted`."""

    points: list[JsonPoint]
    vertices: list[JsonPoint] | None = None
    straights: list[Number]
    bends: list[ToldBend]

    def shape(self) -> Shape:
        """Where it lies, in mm."""
        vertices = None if self.vertices is None else tuple(_point(vertex) for vertex in self.vertices)
        return Shape(points=tuple(_point(point) for point in self.points), vertices=vertices)

    def tube(self) -> BentTube:
        """Straights and bends, in mm and degrees."""
        bends = (Bend(angle_deg=bend.angle, rotation_deg=bend.rotation, clr=bend.clr) for bend in self.bends)
        return BentTube(straights=tuple(self.straights), bends=tuple(bends))


class ToldTolerance(Told):
    """`tolerance`."""

    length: PositiveNumber
    angle: PositiveNumber
    offset: PositiveNumber
    iso2768: Literal["f", "m", "c", "v"] | None = None
    source: Literal["default", "part"]

    def record(self) -> Tolerance:
        """Tolerance, in mm and degrees."""
        return Tolerance(
            length=self.length, angle_deg=self.angle, offset=self.offset, iso2768=self.iso2768, source=self.source
        )


class ToldUncertainty(Told):
    """`uncertainty` of a check."""

    expanded: PositiveNumber
    shares: list[Number]


class ToldCheck(Told):
    """One of `checks`."""

    id: Text
    quantity: Text
    start: Text = Field(alias="from")
    end: Text = Field(alias="to")
    when: Text
    predicted: Number
    tolerance: PositiveNumber
    unit: Literal["mm", "deg"]
    band: Band | None = None
    uncertainty: ToldUncertainty | None = None

    def record(self) -> Check:
        """Check, in mm or degrees."""
        unsure = self.uncertainty
        return Check(
            id=self.id,
            quantity=self.quantity,
            start=self.start,
            end=self.end,
            when=self.when,
            predicted=self.predicted,
            tolerance=self.tolerance,
            unit=self.unit,
            band=None if self.band is None else (self.band[0], self.band[1]),
            uncertainty=None if unsure is None else Uncertainty(expanded=unsure.expanded, shares=tuple(unsure.shares)),
        )


class ToldProgram(Told):
    """A step list, as far as a measured part is held against it."""

    id: Text
    part: ToldPart
    machine: ToldMachine
    blank: ToldBlank
    steps: list[ToldStep]
    machine_steps: ToldForms
    wanted: ToldShape
    predicted: ToldShape
    tolerance: ToldTolerance
    checks: list[ToldCheck]

    def record(self) -> Foretold:
        """Everything in mm and degrees."""
        part = self.part
        return Foretold(
            program_id=self.id,
            issue=part.issue,
            name=part.name,
            number=part.number,
            revision=part.revision,
            machine=self.machine.name,
            units=self.machine_steps.units,
            mirrored=part.mirrored,
            from_rear=part.from_rear,
            tube=part.tube.record(),
            feed=self.machine_steps.feed,
            rotation=self.machine_steps.rotation,
            blank=self.blank.record(),
            steps=tuple(step.record() for step in self.steps),
            wanted=self.wanted.shape(),
            wanted_tube=self.wanted.tube(),
            predicted=self.predicted.shape(),
            finished=self.predicted.tube(),
            tolerance=self.tolerance.record(),
            checks=tuple(check.record() for check in self.checks),
            corrections=tuple(bend.record() for bend in part.correction.bends) if part.correction else (),
        )


def _point(coordinates: list[float]) -> Point:
    """Point of a list of three."""
    x, y, z = coordinates
    return x, y, z
