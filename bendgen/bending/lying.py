"""How the tube lies in the machine before each bend, by playing the program forward."""

import numpy as np

from bendgen.bending.modelled_machine import BEND_ROWS, Moves, play
from bendgen.geometry.vectors import Array
from bendgen.records.bend_program import BendProgram
from bendgen.records.bent_tube import Point
from bendgen.records.lying import Lying

ROWS_KEPT = BEND_ROWS - 1  # of a bend as it lies before another: its vertex is left out
FIRST_BEND = 2  # rows before the first bend: front end, front cut


def lying_before_bends(program: BendProgram) -> tuple[Lying, ...]:
    """The tube before each step of a program, fed and rotated; () where nothing is bent."""
    if not program.steps:
        return ()
    before_bend = play(_moves(program)).before_bend
    return tuple(_lying(i + 1, rows) for i, rows in enumerate(before_bend))


def _moves(program: BendProgram) -> Moves:
    steps = program.steps
    return Moves(
        feeds=np.array([step.feed for step in steps]),
        rotations_deg=np.array([step.rotation_deg for step in steps]),
        angles_deg=np.array([step.finished_angle_deg for step in steps]),
        clr=np.array([step.formed_clr for step in steps]),
        front_trim=program.blank.front_trim,
        rear=program.finished.straights[-1],
        side=program.profile.bend.side,
    )


def _lying(number: int, rows: Array) -> Lying:
    """Lying of the tube before bend `number`, from the modelled machine's rows of all bends."""
    made = rows[FIRST_BEND : FIRST_BEND + (number - 1) * ROWS_KEPT].reshape(number - 1, ROWS_KEPT, 3)
    fronts, rears, around = made[:, :1], made[:, 1:2], made[:, :1:-1]  # the polygon is told from the rear on
    in_order = np.concatenate((fronts, around, rears), axis=1).reshape(-1, 3)
    middle = around.shape[1] // 2
    tangent_line = np.zeros((1, 3))
    return Lying(
        number=number,
        axis=_points(np.concatenate((rows[:1], in_order, tangent_line))),
        bent_at=_points(around[:, middle - 1 : middle + 1].mean(axis=1)),
    )


def _points(rows: Array) -> tuple[Point, ...]:
    return tuple((x, y, z) for x, y, z in rows.tolist())
