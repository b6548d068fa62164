"""Least-squares rotation and translation of one set of points onto another; never a reflection."""

import numpy as np

from bendgen.geometry.vectors import Array


def rigid_fit(points: Array, onto: Array) -> tuple[Array, Array]:
    """Rotation and translation that lay `points` best on `onto`.

    The determinant is kept at +1: a fit without that guard mirrors the part and calls it a perfect match.

    Parameters
    ----------
    points, onto : (n, 3) arrays, n >= 1, row for row the same points

    Returns
    -------
    (3, 3) array, (3,) array
        `points @ rotation + translation` is the fitted set.

    References
    ----------
    [Umeyama1991]
    """
    centre, onto_centre = points.mean(axis=0), onto.mean(axis=0)
    u, _, vt = np.linalg.svd((points - centre).T @ (onto - onto_centre))
    if np.linalg.det(u) * np.linalg.det(vt) < 0.0:
        u[:, -1] = -u[:, -1]
    rotation = u @ vt
    return rotation, onto_centre - centre @ rotation
