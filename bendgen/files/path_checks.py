"""Whether the vertices of a centreline describe a path that a tube can follow."""

import math
from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from bendgen.files.validation import Flaw
from bendgen.geometry.polylines import segments, turning_angles
from bendgen.units import DEGREES_PER_RADIAN

MOST_VERTICES = 1000
COMMAS = "a decimal comma makes two numbers of one"
SAME_POINT = 1e-6  # mm; nearer vertices give the straight between them no direction
STRAIGHT_BACK_DEG = 180.0 - 1e-6


def check_path(sound: Mapping[int, Sequence[float]], count: int) -> Iterator[Flaw]:
    """Flaws of vertices that are sound one by one.

    Parameters
    ----------
    sound : [x, y, z] or [x, y, z, clr] in mm by index from 0; some of the `count` vertices may be missing, being wrong
        by themselves
    count : number of vertices in the path
    """
    for index in (0, count - 1):
        if len(sound.get(index, ())) == 4:
            yield Flaw(place=(index, 3), expected="no CLR at an end of the tube", found=f"four numbers; {COMMAS}")
    for index, vertex in sound.items():
        if index - 1 in sound and _same_point(sound[index - 1], vertex):
            yield Flaw(place=(index,), expected=f"a point apart from vertex {index}", found="the same point")
    for run in _runs(sound):
        yield from _folds(run, np.array([sound[index][:3] for index in run]))


def _same_point(a: Sequence[float], b: Sequence[float]) -> bool:
    return math.dist(a[:3], b[:3]) <= SAME_POINT


def _runs(sound: Mapping[int, Sequence[float]]) -> list[list[int]]:
    """Indexes of neighbouring vertices, in as many runs as missing vertices and equal neighbours make of the path."""
    runs: list[list[int]] = []
    for index, vertex in sound.items():
        if index - 1 in sound and not _same_point(sound[index - 1], vertex):
            runs[-1].append(index)
        else:
            runs.append([index])
    return [run for run in runs if len(run) >= 3]


def _folds(run: list[int], points: np.ndarray) -> Iterator[Flaw]:
    """Vertices of one run, points of shape (n, 3), at which the path turns straight back."""
    turns_deg = turning_angles(segments(points)[1]) * DEGREES_PER_RADIAN
    for position in np.flatnonzero(turns_deg >= STRAIGHT_BACK_DEG):
        vertex = run[position] + 2  # the turns begin at the second vertex of the run, and people count from 1
        yield Flaw(
            place=(vertex - 1,),
            expected=f"a turn of less than 180° at vertex {vertex}",
            found=f"a path that folds straight back from vertex {vertex - 1} to {vertex + 1}",
        )
