"""The finished part as numbers, for a view that can be turned on screen."""

from typing import TypedDict

from bendgen.records.bend_program import BendProgram
from bendgen.reports.drawings.axes import finished_axis

DECIMALS = 2  # of a millimetre: finer than a screen shows


class Turnable(TypedDict):
    """A part to turn: lengths in mm, the middle of the part's box at the origin.

    od : outside diameter
    axis : points along the centreline, front end first, arcs as short chords
    bends : the middle of each bend, in order of their numbers
    """

    od: float
    axis: list[list[float]]
    bends: list[list[float]]


def turnable_points(program: BendProgram) -> Turnable:
    """What a script needs to draw the predicted part from any side."""
    axis = finished_axis(program)
    middle = 0.5 * (axis.points.min(axis=0) + axis.points.max(axis=0))
    return Turnable(
        od=program.part.tube.od,
        axis=(axis.points - middle).round(DECIMALS).tolist(),
        bends=(axis.bend_middles - middle).round(DECIMALS).tolist(),
    )
