"""Places for words where they cover neither each other nor the drawing: the nearest free one is taken, one by one."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bendgen.geometry.vectors import Array, lengths

# Distances from the anchor to a box [paper mm].
NEAR = (1.0, 2.0, 3.2, 4.5)
FAR = (6.0, 8.0, 10.0, 13.0, 16.0, 20.0, 25.0, 31.0, 38.0, 46.0, 55.0)
_ANGLES = np.arange(24) * (2.0 * np.pi / 24)
WAYS = np.stack((np.cos(_ANGLES), np.sin(_ANGLES)), axis=1)
ON_WORDS, ON_INK, OUTSIDE = 1e6, 30.0, 1e5  # what a place costs over its distance: it is worse to hide words than lines
ON_LINE = 40.0  # the same of a line, to words that stand far off, through other words
ALONG_LINE = np.linspace(0.15, 0.9, 6)
AIR = 0.5  # between two texts [paper mm]
WORST_INK = 40  # places of ink beyond which the whole frame is searched
GRID = 0.75  # of that search [paper mm]
CELL = 0.5  # of the grid on which ink is counted [paper mm]


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
        self._clearance = clearance
        self._ink_before = _counts(frame, ink)
        self._lines_before = np.zeros_like(self._ink_before)
        self._taken: list[tuple[float, float, float, float]] = []

    def block(self, box: Box) -> None:
        """Keep words out of a box."""
        self._taken.append((box.left, box.top, box.right, box.bottom))

    def draw_line(self, *places: Sequence[float]) -> None:
        """Keep words off a narrow line, such as an outline or one that joins others to what they name."""
        self._lines_before += _counts(self._frame, inked(np.array(places, dtype=float)))

    def place(self, anchor: Sequence[float], width: float, height: float) -> Box:
        """Take the best place for words of that size beside an anchor."""
        half = np.array([0.5 * width, 0.5 * height])
        centre, cost = self._best(*_around(anchor, half, NEAR), half)
        if cost > FAR[0]:  # no place farther off costs less than its distance
            centres, distances = _around(anchor, half, NEAR + FAR)
            centre, cost = self._best(centres, distances + self._crossed(anchor, centres), half)
        if cost > ON_INK * WORST_INK:
            centres, distances = _everywhere(self._frame, anchor)
            centre, _ = self._best(centres, distances + self._crossed(anchor, centres), half)
        (left, top), (right, bottom) = (centre - half).tolist(), (centre + half).tolist()
        box = Box(left=left, top=top, right=right, bottom=bottom)
        self.block(box)
        return box

    def _best(self, centres: Array, cost: Array, half: Array) -> tuple[Array, float]:
        """The cheapest of (m, 2) centres of boxes, and what it costs."""
        whole = cost + self._cost(centres - half, centres + half)
        best = int(np.argmin(whole))
        return centres[best], float(whole[best])

    def _cost(self, low: Array, high: Array) -> Array:
        """What is wrong with boxes between (m, 2) corners, an (m,) array."""
        frame = self._frame
        out = (low < (frame.left, frame.top)).any(axis=1) | (high > (frame.right, frame.bottom)).any(axis=1)
        ink = self._within(self._ink_before, low - self._clearance, high + self._clearance)
        cost: Array = OUTSIDE * out + ON_INK * (ink + self._within(self._lines_before, low, high))
        if self._taken:
            taken = np.array(self._taken)
            overlap = (low[:, None] - AIR < taken[None, :, 2:]) & (high[:, None] + AIR > taken[None, :, :2])
            cost = cost + ON_WORDS * overlap.all(axis=2).sum(axis=1)
        return cost

    def _crossed(self, anchor: Sequence[float], centres: Array) -> Array:
        """What it costs that lines from an anchor to (m, 2) centres go through other words, an (m,) array."""
        if not self._taken:
            return np.zeros(len(centres))
        taken, start = np.array(self._taken), np.asarray(anchor)
        on_line = start + ALONG_LINE[:, None, None] * (centres - start)
        inside = (on_line[:, :, None] > taken[:, :2]) & (on_line[:, :, None] < taken[:, 2:])
        crossed: Array = ON_LINE * inside.all(axis=3).any(axis=0).sum(axis=1)
        return crossed

    def _within(self, before: Array, low: Array, high: Array) -> Array:
        """How many of the places counted lie within boxes."""
        limit = np.array(before.shape) - 1
        corner = (self._frame.left, self._frame.top)
        left, top = np.clip(np.floor((low - corner) / CELL), 0, limit).astype(int).T
        right, bottom = np.clip(np.ceil((high - corner) / CELL), 0, limit).astype(int).T
        within: Array = before[right, bottom] - before[left, bottom] - before[right, top] + before[left, top]
        return within


def _counts(frame: Box, ink: Array) -> Array:
    """How many places of ink lie left of and above each corner of a grid of cells over the frame."""
    across, down = (int(np.ceil(size / CELL)) for size in (frame.right - frame.left, frame.bottom - frame.top))
    cells = np.floor((ink - (frame.left, frame.top)) / CELL).astype(int)
    inside = cells[((cells >= 0) & (cells < (across, down))).all(axis=1)]
    counts = np.zeros((across + 1, down + 1))
    np.add.at(counts, (inside[:, 0] + 1, inside[:, 1] + 1), 1.0)
    return counts.cumsum(axis=0).cumsum(axis=1)


def _everywhere(frame: Box, anchor: Sequence[float]) -> tuple[Array, Array]:
    """Centres of boxes all over a frame, and what each costs: its distance from an anchor."""
    across, down = np.meshgrid(np.arange(frame.left, frame.right, GRID), np.arange(frame.top, frame.bottom, GRID))
    centres = np.stack((across.ravel(), down.ravel()), axis=1)
    return centres, lengths(centres - np.asarray(anchor))


def inked(places: Array, spacing: float = 1.0) -> Array:
    """Places along a line at most so far apart [paper mm], for words to keep off; a (k, 2) array."""
    pieces = np.maximum(1, np.ceil(lengths(np.diff(places, axis=0)) / spacing)).astype(int)
    corners = np.concatenate(([0], np.cumsum(pieces)))
    at = np.arange(corners[-1] + 1)
    return np.stack([np.interp(at, corners, places[:, axis]) for axis in (0, 1)], axis=1)


def _around(anchor: Sequence[float], half: Array, distances: Sequence[float]) -> tuple[Array, Array]:
    """Centres of boxes around an anchor, half as large as told, and what each costs: its distance."""
    # From the anchor to a box's centre it is as far as to its edge, and the distance asked for beyond.
    reach = 1.0 / np.maximum(np.abs(WAYS[:, 0]) / half[0], np.abs(WAYS[:, 1]) / half[1])
    away = np.array(distances)
    centres = np.asarray(anchor) + (reach + away[:, None])[:, :, None] * WAYS
    return centres.reshape(-1, 2), np.repeat(away, len(WAYS))
