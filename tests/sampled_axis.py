"""Points along the axis of a tube, laid piece by piece with a moving frame; shares no code with the package."""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def sampled_axis(
    straights: Sequence[float],
    bends: Sequence[tuple[float, float, float]],
    spacing: float,
    *,
    noise: float = 0.0,
    seed: int = 1,
) -> Array:
    """Points (n, 3) at most `spacing` apart on every straight and arc, turned and shifted to no special place.

    bends : rotation [deg], angle [deg], CLR of each
    noise : standard deviation of each coordinate
    """
    place, frame = np.array([100.0, -50.0, 30.0]), _turned(_turned(np.eye(3), 2, 0.7), 1, -0.4)
    points = [place]
    for straight, (rotation, angle, clr) in zip(straights, [*bends, (0.0, 0.0, 1.0)], strict=True):
        along = frame[:, 0]
        if straight > 0.0:
            points += [place + part * along for part in _parts(straight, spacing)]
            place = place + straight * along
        frame = _turned(frame, 0, math.radians(rotation))
        centre = place + clr * frame[:, 1]
        for swept in _parts(math.radians(angle), spacing / clr) if angle else ():
            points.append(centre - clr * _turned(frame, 2, swept)[:, 1])
        frame = _turned(frame, 2, math.radians(angle))
        place = centre - clr * frame[:, 1]
    laid = np.array(points)
    return laid + np.random.default_rng(seed).normal(0.0, noise, laid.shape) if noise else laid


def _parts(length: float, spacing: float) -> list[float]:
    count = max(1, math.ceil(length / spacing))
    return [length * (part + 1) / count for part in range(count)]


def _turned(frame: Array, axis: int, angle: float) -> Array:
    """Frame, its axes being columns, turned about one of them."""
    first, second = frame[:, (axis + 1) % 3], frame[:, (axis + 2) % 3]
    turned = frame.copy()
    turned[:, (axis + 1) % 3] = math.cos(angle) * first + math.sin(angle) * second
    turned[:, (axis + 2) % 3] = math.cos(angle) * second - math.sin(angle) * first
    return turned
