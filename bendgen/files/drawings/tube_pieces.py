"""The predicted axis of a program as lines and arcs, where it lies on the wanted one."""

import numpy as np

from bendgen.files.drawings.pieces import Piece, arc, line
from bendgen.geometry.bent_axes import bent_axes
from bendgen.geometry.rigid_fit import rigid_fit
from bendgen.geometry.vectors import cross
from bendgen.records.bend_program import BendProgram
from bendgen.units import RADIANS_PER_DEGREE

NO_LENGTH = 1e-9  # mm; a straight between two bends that has none is no piece


def pieces_of_program(program: BendProgram) -> list[Piece]:
    """Straights and arcs of the predicted tube, front first."""
    tube = program.finished
    angles = np.array([bend.angle_deg for bend in tube.bends], dtype=float) * RADIANS_PER_DEGREE
    rotations = np.array([bend.rotation_deg for bend in tube.bends], dtype=float) * RADIANS_PER_DEGREE
    clr = np.array([bend.clr for bend in tube.bends], dtype=float)
    ends, ways = bent_axes(np.array(tube.straights)[None], rotations[None], angles[None], clr[None])
    rotation, shift = rigid_fit(ends[0], np.array(program.predicted.points))
    places, directions = ends[0] @ rotation + shift, ways[0] @ rotation
    pieces: list[Piece] = []
    for number in range(len(tube.straights)):
        start, end = places[2 * number : 2 * number + 2]
        if np.linalg.norm(end - start) > NO_LENGTH:
            pieces.append(line(start, end))
        if number < len(angles):
            along, angle = directions[number], float(angles[number])
            chord = places[2 * number + 2] - end
            inward = (chord / clr[number] - np.sin(angle) * along) / (2.0 * np.sin(0.5 * angle) ** 2)
            pieces.append(arc(end, end + clr[number] * inward, cross(along, inward), angle))
    return pieces
