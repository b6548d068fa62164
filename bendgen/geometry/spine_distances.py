"""Distance of points from the axis of a bent tube."""

from dataclasses import dataclass

import numpy as np

from bendgen.geometry.vectors import Array, cross, lengths


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spine:
    """The axis of a tube of m bends.

    starts, ends : (m + 1, 3) arrays, the ends of the straights, in order; a straight may have no length
    centres, radial, tangential : (m, 3) arrays: of the arc between two straights its centre, the unit vector to where
        it begins, and its direction there
    clr, angles : (m,) arrays, radius [mm] and turn [rad], 0 to 2π
    """

    starts: Array
    ends: Array
    centres: Array
    radial: Array
    tangential: Array
    clr: Array
    angles: Array


def spine_distances(points: Array, spine: Spine) -> Array:
    """Distance of each of (n, 3) points from the nearest place of the axis, (n,)."""
    nearest = np.full(len(points), np.inf)
    for start, end in zip(spine.starts, spine.ends, strict=True):
        np.minimum(nearest, _from_segment(points, start, end), out=nearest)
    for bend in range(len(spine.clr)):
        np.minimum(nearest, _from_arc(points, spine, bend), out=nearest)
    return nearest


def _from_segment(points: Array, start: Array, end: Array) -> Array:
    along = end - start
    square = float(along @ along)
    share = np.clip((points - start) @ along / square, 0.0, 1.0) if square > 0.0 else np.zeros(len(points))
    return lengths(points - start - share[:, None] * along)


def _from_arc(points: Array, spine: Spine, bend: int) -> Array:
    """Distances from one arc; infinite outside its angle, where an end of a straight is nearer."""
    offsets = points - spine.centres[bend]
    x, y = offsets @ spine.radial[bend], offsets @ spine.tangential[bend]
    angle = np.mod(np.arctan2(y, x), 2.0 * np.pi)
    out_of_plane = offsets @ cross(spine.radial[bend], spine.tangential[bend])
    distance = np.hypot(np.hypot(x, y) - spine.clr[bend], out_of_plane)
    return np.where(angle <= spine.angles[bend], distance, np.inf)
