"""Lengths and angles of vectors, one a row."""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def lengths(vectors: Array) -> Array:
    """Euclidean length of each row of an (n, 3) array, shape (n,)."""
    squares: Array = np.einsum("ij,ij->i", vectors, vectors)
    return np.sqrt(squares)


def unit(vector: Array) -> Array:
    """Vector (3,) of the same direction and length 1."""
    size = float(np.sqrt(vector @ vector))
    return vector / size


def cross(a: Array, b: Array) -> Array:
    """Cross products of two vectors (3,), or of the rows of two (n, 3) arrays; far quicker than numpy's own."""
    product = np.empty_like(a)
    product[..., 0] = a[..., 1] * b[..., 2] - a[..., 2] * b[..., 1]
    product[..., 1] = a[..., 2] * b[..., 0] - a[..., 0] * b[..., 2]
    product[..., 2] = a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]
    return product


def angles_between(a: Array, b: Array) -> Array:
    """Angle between the rows of two (n, 3) arrays of unit vectors.

    The arctangent form keeps its accuracy at 0 and at π, where arccos of a dot product loses half the digits.

    Returns
    -------
    (n,) array
        [rad], 0 to π; exactly 0 for equal rows and π for opposite ones.

    References
    ----------
    [Kahan2006] section 13
    """
    return 2.0 * np.arctan2(lengths(a - b), lengths(a + b))


def signed_angles_about(axes: Array, a: Array, b: Array) -> Array:
    """Angle that turns a onto b about the axes, right-handed, as seen along each axis.

    Parameters
    ----------
    axes : (n, 3) array of unit vectors
    a, b : (n, 3) arrays; their components along the axes do not matter

    Returns
    -------
    (n,) array
        [rad], (-π, π]; within 1e-11 of half a turn counts as +π, so that rounding cannot flip the sign of an S.
    """
    a_normal, b_normal = cross(axes, a), cross(axes, b)
    sine = np.einsum("ij,ij->i", axes, cross(a_normal, b_normal))
    cosine = np.einsum("ij,ij->i", a_normal, b_normal)
    angle = np.arctan2(sine, cosine)
    return np.where(angle < -np.pi + 1e-11, np.pi, angle)
