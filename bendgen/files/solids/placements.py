"""Axis placements as frames, and frames placed in one another."""

from dataclasses import dataclass

import numpy as np

from bendgen.files.solids.exchange import Exchange
from bendgen.geometry.tube_axes import unit
from bendgen.geometry.vectors import Array, cross

PARALLEL = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Frame:
    """Where something stands: (3, 3) axes x, y, z as columns; (3,) origin [mm]."""

    axes: Array
    origin: Array

    def placed(self, points: Array) -> Array:
        """Points of the frame, (n, 3), as seen from outside it."""
        moved: Array = points @ self.axes.T + self.origin
        return moved

    def of(self, inner: "Frame") -> "Frame":
        """An inner frame as seen from outside this one."""
        return Frame(axes=self.axes @ inner.axes, origin=self.axes @ inner.origin + self.origin)

    def inverse(self) -> "Frame":
        """Frame that undoes this one; axes are square to each other, so that turned over they are their inverse."""
        axes: Array = self.axes.T
        return Frame(axes=axes, origin=-axes @ self.origin)


def unmoved() -> Frame:
    """Frame that leaves everything where it is."""
    return Frame(axes=np.eye(3), origin=np.zeros(3))


def point(exchange: Exchange, number: int, mm: float) -> Array:
    """CARTESIAN_POINT [mm], (3,)."""
    return np.array(exchange.triple(number)) * mm


def direction(exchange: Exchange, number: int) -> Array:
    """DIRECTION of length 1, (3,)."""
    components = np.array(exchange.triple(number))
    if not np.any(components):
        raise exchange.mistaken(f"#{number}", "a direction", "(0, 0, 0)")
    return unit(components)


def frame(exchange: Exchange, number: int, mm: float) -> Frame:
    """Frame of an AXIS2_PLACEMENT_3D; z and x default as the standard says, and x is made square to z.

    References
    ----------
    [ISO2014] axis2_placement_3d, build_axes
    """
    placement = exchange.arguments(number, "AXIS2_PLACEMENT_3D", "PLACEMENT")
    z = np.array([0.0, 0.0, 1.0]) if placement.value(2) is None else direction(exchange, placement.reference(2))
    hint = np.array([1.0, 0.0, 0.0]) if placement.value(3) is None else direction(exchange, placement.reference(3))
    x = hint - (hint @ z) * z
    if x @ x < PARALLEL**2:
        x = np.eye(3)[int(np.argmin(np.abs(z)))]
        x = x - (x @ z) * z
    x = unit(x)
    origin = point(exchange, placement.reference(1), mm)
    return Frame(axes=np.stack((x, cross(z, x), z), axis=1), origin=origin)
