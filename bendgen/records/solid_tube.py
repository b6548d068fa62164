"""A tube found in a file of solids."""

from dataclasses import dataclass

from bendgen.records.bent_tube import Point
from bendgen.records.part import Vertex, WantedSteps
from bendgen.units import Units


@dataclass(frozen=True, slots=True, kw_only=True)
class SolidTube:
    """One tube.

    number, name : of its solid in the file, counted from 1
    instances : how often the file places it
    units : its file is written in these, or in multiples of them
    od : outside diameter [mm]; wall : None for a bar without a bore [mm]
    vertices : front end first; None where a bend turns half a turn or more. A CLR is None at a mitre
    steps : straights and bends; None where a CLR is
    ends : both ends of the axis, front first [mm]
    understood : subject and sentence of what is a matter of definition; ignored: what was left out
    """

    number: int
    name: str
    instances: int
    units: Units
    od: float
    wall: float | None
    vertices: tuple[Vertex, ...] | None
    steps: WantedSteps | None
    ends: tuple[Point, Point]
    understood: tuple[tuple[str, str], ...]
    ignored: tuple[str, ...]

    @property
    def bends(self) -> int:
        """Number of bends, mitres included."""
        if self.steps is not None:
            return len(self.steps.bends)
        return 0 if self.vertices is None else len(self.vertices) - 2


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherSolid:
    """A solid that is no tube which can be bent, and why not."""

    number: int
    name: str
    reason: str
