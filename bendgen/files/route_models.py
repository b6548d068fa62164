"""`[route]` of a part's file, key by key."""

from typing import Annotated

from pydantic import AfterValidator, Field, ValidationInfo, field_validator

from bendgen.files.field_types import Length, LengthFromZero, Number, sized
from bendgen.files.validation import Table, unfit
from bendgen.records.bent_tube import Point
from bendgen.records.route import Box, Port, RouteWish

MOST_BENDS = 3
MOST_BOXES = 100


def _some_direction(direction: list[float]) -> list[float]:
    if not any(direction):
        raise unfit("a direction, not all of it 0")
    return direction


Place = Annotated[list[Length], sized("[x, y, z]", 3)]
Direction = Annotated[list[Number], sized("[x, y, z]", 3), AfterValidator(_some_direction)]
Corners = Annotated[list[Length], sized("[x, y, z, x, y, z], two opposite corners", 6)]


class PortTable(Table):
    """`front` or `rear`: where an end is, and which way the tube leaves it."""

    at: Place
    towards: Direction

    def record(self) -> Port:
        """Port, in mm."""
        return Port(at=_point(self.at), towards=_point(self.towards))


class RouteTable(Table):
    """`[route]`."""

    front: PortTable
    rear: PortTable
    shortest_front: LengthFromZero
    shortest_rear: LengthFromZero
    bends: int | None = None
    keep_out: Annotated[list[Corners], Field(max_length=MOST_BOXES)] | None = None
    clearance: LengthFromZero = 0.0

    @field_validator("rear")
    @classmethod
    def check_rear(cls, rear: PortTable, info: ValidationInfo) -> PortTable:
        """Two ends are at two places."""
        if "front" in info.data and info.data["front"].at == rear.at:
            raise unfit("a place other than that of 'front'", "the same")
        return rear

    @field_validator("bends")
    @classmethod
    def check_bends(cls, bends: int | None) -> int | None:
        """As many bends as routes are looked for with."""
        if bends is not None and not 1 <= bends <= MOST_BENDS:
            raise unfit(f"1, 2 or {MOST_BENDS}")
        return bends

    def record(self) -> RouteWish:
        """Wish, in mm."""
        return RouteWish(
            front=self.front.record(),
            rear=self.rear.record(),
            shortest_front=self.shortest_front,
            shortest_rear=self.shortest_rear,
            bends=self.bends,
            keep_out=tuple(Box(corner=_point(box[:3]), opposite=_point(box[3:])) for box in self.keep_out or ()),
            clearance=self.clearance,
        )


def _point(numbers: list[float]) -> Point:
    x, y, z = numbers
    return x, y, z
