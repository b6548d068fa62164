"""Where points along a tube's axis bend: runs of points that turn, told from straights and from scatter.

Turns are judged between points so far apart that scatter cannot make them. A path given by few points on its straights
and many on its arcs, as drawings are broken up, is as good as one with a point every tenth of a millimetre.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bendgen.geometry.polylines import segments, turning_angles
from bendgen.geometry.vectors import Array, cross, lengths, unit

LARGEST_CLR = 500.0  # mm; a bend on a larger one may be taken for a straight where points scatter
STRAIGHT_SHARE = 0.62  # a segment between two bends that curves less than this share of both is a straight
OTHER_PLANE = np.radians(25.0)  # a run of turns whose plane changes by more is two bends without a straight between
LEAST_TURN = 1e-6  # rad


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Run:
    """A run of turning points: first and last index, sum of the turns [rad], normal of their plane, shape (3,).

    Both are the same where points turn at one place, and none is near enough to it to lie on the bend.
    """

    first: int
    last: int
    turn: float
    normal: Array


def bend_runs(points: Array, scatter: float) -> list[Run]:
    """Bends among points, in their order.

    Parameters
    ----------
    points : (n, 3) array, no two neighbours equal
    scatter : how far a point may lie off the axis [mm]
    """
    along = np.concatenate(([0.0], np.cumsum(lengths(np.diff(points, axis=0)))))
    # So far apart, a bend on the largest CLR rises off its chord by as much as points scatter: c² / (8 R).
    spacing = float(np.sqrt(8.0 * scatter * LARGEST_CLR))
    kept = spaced(along, spacing)
    if len(kept) < 3:
        return []
    length, directions = segments(points[kept])
    turns = turning_angles(directions)
    # Two points off to one side and the one between to the other turn a straight by up to 2 s / a + 2 s / b.
    turning = turns > LEAST_TURN + 4.0 * scatter / np.minimum(length[:-1], length[1:])
    normals = cross(directions[:-1], directions[1:])
    runs = []
    for start, stop in _stretches(turning):
        for first, last in _between_straights(directions, length, start, stop):
            for begin, end in _in_one_plane(normals[first:last], first):
                ends = _widened(along, int(kept[begin + 1]), int(kept[end]), 0.25 * spacing)
                normal = normals[begin:end].sum(axis=0)
                turn = float(turns[begin:end].sum())
                runs.append(Run(first=ends[0], last=ends[1], turn=turn, normal=unit(normal)))
    return runs


def _widened(along: Array, first: int, last: int, reach: float) -> tuple[int, int]:
    """First and last point of a bend; one that turns at a single place of those looked at is taken for a short arc.

    Without points on its arc nothing would tell a fit how large its radius is, and it would run away.
    """
    if first < last:
        return first, last
    begin = int(np.searchsorted(along, along[first] - reach))
    end = int(np.searchsorted(along, along[last] + reach, side="right")) - 1
    return max(begin, 1), min(end, len(along) - 2)


def spaced(along: Array, spacing: float) -> NDArray[np.intp]:
    """Indices of points at least `spacing` apart along the path, the first and the last among them.

    along : (n,) array, way along the path to every point
    """
    kept, last = [0], len(along) - 1
    while kept[-1] < last:
        following = max(kept[-1] + 1, int(np.searchsorted(along, along[kept[-1]] + spacing)))
        kept.append(min(following, last))
    if len(kept) > 2 and along[last] - along[kept[-2]] < 0.5 * spacing:
        del kept[-2]
    return np.array(kept)


def _stretches(flags: NDArray[np.bool_]) -> Iterator[tuple[int, int]]:
    """Start and end, one past the last, of each stretch of true flags."""
    edges = np.flatnonzero(np.diff(np.concatenate(([False], flags, [False])).astype(np.int8)))
    yield from zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True)


def _between_straights(directions: Array, length: Array, start: int, stop: int) -> Iterator[tuple[int, int]]:
    """Parts of a stretch of turns, as start and end of turns, that no straight interrupts.

    Turn k lies between segments k and k + 1; a straight of one segment only has turns at both of its ends.
    """
    if stop - start < 3:
        yield start, stop
        return
    inner = np.arange(start + 1, stop)  # segments with a turn of this stretch at either end
    curvature = lengths(directions[inner + 1] - directions[inner - 1]) / (2.0 * length[inner])
    higher = np.minimum(np.maximum.accumulate(curvature), np.maximum.accumulate(curvature[::-1])[::-1])
    begin = start
    for segment in inner[curvature < STRAIGHT_SHARE * higher].tolist():
        if segment > begin:
            yield begin, segment
        begin = segment
    yield begin, stop


def _in_one_plane(normals: Array, offset: int) -> Iterator[tuple[int, int]]:
    """Parts of a run of turns, with their normals (n, 3), in which the plane stays the same; counted from `offset`.

    The turn between two planes belongs to both bends: it ends the first and begins the second.
    """
    planes = normals / lengths(normals)[:, None]
    begin = 0
    if len(planes) > 2:
        changes = np.sum(planes[:-2] * planes[2:], axis=1) < np.cos(OTHER_PLANE)
        for start, stop in _stretches(changes):
            turn = (start + stop + 1) // 2  # the middle of the change; change k is centred on turn k + 1
            yield offset + begin, offset + turn + 1
            begin = turn
    yield offset + begin, offset + len(planes)
