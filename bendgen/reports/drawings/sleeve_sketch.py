"""Where the tape goes: a die hides its tangent line, and the edge that can be seen lies off it by the die's sleeve."""

from collections.abc import Iterator

from bendgen.records.bend_program import BendProgram
from bendgen.reports.drawings.dimensions import level_dimension
from bendgen.reports.drawings.lengths import length_words
from bendgen.reports.drawings.paper import MACHINE, Ink, polyline, rectangle, shortened, words
from bendgen.reports.sheet.numbers import SheetNumbers

HEIGHT = 27.0  # of one sketch [paper mm], as all here
STEP = 93.0  # from a sketch to the next beside it
EDGE, TANGENT_LINE, DIE_END, TUBE_END = 8.0, 68.0, 82.0, 88.0  # from the left; not to scale
NAME_WIDTH = 80.0
NAME, DIE_TOP, TUBE_TOP, TUBE_BOTTOM, DIMENSION = 3.5, 9.0, 13.0, 18.0, 24.0  # from the top


def sleeve_sketches(program: BendProgram, numbers: SheetNumbers, top: float) -> tuple[list[Ink], float]:
    """A sketch for every die set whose sleeve is known, two in a row, and where the last row ends."""
    dies = [(die.id, die.sleeve) for die in program.dies if die.sleeve is not None]
    elements: list[Ink] = []
    for i, (name, sleeve) in enumerate(dies):
        elements += _sketch(name, length_words(sleeve, numbers), 1.0 + STEP * (i % 2), top + HEIGHT * (i // 2))
    return elements, top + HEIGHT * ((len(dies) + 1) // 2)


def _sketch(name: str, sleeve: str, x: float, y: float) -> Iterator[Ink]:
    yield words(shortened(f"die set {name}", NAME_WIDTH), (x + EDGE, y + NAME), anchor="start")
    yield rectangle("adjacent", (x + EDGE, y + DIE_TOP - 3.5), (x + DIE_END, y + TUBE_TOP), MACHINE)
    yield rectangle("outline", (x, y + TUBE_TOP), (x + TUBE_END, y + TUBE_BOTTOM), "white")
    yield polyline("hidden", ((x + TANGENT_LINE, y + DIE_TOP), (x + TANGENT_LINE, y + TUBE_BOTTOM)))
    yield words("edge you can see", (x + EDGE + 1.0, y + DIE_TOP + 2.0), anchor="start")
    yield words("tangent line", (x + TANGENT_LINE - 1.0, y + DIE_TOP + 2.0), anchor="end")
    bottom = y + TUBE_BOTTOM
    yield from level_dimension(sleeve, (x + EDGE, bottom), (x + TANGENT_LINE, bottom), y + DIMENSION)
