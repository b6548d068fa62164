"""Axes of many bent tubes at once, from straights and bends, for propagation and for search; angles in radians.

Each axis starts at the origin along +x, its first bend towards +y before its first rotation.
"""

from itertools import accumulate

import numpy as np

from bendgen.geometry.fillets import tangent_lengths
from bendgen.geometry.rotations import rotation_about_x, rotation_about_z
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


def frames_of_tube(straights: Array, rotations: Array, angles: Array, clr: Array) -> tuple[Array, Array]:
    """Where the pieces of one tube of n bends begin and how they lie: straights and arcs by turns, then its end.

    Parameters
    ----------
    straights : (n + 1,) array [mm]
    rotations, angles, clr : (n,) arrays as of `bent_axes`

    Returns
    -------
    (2 n + 2, 3) array, (2 n + 2, 3, 3) array
        Points as of `bent_axes`; frames, whose columns are the direction, the way to the inside of the next arc or of
        the arc itself, and the normal of both.
    """
    turns = np.array([rotation_about_x(rotation) for rotation in rotations.tolist()]).reshape(-1, 3, 3)
    bends = np.array([rotation_about_z(angle) for angle in angles.tolist()]).reshape(-1, 3, 3)
    of_straights = np.array([*accumulate(turns @ bends, np.matmul, initial=np.eye(3))])
    frames = np.empty((2 * len(angles) + 2, 3, 3))
    frames[::2], frames[1:-1:2], frames[-1] = of_straights, of_straights[:-1] @ turns, of_straights[-1]
    steps = np.zeros((2 * len(angles) + 2, 3))  # each in the frame of the piece it goes along
    steps[1::2, 0] = straights
    steps[2::2, 0], steps[2::2, 1] = clr * np.sin(angles), clr * (1.0 - np.cos(angles))
    steps[1:] = np.einsum("pij,pj->pi", frames[:-1], steps[1:])
    return np.cumsum(steps, axis=0), frames


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
