"""Places for words where they cover neither each other nor the drawing: the nearest free one is taken, one by one."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bendgen.geometry.vectors import Array

# From the anchor [paper mm].
DISTANCES = (
    1.0,
    2.0,
    3.2,
    4.5,
    6.0,
    8.0,
    10.0,
    13.0,
    16.0,
    20.0,
    25.0,
    31.0,
    38.0,
    46.0,
    55.0,
    70.0,
)  # from the anchor [paper mm]
DIRECTIONS = 24
ON_WORDS, ON_INK, OUTSIDE = 1e6, 30.0, 1e5  # what a place costs over its distance: it is worse to hide words than lines
AIR = 0.5  # between two texts [paper mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """Rectangle on paper, y down [mm]."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def centre(self) -> tuple[float, float]:
        """Its middle."""
        return 0.5 * (self.left + self.right), 0.5 * (self.top + self.bottom)


class FreeSpace:
    """A part of the paper on which words look for room.

    frame : words stay within it
    ink : (k, 2) places that words had better not cover, nor what is nearer to them than `clearance`
    """

    def __init__(self, frame: Box, ink: Array, clearance: float = 0.0) -> None:
        self._frame = frame
        self._ink = ink
        self._clearance = clearance
        self._taken: list[Box] = []

    def block(self, box: Box) -> None:
        """Keep words out of a box."""
        self._taken.append(box)

    def place(self, anchor: Sequence[float], width: float, height: float, towards: Sequence[float] = (0.0, 0.0)) -> Box:
        """Take the best place for words of that size beside an anchor, if possible in a direction."""
        centres, cost = _around(anchor, width, height, towards)
        half = np.array([0.5 * width, 0.5 * height])
        low, high = centres - half, centres + half
        cost = cost + self._cost(low, high)
        best = int(np.argmin(cost))
        (left, top), (right, bottom) = low[best].tolist(), high[best].tolist()
        box = Box(left=left, top=top, right=right, bottom=bottom)
        self._taken.append(box)
        return box

    def _cost(self, low: Array, high: Array) -> Array:
        frame = self._frame
        out = (low < (frame.left, frame.top)).any(axis=1) | (high > (frame.right, frame.bottom)).any(axis=1)
        cost = OUTSIDE * out + ON_INK * _hidden(low - self._clearance, high + self._clearance, self._ink)
        if self._taken:
            boxes = np.array([(box.left, box.top, box.right, box.bottom) for box in self._taken])
            overlap = ((low[:, None] - AIR < boxes[None, :, 2:]) & (high[:, None] + AIR > boxes[None, :, :2])).all(
                axis=2
            )
            cost = cost + ON_WORDS * overlap.sum(axis=1)
        return cost


def inked(places: Array, spacing: float = 1.0) -> Array:
    """Places along a line at most so far apart [paper mm], for words to keep off; a (k, 2) array."""
    pieces = np.maximum(1, np.ceil(np.hypot(*np.diff(places, axis=0).T) / spacing)).astype(int)
    corners = np.concatenate(([0], np.cumsum(pieces)))
    at = np.arange(corners[-1] + 1)
    return np.stack([np.interp(at, corners, places[:, axis]) for axis in (0, 1)], axis=1)


def _hidden(low: Array, high: Array, ink: Array) -> Array:
    """How many places of ink each box covers."""
    inside = (ink[None] > low[:, None]) & (ink[None] < high[:, None])
    count: Array = inside.all(axis=2).sum(axis=1)
    return count


def _around(anchor: Sequence[float], width: float, height: float, towards: Sequence[float]) -> tuple[Array, Array]:
    """Centres of boxes around an anchor, and what each costs: its distance, more where it lies on the other side."""
    angles = np.arange(DIRECTIONS) * (2.0 * np.pi / DIRECTIONS)
    ways = np.stack((np.cos(angles), np.sin(angles)), axis=1)
    # From the anchor to a box's centre it is as far as to its edge, and the distance asked for beyond.
    reach = 1.0 / np.maximum(np.abs(ways[:, 0]) / (0.5 * width), np.abs(ways[:, 1]) / (0.5 * height))
    distances = np.array(DISTANCES)
    centres = np.asarray(anchor)[None, None] + (reach[None, :] + distances[:, None])[:, :, None] * ways[None]
    off = 1.0 - ways @ np.asarray(towards, dtype=float)
    cost = distances[:, None] + 2.0 * off[None, :]
    return centres.reshape(-1, 2), cost.ravel()
