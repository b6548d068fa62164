"""The predicted axis as lines and arcs that follow one another."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from bendgen.files.drawings.tube_pieces import pieces_of_program
from bendgen.records.bend_program import BendProgram
from bendgen.records.bent_tube import Bend, BentTube, Shape


def test_bends_without_a_straight_between_them_follow_one_another(example_program: BendProgram) -> None:
    """Two quarter turns of one hand: 100 along x, round by half a turn on CLR 50, and 80 back."""
    quarter = Bend(angle_deg=90.0, rotation_deg=0.0, clr=50.0)
    tube = BentTube(straights=(100.0, 0.0, 80.0), bends=(quarter, quarter))
    points = ((0, 0, 0), (100, 0, 0), (150, 50, 0), (150, 50, 0), (100, 100, 0), (20, 100, 0))
    program = replace(example_program, finished=tube, predicted=Shape(points=points, vertices=None))
    pieces = pieces_of_program(program)
    assert [piece.is_line for piece in pieces] == [True, False, False, True]
    assert [piece.arc.radius for piece in pieces if piece.arc] == pytest.approx([50.0, 50.0])
    for piece, following in pairwise(pieces):
        assert piece.points[-1] == pytest.approx(following.points[0])
        assert piece.out_of == pytest.approx(following.into)
    assert np.vstack([piece.points[-1] for piece in pieces]) == pytest.approx(
        np.array(points, dtype=float)[[1, 2, 4, 5]]
    )
