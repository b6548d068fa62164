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


def rotation_about(vector: Array) -> Array:
    """Matrix that turns column vectors right-handed about a (3,) vector by its length [rad]; 0 turns nothing."""
    angle = float(np.linalg.norm(vector))
    if angle == 0.0:
        return np.eye(3)
    x, y, z = vector / angle
    across = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    matrix: Array = np.eye(3) + np.sin(angle) * across + (1.0 - np.cos(angle)) * (across @ across)
    return matrix
