"""`dies/*.toml`, key by key."""

from typing import Annotated

from pydantic import Field

from bendgen.files.field_types import (
    LengthFromZero,
    LengthRange,
    NumberRange,
    PositiveLength,
    Rotation,
    Text,
    TurnLimit,
    not_below,
)
from bendgen.files.validation import Table
from bendgen.records.tooling import ContourClamp, DieSet
from bendgen.units import Units


class ContourTable(Table):
    """`[contour]`: a clamp cut to hold on the bend before."""

    shortest_between: LengthFromZero
    before_angle: NumberRange
    rotation: Annotated[list[Rotation], Field(min_length=1)]

    def record(self) -> ContourClamp:
        """Contoured clamp, in mm and degrees."""
        return ContourClamp(
            shortest_between=self.shortest_between,
            before_angle_deg=(self.before_angle[0], self.before_angle[1]),
            rotation_deg=tuple(self.rotation),
        )


class DieFile(Table):
    """The whole of a die's file."""

    units: Units
    id: Text
    tube_od: PositiveLength
    clr: PositiveLength
    clamp: PositiveLength
    smallest_bend: TurnLimit | None = None
    largest_bend: Annotated[TurnLimit, not_below("smallest_bend")]
    pressure_die: PositiveLength | None = None
    pressure_travel: PositiveLength | None = None
    mandrel_ahead: LengthFromZero | None = None
    walls: LengthRange | None = None
    stack: Text | None = None
    sleeve: LengthFromZero | None = None
    set_up: Text | None = None
    contour: ContourTable | None = None

    def record(self) -> DieSet:
        """Die set, in mm and degrees."""
        return DieSet(
            id=self.id,
            tube_od=self.tube_od,
            clr=self.clr,
            clamp=self.clamp,
            largest_bend_deg=self.largest_bend,
            smallest_bend_deg=self.smallest_bend,
            pressure_die=self.pressure_die,
            pressure_travel=self.pressure_travel,
            mandrel_ahead=self.mandrel_ahead,
            walls=None if self.walls is None else (self.walls[0], self.walls[1]),
            stack=self.stack,
            sleeve=self.sleeve,
            set_up=self.set_up,
            contour=None if self.contour is None else self.contour.record(),
        )
