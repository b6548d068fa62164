"""Where the tape goes: a die hides its tangent line, and the edge that can be seen lies off it by the die's sleeve.

The front end is at the left, as on the blank above, so the carriage is at the right and the tube is fed to the left.
"""

from collections.abc import Iterator

from bendgen.records.bend_program import BendProgram
from bendgen.reports.drawings.dimensions import level_dimension
from bendgen.reports.drawings.lengths import length_words
from bendgen.reports.drawings.paper import MACHINE, Ink, arrow, group, polyline, rectangle, shortened, words
from bendgen.reports.sheet.numbers import SheetNumbers

HEIGHT = 34.0  # of one sketch [paper mm], as all here
STEP = 93.0  # from a sketch to the next beside it
DIE_END, TANGENT_LINE, EDGE, TUBE_END = 6.0, 20.0, 66.0, 88.0  # from the left; not to scale
NAME_WIDTH = 86.0
NAME, DIE_TOP, TUBE_TOP, TUBE_BOTTOM, DIMENSION, NOTES = 3.5, 6.0, 15.0, 20.0, 25.0, 31.0  # from the top


def sleeve_sketches(program: BendProgram, numbers: SheetNumbers, top: float) -> tuple[list[Ink], float]:
    """A sketch for every die set whose sleeve is known, two in a row, and where the last row ends."""
    dies = [(die.id, die.sleeve) for die in program.dies if die.sleeve is not None]
    elements: list[Ink] = []
    for i, (name, sleeve) in enumerate(dies):
        x, y = 1.0 + STEP * (i % 2), top + HEIGHT * (i // 2)
        elements.append(group(_sketch(name, length_words(sleeve, numbers), x, y), class_="sleeve"))
    return elements, top + HEIGHT * ((len(dies) + 1) // 2)


def _sketch(name: str, sleeve: str, x: float, y: float) -> Iterator[Ink]:
    """Die over the tube at the start of a bend: the tangent line with the mark on it, and the edge that is seen."""
    tangent_line, edge, top, bottom = x + TANGENT_LINE, x + EDGE, y + TUBE_TOP, y + TUBE_BOTTOM
    yield words(shortened(f"die set {name}, when a bend starts", NAME_WIDTH), (x, y + NAME), anchor="start")
    yield rectangle("outline", (x, top), (x + TUBE_END, bottom), "white")
    yield rectangle("adjacent", (x + DIE_END, y + DIE_TOP), (edge, bottom - 1.0), MACHINE)
    yield polyline("outline", ((edge, y + DIE_TOP), (edge, bottom)), data_place="edge")
    yield polyline("hidden", ((tangent_line, y + DIE_TOP), (tangent_line, bottom)), data_place="tangent-line")
    yield words("tangent line, mark", (tangent_line + 1.0, y + DIE_TOP + 4.0), anchor="start")
    yield words("edge you see", (edge + 1.0, y + DIE_TOP + 4.0), anchor="start")
    yield from level_dimension(sleeve, (tangent_line, bottom), (edge, bottom), y + DIMENSION)
    yield words("to the front end", (x, y + NOTES), anchor="start")
    yield arrow("narrow", ((x + 54.0, y + NOTES - 1.2), (x + 38.0, y + NOTES - 1.2)))
    yield words("to the carriage", (x + TUBE_END, y + NOTES), anchor="end")
