"""A view: from points in space to places on paper."""

from dataclasses import dataclass

import numpy as np

from bendgen.geometry.vectors import Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class View:
    """Parallel projection.

    right, up : (3,) arrays, unit vectors in space that point right and up on paper
    scale : paper millimetres for one millimetre
    origin : place on paper of the origin in space, x to the right and y down [mm]
    """

    right: Array
    up: Array
    scale: float
    origin: tuple[float, float]

    def places(self, points: Array) -> Array:
        """Places on paper of (k, 3) points, a (k, 2) array."""
        across, above = points @ self.right, points @ self.up
        return np.stack((self.origin[0] + self.scale * across, self.origin[1] - self.scale * above), axis=1)

    def nearness(self, points: Array) -> Array:
        """How near (k, 3) points are to whoever looks, a (k,) array [mm]; larger is nearer."""
        nearer: Array = points @ np.cross(self.right, self.up)
        return nearer

    def attributes(self) -> dict[str, str]:
        """The view for a program that reads the drawing back."""
        return {
            "data-scale": f"{self.scale:.9g}",
            "data-origin": _texts(self.origin),
            "data-right": _texts(self.right.tolist()),
            "data-up": _texts(self.up.tolist()),
        }


def _texts(numbers: tuple[float, ...] | list[float]) -> str:
    return " ".join(f"{value:.9g}" for value in numbers)
