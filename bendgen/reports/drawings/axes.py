"""The axis of a finished part as points in space, where the prediction puts it."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bendgen.geometry.bent_axes import bent_axes
from bendgen.geometry.extents import arc_points, overall_box
from bendgen.geometry.rigid_fit import rigid_fit
from bendgen.geometry.vectors import Array
from bendgen.records.bend_program import BendProgram
from bendgen.records.bent_tube import BentTube, Shape
from bendgen.units import RADIANS_PER_DEGREE

VERTEX_UP_TO_DEG = 150.5  # a little more than vertices are held at; beyond it they run away from the part
EVERY = 4  # of the points along an arc one in so many is drawn: at most 12° lie between two


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Axis:
    """Axis of a part with n bends, front end first [mm].

    points : (k, 3) array along it, arcs as short chords
    directions : (n + 1, 3) array, unit vectors along the straights
    bend_middles : (n, 3) array; straight_middles : (n + 1, 3) array
    corners : (m, 3) array, ends and vertices in order; along a bend so large that its vertex lies far off, its arc
    vertices : (m,) array, number of the vertex that each of those is; 0 on an arc
    low, high : (3,) arrays, corners of the box around the tube's outside
    """

    points: Array
    directions: Array
    bend_middles: Array
    straight_middles: Array
    corners: Array
    vertices: NDArray[np.int64]
    low: Array
    high: Array


def finished_axis(program: BendProgram) -> Axis:
    """Axis of the predicted part."""
    return axis_of_tube(program.finished, program.predicted, program.part.tube.od)


def axis_of_tube(tube: BentTube, shape: Shape, od: float) -> Axis:
    """Axis of a bent tube where a shape says that it lies."""
    angles = np.array([bend.angle_deg for bend in tube.bends]) * RADIANS_PER_DEGREE
    clr = np.array([bend.clr for bend in tube.bends])
    rotations = np.array([bend.rotation_deg for bend in tube.bends]) * RADIANS_PER_DEGREE
    straights = np.array(tube.straights)
    made, along = (rows[0] for rows in bent_axes(straights[None], rotations[None], angles[None], clr[None]))
    turn, shift = rigid_fit(made, np.array(shape.points))
    tangents, directions = made @ turn + shift, along @ turn
    arcs = arc_points(tangents[1:-1:2], tangents[2:-1:2], directions[:-1], angles, clr)
    drawn = arcs[:, ::EVERY]
    low, high = overall_box(tangents, directions, angles, clr, od)
    corners, vertices = _corners(tangents, drawn, tube, shape)
    return Axis(
        points=np.concatenate((tangents[:1], drawn.reshape(-1, 3), tangents[-1:])),
        directions=directions,
        bend_middles=arcs[:, arcs.shape[1] // 2],
        straight_middles=0.5 * (tangents[::2] + tangents[1::2]),
        corners=corners,
        vertices=vertices,
        low=low,
        high=high,
    )


def _corners(tangents: Array, arcs: Array, tube: BentTube, shape: Shape) -> tuple[Array, NDArray[np.int64]]:
    """Ends and vertices, arcs in place of the vertices of large bends, and the numbers of the vertices."""
    vertices, bends = shape.vertices, tube.bends
    pieces, numbers = [tangents[:1]], [1]
    for i, bend in enumerate(bends):
        if vertices is not None and bend.angle_deg <= VERTEX_UP_TO_DEG:
            pieces.append(np.array([vertices[i + 1]]))
            numbers.append(i + 2)
        else:
            pieces.append(arcs[i])
            numbers += [0] * len(arcs[i])
    return np.concatenate((*pieces, tangents[-1:])), np.array([*numbers, len(bends) + 2])
