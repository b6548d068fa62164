"""Rotation matrices."""

import math

import numpy as np

from bendgen.geometry.rotations import rotation_about_x, rotation_about_z


def test_quarter_turns_are_right_handed() -> None:
    x, y, z = np.eye(3)
    np.testing.assert_allclose(rotation_about_x(math.pi / 2) @ y, z, atol=1e-15)
    np.testing.assert_allclose(rotation_about_z(math.pi / 2) @ x, y, atol=1e-15)
    np.testing.assert_allclose(rotation_about_x(0.7) @ x, x)
    np.testing.assert_allclose(rotation_about_z(0.7) @ z, z)
