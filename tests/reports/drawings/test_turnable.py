"""Numbers for the view that can be turned."""

import json

import numpy as np

from bendgen.records.bend_program import BendProgram
from bendgen.reports.drawings.turnable import turnable_points


def test_the_ends_are_as_far_apart_as_predicted(example_program: BendProgram) -> None:
    turnable = json.loads(json.dumps(turnable_points(example_program)))
    axis, points = np.array(turnable["axis"]), np.array(example_program.predicted.points)
    np.testing.assert_allclose(axis[-1] - axis[0], points[-1] - points[0], atol=0.02)
    assert turnable["od"] == 50.0


def test_every_tangent_point_lies_on_the_axis_and_the_box_around_the_origin(example_program: BendProgram) -> None:
    turnable = turnable_points(example_program)
    axis = np.array(turnable["axis"])
    moved = np.array(example_program.predicted.points) - np.array((150.0, 180.0, 130.0))  # the box's middle, by hand
    assert np.linalg.norm(axis[:, None] - moved[None], axis=2).min(axis=0).max() < 0.02
    np.testing.assert_allclose(axis.min(axis=0), -axis.max(axis=0), atol=0.02)


def test_a_blank_has_two_ends_and_no_bends(blank_program: BendProgram) -> None:
    assert turnable_points(blank_program) == {"od": 50.0, "axis": [[-225.0, 0.0, 0.0], [225.0, 0.0, 0.0]], "bends": []}
