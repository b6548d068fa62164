"""Least-squares rotation and translation of one set of points onto another; never a reflection."""

import numpy as np

from bendgen.geometry.vectors import Array, lengths


def rigid_fit(points: Array, onto: Array) -> tuple[Array, Array]:
    """Rotation and translation that lay `points` best on `onto`.

    The determinant is kept at +1: a fit without that guard mirrors the part and calls it a perfect match.

    Parameters
    ----------
    points : (..., n, 3) array, one set or many, n >= 1
    onto : (n, 3) array, row for row the same points

    Returns
    -------
    (..., 3, 3) array, (..., 1, 3) array
        `points @ rotation + translation` is the fitted set.

    References
    ----------
    [Umeyama1991]
    """
    centre, onto_centre = points.mean(axis=-2, keepdims=True), onto.mean(axis=0)
    u, _, vt = np.linalg.svd((points - centre).swapaxes(-1, -2) @ (onto - onto_centre))
    u[..., -1] *= np.sign(np.linalg.det(u) * np.linalg.det(vt))[..., None]
    rotation = u @ vt
    return rotation, onto_centre - centre @ rotation


def distances_after_fit(points: Array, onto: Array) -> Array:
    """How far each of n points lies from its counterpart after the best fit, (n, 3) arrays to an (n,) array."""
    rotation, translation = rigid_fit(points, onto)
    return lengths(points @ rotation + translation - onto)
