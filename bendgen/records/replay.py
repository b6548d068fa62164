"""What a step list would make."""

from dataclasses import dataclass

from bendgen.records.bent_tube import BentTube, Point, Shape


@dataclass(frozen=True, slots=True, kw_only=True)
class Replayed:
    """The tube that comes off the machine, cut where the list says so; lengths in mm.

    shape : front end at the origin, first straight along +x, first bend towards +y
    box : overall size over the OD along x, y and z
    blank : length the steps need, trims included
    """

    tube: BentTube
    shape: Shape
    box: Point
    blank: float
