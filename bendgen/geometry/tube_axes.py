"""The axis of a piece of tube: a line for a straight, an arc's circle for a bend."""

from dataclasses import dataclass

import numpy as np

from bendgen.geometry.circle_fits import fit_circles
from bendgen.geometry.vectors import Array, cross, lengths, unit


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LineAxis:
    """A line: point and direction are (3,) arrays, the direction of length 1."""

    point: Array
    direction: Array

    def positions(self, points: Array) -> Array:
        """Where along the line each of (n, 3) points stands, (n,)."""
        along: Array = (points - self.point) @ self.direction
        return along

    def at(self, position: float) -> Array:
        """Point of the line, (3,)."""
        return self.point + position * self.direction

    def nearest(self, points: Array) -> Array:
        """Foot of each of (n, 3) points on the line, (n, 3)."""
        return self.point + self.positions(points)[:, None] * self.direction


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ArcAxis:
    """A circle: centre and normal are (3,) arrays, the normal of length 1; clr its radius.

    start : (3,) unit vector in the plane of the circle, from which angles count, right-handed about the normal
    """

    centre: Array
    normal: Array
    clr: float
    start: Array

    def angles(self, points: Array) -> Array:
        """Angle about the normal of each of (n, 3) points, (n,) [rad], 0 to 2π."""
        offsets = points - self.centre
        angle = np.arctan2(offsets @ cross(self.normal, self.start), offsets @ self.start)
        return np.mod(angle, 2.0 * np.pi)

    def at(self, angle: float) -> Array:
        """Point of the circle, (3,)."""
        across = cross(self.normal, self.start)
        point: Array = self.centre + self.clr * (np.cos(angle) * self.start + np.sin(angle) * across)
        return point

    def tangent(self, angle: float) -> Array:
        """Direction of the circle towards larger angles, (3,)."""
        across: Array = cross(self.normal, self.start)
        direction: Array = np.cos(angle) * across - np.sin(angle) * self.start
        return direction

    def nearest(self, points: Array) -> Array:
        """Nearest point of the circle to each of (n, 3) points, (n, 3)."""
        offsets = points - self.centre
        flat = offsets - (offsets @ self.normal)[:, None] * self.normal
        size = lengths(flat)[:, None]
        return self.centre + self.clr * np.divide(
            flat, size, out=np.tile(self.start, (len(points), 1)), where=size > 0.0
        )


TubeAxis = LineAxis | ArcAxis
NOISE_SHARE = 1e-9  # of a length: what arithmetic alone may bend a line by


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TubeSurface:
    """A surface at one distance, `radius`, from an axis; misfit: how far points of it lie off that."""

    axis: TubeAxis
    radius: float
    misfit: float = 0.0


def arc_axis(centre: Array, normal: Array, clr: float) -> ArcAxis:
    """Circle about a centre (3,) square to a normal (3,) of length 1, whose angles count from anywhere."""
    least = np.eye(3)[int(np.argmin(np.abs(normal)))]
    return ArcAxis(centre=centre, normal=normal, clr=clr, start=unit(cross(normal, least)))


def distances_from(axis: TubeAxis, points: Array) -> Array:
    """Distance of each of (n, 3) points from the whole line or circle, (n,)."""
    return lengths(points - axis.nearest(points))


def turns_about(axis: TubeAxis, points: Array) -> Array:
    """Angle round the tube's own axis at which each of (n, 3) points stands, (n,) [rad], from anywhere."""
    outward = points - axis.nearest(points)
    if isinstance(axis, ArcAxis):
        from_centre = axis.nearest(points) - axis.centre
        up, across = outward @ axis.normal, np.einsum("ij,ij->i", outward, from_centre) / axis.clr
    else:
        first = arc_axis(axis.point, axis.direction, 1.0).start
        up, across = outward @ cross(axis.direction, first), outward @ first
    turns: Array = np.arctan2(up, across)
    return turns


def surface_of_grid(grid: Array, allowed: float) -> TubeSurface | None:
    """Tube surface through an (m, k, 3) grid of points of a surface, or None.

    One family of the grid's rows or columns must be circles of one radius whose centres lie on a line or a circle.

    Parameters
    ----------
    allowed : largest misfit [mm]
    """
    candidates = (_surface_of_sections(sections, allowed) for sections in (grid, grid.swapaxes(0, 1)))
    found = [surface for surface in candidates if surface]
    return min(found, key=lambda surface: surface.misfit, default=None)


def _surface_of_sections(sections: Array, allowed: float) -> TubeSurface | None:
    fits = fit_circles(sections)
    if not np.all(fits.misfits <= allowed) or np.ptp(fits.radii) > 2.0 * allowed:
        return None
    radius = float(fits.radii.mean())
    axis = _axis_of_centres(fits.centres, noise=float(fits.misfits.max()), allowed=allowed)
    if axis is None:
        return None
    misfit = float(np.abs(distances_from(axis, sections.reshape(-1, 3)) - radius).max())
    return TubeSurface(axis=axis, radius=radius, misfit=misfit) if misfit <= 2.0 * allowed else None


def _axis_of_centres(centres: Array, *, noise: float, allowed: float) -> TubeAxis | None:
    """Line or circle through the centres of sections; None if they are one point, or on neither."""
    middle = centres.mean(axis=0)
    line = LineAxis(point=middle, direction=np.linalg.svd(centres - middle)[2][0])
    length = float(np.ptp(line.positions(centres)))
    if length <= 4.0 * allowed:
        return None
    off_line = float(distances_from(line, centres).max())
    if off_line <= NOISE_SHARE * length + 4.0 * noise:
        return line if off_line <= allowed else None
    circle = fit_circles(centres[None])
    if not circle.misfits[0] <= allowed:
        return None
    return arc_axis(circle.centres[0], circle.normals[0], float(circle.radii[0]))
