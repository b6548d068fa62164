"""A better direction for an axis that is given roughly, from points on the tube about it."""

from dataclasses import replace

import numpy as np

from bendgen.geometry.tube_axes import ArcAxis, LineAxis, TubeAxis
from bendgen.geometry.vectors import Array, cross, unit

STEPS = 4


def refined_axis(axis: TubeAxis, points: Array, radius: float) -> TubeAxis:
    """Axis from which (n, 3) points are at the radius, as nearly as may be.

    A line is shifted and tilted, a circle is tilted about its centre: centres are points, which files give well.

    Notes
    -----
    Gauss-Newton on the distances; directions that the points say nothing about stay as they are; without points all do.
    """
    for _ in range(STEPS if len(points) else 0):
        axis = _tilted_circle(axis, points, radius) if isinstance(axis, ArcAxis) else _moved_line(axis, points, radius)
    return axis


def _moved_line(axis: LineAxis, points: Array, radius: float) -> LineAxis:
    outward, off = _outward(axis, points, radius)
    along = axis.positions(points)
    middle = float(along.mean())
    across = _square_to(axis.direction)
    shift = outward @ across.T
    step = np.linalg.lstsq(np.hstack((shift, shift * (along - middle)[:, None])), off, rcond=1e-9)[0]
    return LineAxis(point=axis.at(middle) + step[:2] @ across, direction=unit(axis.direction + step[2:] @ across))


def _tilted_circle(axis: ArcAxis, points: Array, radius: float) -> ArcAxis:
    outward, off = _outward(axis, points, radius)
    across = _square_to(axis.normal)
    turning = cross(axis.nearest(points) - axis.centre, outward) @ across.T
    turn = np.linalg.lstsq(turning, off, rcond=1e-9)[0] @ across
    normal = unit(axis.normal + cross(turn, axis.normal))
    start = unit(axis.start - (axis.start @ normal) * normal)
    return replace(axis, normal=normal, start=start)


def _outward(axis: TubeAxis, points: Array, radius: float) -> tuple[Array, Array]:
    """Unit vectors from the axis to the points, (n, 3), and how much farther than the radius these lie, (n,)."""
    apart = points - axis.nearest(points)
    distances = np.linalg.norm(apart, axis=1)
    return apart / np.maximum(distances, 1e-300)[:, None], distances - radius


def _square_to(direction: Array) -> Array:
    """Two unit vectors square to a direction and to each other, (2, 3)."""
    first = unit(cross(direction, np.eye(3)[int(np.argmin(np.abs(direction)))]))
    return np.stack((first, cross(direction, first)))
