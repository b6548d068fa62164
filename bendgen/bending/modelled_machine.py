"""A bender in numbers: it feeds, rotates, bends and releases a tube, and the tube is where that leaves it.

The machine's frame is right-handed: +X along the feed, from the carriage to the die; the tangent line at x = 0; +Z up.
A die on the left stands at +Y. Every point ahead of the tangent line is carried along by each move; nothing here
knows how the moves were found, so playing a program forward proves it.
"""

import math
from dataclasses import dataclass

import numpy as np

from bendgen.geometry.rotations import rotation_about_x, rotation_about_z
from bendgen.geometry.vectors import Array
from bendgen.units import RADIANS_PER_DEGREE

ARC_CHORDS = 12  # an arc is followed by a polygon around it, never inside it
BEND_ROWS = 3 + ARC_CHORDS  # front tangent point, vertex, rear tangent point, and that polygon


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Moves:
    """What the machine does and what the tube makes of it, for n bends.

    feeds : (n,) array, from the end of the bend before to the start of this one [mm]
    rotations_deg, angles_deg : (n,) arrays, rotation and angle after release [deg]
    clr : (n,) array, formed radius [mm]
    front_trim, rear : what is cut off the front, and the straight behind the last bend after cutting [mm]
    side : which way the die draws, "left" or "right"
    """

    feeds: Array
    rotations_deg: Array
    angles_deg: Array
    clr: Array
    front_trim: float
    rear: float
    side: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Played:
    """The bent tube in the machine's frame after the last bend, and how it lay before each.

    points : (2 n + 2, 3) array, front cut, tangent points, rear cut
    vertices : (n + 2, 3) array; not to be used where a bend reaches 180°
    directions : (n + 1, 3) array, unit vectors along the straights from front to rear
    before_bend : (n, k, 3) array, points on and around the axis just before each bend, from the front end on: no
        vertices, which lie far off the tube at large angles; points not yet there lie at the origin
    """

    points: Array
    vertices: Array
    directions: Array
    before_bend: Array


def play(moves: Moves) -> Played:
    """Feed, rotate, bend and release, bend after bend."""
    bends = len(moves.feeds)
    tube = np.zeros((2 + bends * BEND_ROWS + 1, 3))
    before_bend = np.zeros((bends, len(tube), 3))
    directions = np.zeros((bends + 1, 3))
    directions[:, 0] = -1.0  # every straight lies along the feed when it passes the tangent line
    tube[1, 0] = -moves.front_trim  # row 0 is the front end, row 1 the front cut; the end lies at the tangent line
    count = 2
    for i in range(bends):
        tube[:count, 0] += moves.feeds[i]
        turn = rotation_about_x(moves.rotations_deg[i] * RADIANS_PER_DEGREE).T
        before_bend[i, :count] = tube[:count] @ turn
        draw, centre, bend_rows = _drawn(moves, i)
        tube[:count] = (before_bend[i, :count] - centre) @ draw + centre
        tube[count : count + BEND_ROWS] = bend_rows
        directions[: i + 1] = directions[: i + 1] @ (turn @ draw)
        count += BEND_ROWS
    tube[-1, 0] = -moves.rear if bends else -moves.rear - moves.front_trim
    front_tangents = 2 + BEND_ROWS * np.arange(bends)
    tangents = np.stack((front_tangents, front_tangents + 2), axis=1).ravel()
    vertices = front_tangents + 1
    return Played(
        points=tube[[1, *tangents, -1]],
        vertices=tube[[1, *vertices, -1]],
        directions=directions,
        before_bend=np.delete(before_bend, vertices, axis=1),
    )


def _drawn(moves: Moves, i: int) -> tuple[Array, Array, Array]:
    """How bend i turns what lies ahead, about which point, and the points of the bend itself, once released."""
    towards_die = 1.0 if moves.side == "left" else -1.0
    angle, clr = moves.angles_deg[i] * RADIANS_PER_DEGREE, moves.clr[i]
    centre = np.array([0.0, towards_die * clr, 0.0])
    draw = rotation_about_z(towards_die * angle).T
    chord = angle / ARC_CHORDS
    along = (np.arange(ARC_CHORDS) + 0.5) * chord
    around = clr / math.cos(0.5 * chord)
    rows = np.zeros((BEND_ROWS, 3))
    rows[0] = centre - centre @ draw
    rows[1, 0] = clr * math.tan(0.5 * angle)
    rows[3:, 0] = around * np.sin(along)
    rows[3:, 1] = towards_die * (clr - around * np.cos(along))
    return draw, centre, rows
