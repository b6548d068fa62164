"""The predicted axis of a program as a CSV that `bendgen read` and others take."""

import numpy as np

from bendgen.files.drawings.tube_pieces import pieces_of_program
from bendgen.files.steps_csv import plain_number
from bendgen.records.bend_program import BendProgram


def format_axis_csv(program: BendProgram) -> str:
    """Vertices with the formed CLR; points along the axis where a bend reaches half a turn and has no vertex."""
    vertices = program.predicted.vertices
    if vertices is None:
        pieces = pieces_of_program(program)
        points = np.vstack([pieces[0].points[:1], *(piece.points[1:] for piece in pieces)]).tolist()
        return _text(["x_mm,y_mm,z_mm", *(",".join(map(plain_number, point)) for point in points)])
    clr = ["", *(plain_number(bend.clr) for bend in program.finished.bends), ""]
    lines = (f"{','.join(map(plain_number, vertex))},{radius}" for vertex, radius in zip(vertices, clr, strict=True))
    return _text(["x_mm,y_mm,z_mm,clr_mm", *lines])


def _text(lines: list[str]) -> str:
    return "\n".join(lines) + "\n"
