"""How a tube lies in the machine."""

from dataclasses import dataclass

from bendgen.records.bent_tube import Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Lying:
    """The uncut tube just before a bend, fed and rotated, in the machine's frame [mm].

    number : of the bend about to be made
    axis : the tube's axis from its front end to the tangent line, arcs as short chords
    bent_at : the middle of each bend made before, front first
    """

    number: int
    axis: tuple[Point, ...]
    bent_at: tuple[Point, ...]
