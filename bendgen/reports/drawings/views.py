"""A view: from points in space to places on paper."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bendgen.geometry.vectors import Array, cross
from bendgen.reports.drawings.labels import Box


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

    def place(self, *point: float) -> tuple[float, float]:
        """Place on paper of one point, given by its three coordinates."""
        x, y = self.places(np.array([point]))[0].tolist()
        return x, y

    def nearness(self, points: Array) -> Array:
        """How near (k, 3) points are to whoever looks, a (k,) array [mm]; larger is nearer."""
        nearer: Array = points @ self.towards_reader()
        return nearer

    def towards_reader(self) -> Array:
        """What points out of the paper, a (3,) array."""
        out: Array = cross(self.right[None], self.up[None])[0]
        return out

    def attributes(self) -> dict[str, str]:
        """The view for a program that reads the drawing back."""
        return {
            "data-scale": f"{self.scale:.9g}",
            "data-origin": _texts(self.origin),
            "data-right": _texts(self.right.tolist()),
            "data-up": _texts(self.up.tolist()),
        }


def fitting_view(directions: tuple[Array, Array], points: Array, room: Box, margin: float = 0.0) -> View:
    """View that shows all points as large as there is room, in its middle.

    directions : right and up; margin : around every point, such as half a diameter [mm]
    """
    right, up = directions
    flat = np.stack((points @ right, points @ up), axis=1)
    low, high = flat.min(axis=0) - margin, flat.max(axis=0) + margin
    wide, tall = np.maximum(high - low, 1e-9).tolist()
    scale = min((room.right - room.left) / wide, (room.bottom - room.top) / tall)
    middle, (x, y) = 0.5 * (low + high), room.centre
    return View(right=right, up=up, scale=scale, origin=(x - scale * float(middle[0]), y + scale * float(middle[1])))


def _texts(numbers: Sequence[float]) -> str:
    return " ".join(f"{value:.9g}" for value in numbers)
