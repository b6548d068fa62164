"""Distances between straight pieces of tube."""

import numpy as np

from bendgen.geometry.vectors import Array

BLOCK_ROWS = 512  # a long thin tube has thousands of points: their distances are taken in blocks that fit a cache


def segment_distances(starts: Array, ends: Array, other_starts: Array, other_ends: Array) -> Array:
    """Smallest distance between two segments, pair by pair.

    Parameters
    ----------
    starts, ends, other_starts, other_ends : (n, 3) arrays; a segment may have no length

    Returns
    -------
    (n,) array

    References
    ----------
    [Ericson2005] section 5.1.9
    """
    along, other, between = ends - starts, other_ends - other_starts, starts - other_starts
    a, e = _dot(along, along), _dot(other, other)
    b, c, f = _dot(along, other), _dot(along, between), _dot(other, between)
    across = a * e - b * b
    s = np.clip(_quotient(b * f - c * e, across), 0.0, 1.0)
    t = np.clip(_quotient(b * s + f, e), 0.0, 1.0)
    s = np.clip(_quotient(t * b - c, a), 0.0, 1.0)  # nearest to the clamped t, or to a segment that is a point
    gap = between + s[:, None] * along - t[:, None] * other
    distances: Array = np.sqrt(_dot(gap, gap))
    return distances


def _dot(a: Array, b: Array) -> Array:
    product: Array = np.einsum("ij,ij->i", a, b)
    return product


def _quotient(numerator: Array, denominator: Array) -> Array:
    """Quotient where the denominator is not 0, else 0: parallel segments, or one without length."""
    return np.divide(numerator, denominator, out=np.zeros_like(numerator), where=denominator > 0.0)


def closest_approach(points: Array, along: Array, apart: float) -> tuple[float, int, int]:
    """Closest two points of a path that are at least `apart` from each other along it.

    Parameters
    ----------
    points : (n, 3) array
    along : (n,) array, distance of each point along the path, rising
    apart : separation along the path from which two points count

    Returns
    -------
    float, int, int
        Distance and both indices; infinity where the path is too short.
    """
    best, pair = np.inf, (0, 0)
    sizes = _dot(points, points)
    for start in range(0, len(points), BLOCK_ROWS):
        rows = slice(start, start + BLOCK_ROWS)
        first_far = int(np.searchsorted(along, along[start] + apart))  # nothing nearer counts for any row here
        squares = sizes[rows, None] + sizes[None, first_far:] - 2.0 * points[rows] @ points[first_far:].T
        squares[along[None, first_far:] - along[rows, None] < apart] = np.inf
        if squares.size and squares.min() < best:
            row, column = np.unravel_index(np.argmin(squares), squares.shape)
            best, pair = float(squares[row, column]), (start + int(row), first_far + int(column))
    distance = float(np.linalg.norm(points[pair[0]] - points[pair[1]])) if np.isfinite(best) else np.inf
    return distance, *pair
