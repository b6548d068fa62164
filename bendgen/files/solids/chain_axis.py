"""The axis of a chain of pieces: where each straight begins and ends, and the arcs between them."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from bendgen.files.solids.chain import Link, corner_of_lines
from bendgen.geometry.spine_distances import Spine
from bendgen.geometry.tube_axes import ArcAxis, LineAxis
from bendgen.geometry.vectors import Array, angles_between, cross, signed_angles_about, unit

FULL_TURN = 2.0 * math.pi


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
class _Place:
    """A place on the axis: (3,) point, (3,) direction onwards."""

    point: Array
    direction: Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Straight:
    """A straight: (3,) start and end, (3,) direction."""

    start: Array
    end: Array
    direction: Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Bend:
    """A bend: (3,) centre, CLR, (3,) normal about which the tube turns right-handed, angle."""

    centre: Array
    clr: float
    normal: Array
    angle: float


def axis_of_chain(links: Sequence[Link]) -> ChainAxis:
    """Axis of a chain; where it begins or ends with a bend, or two bends touch, a straight of no length stands."""
    first, last = links[0].ends()[0], links[-1].ends()[1]
    places = [_Place(point=first.point, direction=-first.direction)]
    places += [_joint(one, other) for one, other in pairwise(links)]
    places += [_Place(point=last.point, direction=last.direction)]
    straights: list[_Straight] = []
    bends: list[_Bend] = []
    for link, before, after in zip(links, places[:-1], places[1:], strict=True):
        axis = link.piece.axis
        if isinstance(axis, LineAxis):
            direction = -axis.direction if link.turned else axis.direction
            if len(straights) > len(bends):
                bends.append(_mitre(straights[-1].direction, direction, before.point))
            straights.append(_Straight(start=before.point, end=after.point, direction=direction))
        else:
            if len(straights) == len(bends):
                straights.append(_no_straight(before))
            bends.append(_bend(axis, link, before.point, after.point))
    if len(straights) == len(bends):
        straights.append(_no_straight(places[-1]))
    return _packed(straights, bends)


def _joint(one: Link, other: Link) -> _Place:
    """Where two links meet: on the line of a straight, as that is known best."""
    leaving, entering = one.ends()[1], other.ends()[0]
    direction = unit(leaving.direction - entering.direction)
    axes = one.piece.axis, other.piece.axis
    if isinstance(axes[0], LineAxis) and isinstance(axes[1], LineAxis):
        return _Place(point=corner_of_lines(axes[0], axes[1]), direction=direction)
    for line, arc in (axes, axes[::-1]):
        if isinstance(line, LineAxis) and isinstance(arc, ArcAxis):
            return _Place(point=line.nearest(arc.centre[None])[0], direction=direction)
    return _Place(point=0.5 * (leaving.point + entering.point), direction=direction)


def _no_straight(place: _Place) -> _Straight:
    return _Straight(start=place.point, end=place.point, direction=place.direction)


def _bend(axis: ArcAxis, link: Link, start: Array, end: Array) -> _Bend:
    first, last = axis.angles(np.stack((start, end)))
    if link.turned:
        return _Bend(centre=axis.centre, clr=axis.clr, normal=-axis.normal, angle=float(first - last) % FULL_TURN)
    return _Bend(centre=axis.centre, clr=axis.clr, normal=axis.normal, angle=float(last - first) % FULL_TURN)


def _mitre(before: Array, after: Array, corner: Array) -> _Bend:
    turn = float(angles_between(before[None], after[None])[0])
    return _Bend(centre=corner, clr=0.0, normal=unit(cross(before, after)), angle=turn)


def _packed(straights: Sequence[_Straight], bends: Sequence[_Bend]) -> ChainAxis:
    return ChainAxis(
        starts=np.array([straight.start for straight in straights]),
        ends=np.array([straight.end for straight in straights]),
        directions=np.array([straight.direction for straight in straights]),
        centres=np.array([bend.centre for bend in bends]).reshape(-1, 3),
        clr=np.array([bend.clr for bend in bends]),
        normals=np.array([bend.normal for bend in bends]).reshape(-1, 3),
        angles=np.array([bend.angle for bend in bends]),
    )
