"""The axis of a chain of pieces: where each straight begins and ends, and the arcs between them."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from bendgen.files.solids.chain import Link, corner_of_lines
from bendgen.geometry.spine_distances import Spine
from bendgen.geometry.tube_axes import ArcAxis, LineAxis, unit
from bendgen.geometry.vectors import Array, angles_between, cross, signed_angles_about


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ChainAxis:
    """Axis of a tube of m bends.

    starts, ends : (m + 1, 3) arrays, ends of the straights in order; directions : (m + 1, 3) array of unit vectors
    centres : (m, 3) array; clr : (m,) array, 0 at a mitre; normals : (m, 3) array, about which each bend turns
        right-handed; angles : (m,) array [rad], 0 to 2π
    """

    starts: Array
    ends: Array
    directions: Array
    centres: Array
    clr: Array
    normals: Array
    angles: Array

    def straights(self) -> Array:
        """Length of each straight, (m + 1,)."""
        along: Array = np.einsum("ij,ij->i", self.ends - self.starts, self.directions)
        return along

    def rotations(self) -> Array:
        """Rotation of the bend plane from each bend to the next, (m - 1,) [rad], as `plane_rotations` has it."""
        return signed_angles_about(self.directions[1:-1], self.normals[:-1], self.normals[1:])

    def spine(self) -> Spine:
        """The same for distances of points."""
        bent = self.clr > 0.0
        radial = (self.ends[:-1] - self.centres)[bent]
        radial = radial / np.linalg.norm(radial, axis=1, keepdims=True)
        return Spine(
            starts=self.starts,
            ends=self.ends,
            centres=self.centres[bent],
            radial=radial,
            tangential=cross(self.normals[bent], radial),
            clr=self.clr[bent],
            angles=self.angles[bent],
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Joint:
    """Where two links meet: (3,) point, (3,) direction onwards."""

    point: Array
    direction: Array


def axis_of_chain(links: Sequence[Link]) -> ChainAxis:
    """Axis of a chain; where it begins or ends with a bend, or two bends touch, a straight of no length stands."""
    joints = [_joint(one, other) for one, other in pairwise(links)]
    first, last = links[0].ends()[0], links[-1].ends()[1]
    places = [_Joint(point=first.point, direction=-first.direction), *joints]
    places.append(_Joint(point=last.point, direction=last.direction))
    straights: list[tuple[Array, Array, Array]] = []
    bends: list[tuple[Array, float, Array, float]] = []
    bend_last = True
    for link, before, after in zip(links, places[:-1], places[1:], strict=True):
        axis = link.piece.axis
        if isinstance(axis, LineAxis):
            if not bend_last:
                bends.append(_mitre(straights[-1][2], _onwards(axis, link), before.point))
            straights.append((before.point, after.point, _onwards(axis, link)))
            bend_last = False
            continue
        if bend_last:
            straights.append((before.point, before.point, before.direction))
        bends.append(_bend(axis, link, before.point, after.point))
        bend_last = True
    if bend_last:
        straights.append((places[-1].point, places[-1].point, places[-1].direction))
    return _packed(straights, bends)


def _onwards(axis: LineAxis, link: Link) -> Array:
    return -axis.direction if link.turned else axis.direction


def _joint(one: Link, other: Link) -> _Joint:
    leaving, entering = one.ends()[1], other.ends()[0]
    direction = unit(leaving.direction - entering.direction)
    axes = one.piece.axis, other.piece.axis
    if isinstance(axes[0], LineAxis) and isinstance(axes[1], LineAxis):
        return _Joint(point=corner_of_lines(axes[0], axes[1]), direction=direction)
    for line, arc in (axes, axes[::-1]):
        if isinstance(line, LineAxis) and isinstance(arc, ArcAxis):
            return _Joint(point=line.nearest(arc.centre[None])[0], direction=direction)
    return _Joint(point=0.5 * (leaving.point + entering.point), direction=direction)


def _bend(axis: ArcAxis, link: Link, start: Array, end: Array) -> tuple[Array, float, Array, float]:
    """Centre, CLR, normal about which the tube turns right-handed, angle."""
    normal = -axis.normal if link.turned else axis.normal
    first, last = axis.angles(np.stack((start, end)))
    angle = float((first - last) if link.turned else (last - first)) % (2.0 * math.pi)
    return axis.centre, axis.clr, normal, angle


def _mitre(before: Array, after: Array, corner: Array) -> tuple[Array, float, Array, float]:
    return corner, 0.0, unit(np.cross(before, after)), float(angles_between(before[None], after[None])[0])


def _packed(
    straights: Sequence[tuple[Array, Array, Array]], bends: Sequence[tuple[Array, float, Array, float]]
) -> ChainAxis:
    return ChainAxis(
        starts=np.array([start for start, _, _ in straights]),
        ends=np.array([end for _, end, _ in straights]),
        directions=np.array([direction for _, _, direction in straights]),
        centres=np.array([bend[0] for bend in bends]).reshape(-1, 3),
        clr=np.array([bend[1] for bend in bends]),
        normals=np.array([bend[2] for bend in bends]).reshape(-1, 3),
        angles=np.array([bend[3] for bend in bends]),
    )
