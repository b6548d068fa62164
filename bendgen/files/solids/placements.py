"""Axis placements as frames, and frames placed in one another."""

from dataclasses import dataclass

import numpy as np

from bendgen.files.solids.exchange import Arguments, Exchange
from bendgen.geometry.vectors import Array, cross, unit

PARALLEL = 1e-9
OPERATOR = "CARTESIAN_TRANSFORMATION_OPERATOR_3D"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Frame:
    """Where something stands: (3, 3) axes x, y, z as columns, square to each other; (3,) origin [mm].

    The axes are left-handed where what stands there is mirrored; scale is how many times its own size it has there.
    """

    axes: Array
    origin: Array
    scale: float = 1.0

    @property
    def is_mirrored(self) -> bool:
        """Whether the axes are left-handed."""
        return bool(np.linalg.det(self.axes) < 0.0)

    def placed(self, points: Array) -> Array:
        """Points of the frame, (n, 3), as seen from outside it."""
        moved: Array = self.scale * points @ self.axes.T + self.origin
        return moved

    def of(self, inner: "Frame") -> "Frame":
        """An inner frame as seen from outside this one."""
        origin = self.placed(inner.origin[None])[0]
        return Frame(axes=self.axes @ inner.axes, origin=origin, scale=self.scale * inner.scale)

    def inverse(self) -> "Frame":
        """Frame that undoes this one; axes are square to each other, so that turned over they are their inverse."""
        axes: Array = self.axes.T
        return Frame(axes=axes, origin=-axes @ self.origin / self.scale, scale=1.0 / self.scale)


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
    z, x = _first_axes(placement, 2, 3)
    origin = point(exchange, placement.reference(1), mm)
    return Frame(axes=np.stack((x, cross(z, x), z), axis=1), origin=origin)


def target_frame(exchange: Exchange, number: int, mm: float) -> Frame:
    """Frame of an AXIS2_PLACEMENT_3D, or of a CARTESIAN_TRANSFORMATION_OPERATOR_3D, which may mirror and scale.

    References
    ----------
    [ISO2014] cartesian_transformation_operator_3d, base_axis
    """
    if OPERATOR not in exchange.instance(number):
        return frame(exchange, number, mm)
    operator = exchange.arguments(number, OPERATOR)
    scale = 1.0 if operator.value(-2) is None else operator.real(-2)
    if not scale > 0.0:
        operator.fail("a scale greater than 0", f"{scale:g}")
    z, x = _first_axes(operator, -1, -5)
    y = cross(z, x)
    if operator.value(-4) is not None and direction(exchange, operator.reference(-4)) @ y < 0.0:
        y = -y
    origin = point(exchange, operator.reference(-3), mm)
    return Frame(axes=np.stack((x, y, z), axis=1), origin=origin, scale=scale)


def _first_axes(placement: Arguments, z_index: int, x_index: int) -> tuple[Array, Array]:
    """Axes z and x of length 1, (3,) each, of an instance that may leave out either; x is made square to z."""
    exchange = placement.exchange
    listed = zip(np.eye(3)[[2, 0]], (z_index, x_index), strict=True)
    z, hint = (
        default if placement.value(index) is None else direction(exchange, placement.reference(index))
        for default, index in listed
    )
    x = hint - (hint @ z) * z
    if x @ x < PARALLEL**2:
        x = np.eye(3)[int(np.argmin(np.abs(z)))]
        x = x - (x @ z) * z
    return z, unit(x)
