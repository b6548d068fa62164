"""Axes of many bent tubes at once, from straights and bends, for propagation and for search; angles in radians.

Each axis starts at the origin along +x, its first bend towards +y before its first rotation.
"""

import numpy as np

from bendgen.geometry.fillets import tangent_lengths
from bendgen.geometry.vectors import Array, cross


def bent_axes(straights: Array, rotations: Array, angles: Array, clr: Array) -> tuple[Array, Array]:
    """Points and directions of m tubes of n bends, front first.

    Parameters
    ----------
    straights : (m, n + 1) array [mm]
    rotations, angles : (m, n) arrays [rad]; a rotation turns the plane of the bend right-handed about the straight
    clr : (m, n) array [mm]

    Returns
    -------
    (m, 2 n + 2, 3) array, (m, n + 1, 3) array
        Ends and tangent points; unit vectors along the straights.
    """
    tubes, bends = angles.shape
    points, directions = np.zeros((tubes, 2 * bends + 2, 3)), np.zeros((tubes, bends + 1, 3))
    along, inward = np.zeros((tubes, 3)), np.zeros((tubes, 3))
    along[:, 0] = inward[:, 1] = 1.0
    directions[:, 0] = along
    points[:, 1] = straights[:, :1] * along
    sine, cosine = np.sin(angles)[:, :, None], np.cos(angles)[:, :, None]
    turn_sine, turn_cosine = np.sin(rotations)[:, :, None], np.cos(rotations)[:, :, None]
    for i in range(bends):
        inward = turn_cosine[:, i] * inward + turn_sine[:, i] * cross(along, inward)
        arc = clr[:, i, None] * (sine[:, i] * along + (1.0 - cosine[:, i]) * inward)
        along, inward = (
            cosine[:, i] * along + sine[:, i] * inward,
            cosine[:, i] * inward - sine[:, i] * along,
        )
        directions[:, i + 1] = along
        points[:, 2 * i + 2] = points[:, 2 * i + 1] + arc
        points[:, 2 * i + 3] = points[:, 2 * i + 2] + straights[:, i + 1, None] * along
    return points, directions


def vertices_of_axes(points: Array, directions: Array, angles: Array, clr: Array) -> Array:
    """Ends and vertices of axes as from `bent_axes`, angles below π; an (m, n + 2, 3) array."""
    ahead = tangent_lengths(angles, clr)[:, :, None] * directions[:, :-1]
    return np.concatenate((points[:, :1], points[:, 1:-1:2] + ahead, points[:, -1:]), axis=1)


def apart(points: Array, directions: Array) -> Array:
    """Distance of the last point from the line of the first straight, an (m,) array.

    Parameters
    ----------
    points, directions : (m, ..., 3) arrays as from `bent_axes`
    """
    across = cross(points[:, -1] - points[:, 0], directions[:, 0])
    squares: Array = np.einsum("ij,ij->i", across, across)
    return np.sqrt(squares)
