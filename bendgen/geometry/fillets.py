"""A bend as an arc between two straights."""

import numpy as np

from bendgen.geometry.vectors import Array


def tangent_lengths(angles: Array, clr: Array) -> Array:
    """Distance from each vertex to the tangent points of its bend.

    Parameters
    ----------
    angles : (n,) array, angle between incoming and outgoing direction [rad], 0 <= angle < π
    clr : (n,) array, centreline radius [mm]

    Returns
    -------
    (n,) array
        [mm]; grows without bound as the angle nears π.
    """
    return clr * np.tan(0.5 * angles)


def straights_between(segment_lengths: Array, tangents: Array) -> Array:
    """Straights: what the bends leave of the segments between vertices.

    Parameters
    ----------
    segment_lengths : (n + 1,) array [mm]
    tangents : (n,) array, tangent length of each inner vertex [mm]

    Returns
    -------
    (n + 1,) array
        [mm]; negative where the bends overlap.
    """
    straights = segment_lengths.copy()
    straights[:-1] -= tangents
    straights[1:] -= tangents
    return straights
