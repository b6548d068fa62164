"""Axes by where they lie, so that few need to be compared with any one."""

import numpy as np

from bendgen.geometry.tube_axes import LineAxis, TubeAxis
from bendgen.geometry.vectors import Array, lengths

NEAR = 1.0  # mm, beyond what is allowed; a coarse sieve before the exact comparison
PARALLEL_SINE = 0.05  # lines that differ by more than 3° are not the same


class AxisIndex:
    """Axes in the order in which they were added."""

    def __init__(self) -> None:
        self._lines: list[int] = []
        self._arcs: list[int] = []
        self._count = 0
        self._points, self._directions = np.empty((8, 3)), np.empty((8, 3))
        self._centres, self._clr = np.empty((8, 3)), np.empty(8)

    def __len__(self) -> int:
        return self._count

    def add(self, axis: TubeAxis) -> None:
        """Add an axis."""
        if isinstance(axis, LineAxis):
            place = len(self._lines)
            self._points, self._directions = _with_room(self._points, place), _with_room(self._directions, place)
            self._points[place], self._directions[place] = axis.point, axis.direction
            self._lines.append(self._count)
        else:
            place = len(self._arcs)
            self._centres, self._clr = _with_room(self._centres, place), _with_room(self._clr, place)
            self._centres[place], self._clr[place] = axis.centre, axis.clr
            self._arcs.append(self._count)
        self._count += 1

    def near(self, axis: TubeAxis, allowed: float) -> list[int]:
        """Positions of all axes that may be the same to within `allowed` [mm], and of some others."""
        if isinstance(axis, LineAxis):
            count = len(self._lines)
            directions = self._directions[:count]
            apart = axis.point - self._points[:count]
            across = apart - np.einsum("ij,ij->i", apart, directions)[:, None] * directions
            tilt = np.sqrt(np.maximum(1.0 - (directions @ axis.direction) ** 2, 0.0))
            # A tilted line may be named by a point far away from where the two meet.
            found = (tilt < PARALLEL_SINE) & (lengths(across) <= allowed + NEAR + tilt * lengths(apart))
            return [self._lines[place] for place in np.flatnonzero(found)]
        count = len(self._arcs)
        apart_by = np.maximum(lengths(self._centres[:count] - axis.centre), np.abs(self._clr[:count] - axis.clr))
        return [self._arcs[place] for place in np.flatnonzero(apart_by <= allowed + NEAR)]


def _with_room(rows: Array, place: int) -> Array:
    """Rows, twice as many where there is none for another one."""
    return rows if place < len(rows) else np.concatenate((rows, np.empty_like(rows)))
