"""Overall size of a bent tube."""

import numpy as np

from bendgen.geometry.vectors import Array

ARC_SAMPLES = 65  # a 90° arc is missed by less than 0.01 % of its radius


def arc_paths(starts: Array, ends: Array, directions: Array, angles: Array, clr: Array) -> tuple[Array, Array]:
    """Points and tangents along arcs.

    Parameters
    ----------
    starts, ends : (n, 3) arrays, tangent points of each arc
    directions : (n, 3) array, unit tangent at each start
    angles, clr : (n,) arrays, swept angle [rad], > 0, and radius [mm]

    Returns
    -------
    (n, ARC_SAMPLES, 3) array, (n, ARC_SAMPLES, 3) array
    """
    chord = (ends - starts) / clr[:, None]
    versine = np.maximum(1.0 - np.cos(angles), np.finfo(float).tiny)  # an arc of no angle has no side
    towards_centre = (chord - np.sin(angles)[:, None] * directions) / versine[:, None]
    swept = np.linspace(0.0, 1.0, ARC_SAMPLES)[None, :, None] * angles[:, None, None]
    sine, cosine = np.sin(swept), np.cos(swept)
    along, inward = directions[:, None, :], towards_centre[:, None, :]
    points = starts[:, None, :] + clr[:, None, None] * (sine * along + (1.0 - cosine) * inward)
    return points, cosine * along + sine * inward


def overall_box(points: Array, tangents: Array, od: float) -> tuple[Array, Array]:
    """Corners of the box around a round tube: at each point of its axis stands a disc square to the tangent.

    Parameters
    ----------
    points, tangents : (m, 3) arrays, tangents of unit length
    od : outside diameter [mm]

    Returns
    -------
    (3,) array, (3,) array
        Smallest and largest coordinates.
    """
    reach = 0.5 * od * np.sqrt(np.maximum(0.0, 1.0 - tangents * tangents))
    return (points - reach).min(axis=0), (points + reach).max(axis=0)
