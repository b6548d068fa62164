"""How far rounded coordinates can turn the angles of a path: first-order bounds."""

import numpy as np

from bendgen.geometry.polylines import segments
from bendgen.geometry.vectors import Array, cross, lengths


def turn_reach(vertices: Array) -> Array:
    """Largest change of the turning angle at each inner vertex for coordinates off by at most 1 each.

    Parameters
    ----------
    vertices : (n, 3) array, no turn of 0 or π

    Returns
    -------
    (n - 2,) array
        [rad] for each unit of length that a coordinate may be off; the sum of the sizes of all derivatives.
    """
    length, direction = segments(vertices)
    before, after = direction[:-1], direction[1:]
    cosine = np.einsum("ij,ij->i", before, after)[:, None]
    sine = lengths(cross(before, after))[:, None]
    first = (after - cosine * before) / sine / length[:-1, None]
    last = (cosine * after - before) / sine / length[1:, None]
    return _sizes(first, -first - last, last)


def rotation_reach(vertices: Array) -> Array:
    """Largest change of the rotation from each inner vertex to the next, as `turn_reach`.

    Returns
    -------
    (n - 3,) array
        [rad] for each unit of length; without bound as a turn nears 0.
    """
    before, middle, after = (
        vertices[:-3] - vertices[1:-2],
        vertices[1:-2] - vertices[2:-1],
        vertices[3:] - vertices[2:-1],
    )
    near, far = cross(before, middle), cross(after, middle)
    length = lengths(middle)[:, None]
    near_share = near / np.einsum("ij,ij->i", near, near)[:, None]
    far_share = far / np.einsum("ij,ij->i", far, far)[:, None]
    lean = np.einsum("ij,ij->i", before, middle)[:, None] / length * near_share
    far_lean = np.einsum("ij,ij->i", after, middle)[:, None] / length * far_share
    tilt = lean - far_lean
    return _sizes(-length * near_share, length * near_share + tilt, -tilt - length * far_share, length * far_share)


def _sizes(*derivatives: Array) -> Array:
    """Sum of the sizes of derivatives, each an (n, 3) array, as an (n,) array."""
    total: Array = np.abs(np.stack(derivatives)).sum(axis=(0, 2))
    return total
