"""Paper for a chart: two scales with round numbers, and what is drawn between them; paper millimetres."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from bendgen.geometry.vectors import Array
from bendgen.reports.drawings.labels import Box
from bendgen.reports.drawings.paper import LETTERS, MIDDLE_TO_BASELINE, Ink, polyline, rectangle, words
from bendgen.units import format_number

WIDTH, HEIGHT = 186.0, 70.0  # of the whole chart
FRAME = Box(left=18.0, top=8.0, right=150.0, bottom=54.0)
MARKS = 5  # about so many on a scale
TICK = 1.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """Values from low to high, across and upwards, on the frame; is_counted: across there are whole numbers only."""

    across: tuple[float, float]
    upwards: tuple[float, float]
    is_counted: bool = False

    def places(self, x: Sequence[float] | Array, y: Sequence[float] | Array) -> Array:
        """Places on paper of pairs of values, a (k, 2) array."""
        along = _share(np.asarray(x, dtype=float), self.across)
        up = _share(np.asarray(y, dtype=float), self.upwards)
        return np.stack(
            (
                FRAME.left + along * (FRAME.right - FRAME.left),
                FRAME.bottom - up * (FRAME.bottom - FRAME.top),
            ),
            axis=1,
        )

    def frame(self, across_title: str, upwards_title: str) -> Iterator[Ink]:
        """Frame, marks with their numbers, and what is counted."""
        yield rectangle("narrow", (FRAME.left, FRAME.top), (FRAME.right, FRAME.bottom))
        for value, text in _marks(self.across, least=float(self.is_counted)):
            ((x, _),) = self.places([value], [self.upwards[0]]).tolist()
            yield polyline("narrow", ((x, FRAME.bottom), (x, FRAME.bottom + TICK)))
            yield words(text, (x, FRAME.bottom + TICK + LETTERS))
        for value, text in _marks(self.upwards):
            ((_, y),) = self.places([self.across[0]], [value]).tolist()
            yield polyline("narrow", ((FRAME.left - TICK, y), (FRAME.left, y)))
            yield words(text, (FRAME.left - TICK - 0.8, y + MIDDLE_TO_BASELINE), anchor="end")
        yield words(across_title, (FRAME.right + 1.5, FRAME.bottom + TICK + LETTERS), anchor="start")
        yield words(upwards_title, (1.0, FRAME.top - 3.0), anchor="start")


def range_around(values: Sequence[float] | Array, least: float) -> tuple[float, float]:
    """Range that shows all values with some room, at least so wide."""
    found = np.asarray(values, dtype=float)
    low, high = float(found.min()), float(found.max())
    wide = max(1.1 * (high - low), least)
    return 0.5 * (low + high - wide), 0.5 * (low + high + wide)


def _share(values: Array, span: tuple[float, float]) -> Array:
    return (values - span[0]) / (span[1] - span[0])


def _marks(span: tuple[float, float], least: float = 0.0) -> Iterator[tuple[float, str]]:
    """Round values within a range, at least so far apart, and how they are written."""
    step = _round_step(max(least, (span[1] - span[0]) / MARKS))
    decimals = max(0, -math.floor(math.log10(step) + 1e-9))
    for i in range(math.ceil(span[0] / step - 1e-9), math.floor(span[1] / step + 1e-9) + 1):
        yield i * step, format_number(i * step, decimals)


def _round_step(least: float) -> float:
    """1, 2 or 5 times a power of ten, at least so much."""
    power = 10.0 ** math.floor(math.log10(least))
    return next(step * power for step in (1.0, 2.0, 5.0, 10.0) if step * power >= least * (1.0 - 1e-9))
