"""Rotation matrices and rigid paths."""

import math

import numpy as np

from bendgen.geometry.vectors import Array


def rotation_about_x(angle: float) -> Array:
    """(3, 3) matrix that turns a column vector right-handed about +X by `angle` [rad]."""
    c, s = math.cos(angle), math.sin(angle)
    return np.array([[1.0, 0.0, 0.0], [0.0, c, -s], [0.0, s, c]])


def rotation_about_z(angle: float) -> Array:
    """(3, 3) matrix that turns a column vector right-handed about +Z by `angle` [rad]."""
    c, s = math.cos(angle), math.sin(angle)
    return np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])
