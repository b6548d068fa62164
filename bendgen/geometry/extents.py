"""Overall size of bent tubes, and points along their arcs."""

import numpy as np

from bendgen.geometry.vectors import Array

ARC_SAMPLES = 65  # a 90° arc is missed by less than 0.01 % of its radius


def arc_points(starts: Array, ends: Array, directions: Array, angles: Array, clr: Array) -> Array:
    """Points along arcs.

    Parameters
    ----------
    starts, ends : (n, 3) arrays, tangent points of each arc
    directions : (n, 3) array, unit tangent at each start
    angles, clr : (n,) arrays, swept angle [rad], > 0, and radius [mm]

    Returns
    -------
    (n, ARC_SAMPLES, 3) array
    """
    inward = _towards_centres(starts, ends, directions, angles, clr)[:, None, :]
    swept = np.linspace(0.0, 1.0, ARC_SAMPLES)[None, :, None] * angles[:, None, None]
    along = directions[:, None, :]
    return starts[:, None, :] + clr[:, None, None] * (np.sin(swept) * along + (1.0 - np.cos(swept)) * inward)


def overall_box(points: Array, directions: Array, angles: Array, clr: Array, od: float) -> tuple[Array, Array]:
    """Corners of the boxes around round tubes of n bends: at each point of an axis stands a disc square to it.

    Parameters
    ----------
    points : (..., 2 n + 2, 3) array, ends and tangent points
    directions : (..., n + 1, 3) array, unit vectors along the straights
    angles, clr : (..., n) arrays, angle [rad] and radius of each bend [mm]
    od : outside diameter [mm], at most twice the radius

    Returns
    -------
    (..., 3) array, (..., 3) array
        Smallest and largest coordinates.
    """
    tangents = np.repeat(directions, 2, axis=-2)
    reach = 0.5 * od * np.sqrt(np.maximum(0.0, 1.0 - tangents * tangents))
    low, high = (points - reach).min(axis=-2), (points + reach).max(axis=-2)
    if angles.shape[-1] == 0:
        return low, high
    arcs_low, arcs_high = _crests(points, directions, angles, clr, od)
    return np.minimum(low, arcs_low.min(axis=-2)), np.maximum(high, arcs_high.max(axis=-2))


def _crests(points: Array, directions: Array, angles: Array, clr: Array, od: float) -> tuple[Array, Array]:
    """Lowest and highest coordinate within each arc, (..., n, 3) arrays; infinite where its ends lie further out.

    Between its ends an arc turns back along an axis only where its tangent is square to that axis.
    """
    starts, along = points[..., 1:-1:2, :], directions[..., :-1, :]
    inward = _towards_centres(starts, points[..., 2:-1:2, :], along, angles, clr)
    radius, swept = clr[..., None], angles[..., None]
    centre = starts + radius * inward
    crest = radius * np.sqrt(along * along + inward * inward) + 0.5 * od
    highest = np.arctan2(along, -inward) % (2.0 * np.pi)
    lowest = (highest + np.pi) % (2.0 * np.pi)
    low = np.where((lowest > 0.0) & (lowest < swept), centre - crest, np.inf)
    high = np.where((highest > 0.0) & (highest < swept), centre + crest, -np.inf)
    return low, high


def _towards_centres(starts: Array, ends: Array, directions: Array, angles: Array, clr: Array) -> Array:
    """Unit vectors from the start of each arc towards its centre; the shape of `starts`."""
    chord = (ends - starts) / clr[..., None]
    versine = np.maximum(1.0 - np.cos(angles), np.finfo(float).tiny)  # an arc of no angle has no side
    inward: Array = (chord - np.sin(angles)[..., None] * directions) / versine[..., None]
    return inward
