"""Segments, turns and rotations of a path of vertices."""

import math

import numpy as np

from bendgen.geometry.polylines import plane_rotations, segments, turning_angles

STAIRS = np.array([(0.0, 0, 0), (3, 0, 0), (3, 4, 0), (3, 4, 5)])


def test_segments() -> None:
    length, direction = segments(STAIRS)
    assert length.tolist() == [3.0, 4.0, 5.0]
    np.testing.assert_array_equal(direction, np.eye(3))


def test_turns_and_rotation_by_hand() -> None:
    # Looking along +y with z up, x is on the right: the near leg at 9 o'clock, the far one at 12, clockwise.
    direction = segments(STAIRS)[1]
    np.testing.assert_allclose(turning_angles(direction), [math.pi / 2] * 2)
    np.testing.assert_allclose(plane_rotations(direction), [math.pi / 2])
    np.testing.assert_allclose(plane_rotations(segments(STAIRS * (1, 1, -1))[1]), [-math.pi / 2])


def test_flat_shapes() -> None:
    u = np.array([(0.0, 0, 0), (9, 0, 0), (9, 9, 0), (0, 9, 0)])
    s = np.array([(0.0, 0, 0), (9, 0, 0), (9, 9, 0), (18, 9, 0)])
    assert plane_rotations(segments(u)[1]).tolist() == [0.0]
    assert plane_rotations(segments(s)[1]).tolist() == [math.pi]


def test_straight_on_and_no_bend() -> None:
    line = np.array([(0.0, 0, 0), (1, 1, 1), (2, 2, 2)])
    assert turning_angles(segments(line)[1]).tolist() == [0.0]
    assert turning_angles(segments(line[:2])[1]).shape == (0,)
    assert plane_rotations(segments(line)[1]).shape == (0,)


def test_reversed_path_has_the_same_rotations() -> None:
    path = np.array([(0.0, 0, 0), (3, 0, 0), (3, 4, 1), (3, 9, 5), (-2, 8, 7)])
    there, back = (plane_rotations(segments(p)[1]) for p in (path, path[::-1]))
    np.testing.assert_allclose(there, back[::-1], atol=1e-15)
