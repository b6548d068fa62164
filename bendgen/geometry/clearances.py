"""Distances between straight pieces of tube."""

import numpy as np

from bendgen.geometry.vectors import Array


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
    t = _quotient(b * s + f, e)
    clamped = np.clip(t, 0.0, 1.0)
    s = np.where(t == clamped, s, np.clip(_quotient(clamped * b - c, a), 0.0, 1.0))
    gap = between + s[:, None] * along - clamped[:, None] * other
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
    squares = ((points[:, None, :] - points[None, :, :]) ** 2).sum(axis=2)
    squares[along[None, :] - along[:, None] < apart] = np.inf
    first, second = np.unravel_index(np.argmin(squares), squares.shape)
    return float(np.sqrt(squares[first, second])), int(first), int(second)
