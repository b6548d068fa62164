"""Whether the tube meets itself after any step.

A quick look at the legs between vertices clears almost every part; only where that leaves a doubt is the tube
followed in small pieces.
"""

from collections.abc import Iterator
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from bendgen.bending.compensation import HELD_UP_TO_DEG
from bendgen.bending.job import SPARE, Job, limit_in_mm
from bendgen.geometry.clearances import closest_approach, segment_distances
from bendgen.geometry.extents import arc_points
from bendgen.geometry.vectors import Array, lengths
from bendgen.records.findings import Finding
from bendgen.units import RADIANS_PER_DEGREE

PIECES_PER_OD = 8  # a distance is then too large by at most 0.2 % of the OD
# Along a bend, points nearer than this along the tube are nearer than the OD without touching: a quarter turn on the
# tightest bend there can be, whose CLR is half the OD, is π / 4 OD long; twice that is clear of every wider bend.
NEIGHBOURS_IN_OD = np.pi / 2.0


def check_self_contact(job: Job) -> Iterator[Finding]:
    """Limit for the first step after which two places of the tube are closer than its OD."""
    bends = len(job.bends.dies)
    if bends < 2 and not (job.commands.finished_deg > HELD_UP_TO_DEG).any():
        return
    if job.bends.straights.min() < -SPARE or _clearly_apart(job):
        return
    od = job.part.tube.od
    for step in range(1, bends + 1):
        distance, places = _closest_after(job, step)
        if distance < od - SPARE:
            text = (
                f"the tube meets itself after this bend: its axis at {job.length(places[0])} and at "
                f"{job.length(places[1])} from the front end is {job.length(distance)} apart, OD {job.length(od)}"
            )
            yield limit_in_mm("geometry", step, distance, od, text)
            return


def behind_after(job: Job) -> Array:
    """Straight from the end of each bend to the rear end of the blank, just after that bend, (n,) array [mm]."""
    return job.blank.length - job.commands.positions.passed - job.commands.used


def _clearly_apart(job: Job) -> bool:
    """Whether legs that are no neighbours stay apart by more than the OD and all that arcs cut off the corners.

    Up to 150° the straights at both ends of a bend lead away from each other, so neighbours need no look.
    """
    finished = job.commands.finished_deg
    if (finished > HELD_UP_TO_DEG).any():
        return False
    vertices, points, directions = job.played.vertices, job.played.points, job.played.directions
    first, second = _pairs_of_legs(len(finished))
    front_end = vertices[:1] - job.blank.front_trim * directions[:1]
    starts = np.concatenate((front_end, vertices[1:-1]))
    rear_ends = points[2::2][: len(finished)] + behind_after(job)[:, None] * directions[1:]
    apart = segment_distances(starts[first], vertices[first + 1], vertices[second], rear_ends[second - 1])
    corner = job.commands.given.clr * (1.0 / np.cos(0.5 * finished * RADIANS_PER_DEGREE) - 1.0)
    needed = job.part.tube.od + 2.0 * float(corner.max())
    return bool((apart > needed).all())


@lru_cache(maxsize=64)
def _pairs_of_legs(bends: int) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Indices of every two legs with at least one leg between them."""
    return np.triu_indices(bends + 1, k=2)


def _closest_after(job: Job, step: int) -> tuple[float, tuple[float, float]]:
    """Closest two places of the axis after a step, and how far each is from the front end [mm]."""
    spacing = job.part.tube.od / PIECES_PER_OD
    path = _path_after(job, step)
    along = np.concatenate(([0.0], np.cumsum(lengths(np.diff(path, axis=0)))))
    places = np.linspace(0.0, along[-1], int(along[-1] / spacing) + 2)
    points = np.stack([np.interp(places, along, path[:, axis]) for axis in range(3)], axis=1)
    distance, first, second = closest_approach(points, places, NEIGHBOURS_IN_OD * job.part.tube.od)
    return distance, (float(places[first]), float(places[second]))


def _path_after(job: Job, step: int) -> Array:
    """The axis after a step as a path of short chords, from the front end to the rear end of the blank, (n, 3)."""
    points, directions = job.played.points, job.played.directions
    angles, clr = job.commands.finished_deg[:step] * RADIANS_PER_DEGREE, job.commands.given.clr[:step]
    last = points[2 * step]
    arcs = arc_points(points[1 : 2 * step : 2], points[2 : 2 * step + 1 : 2], directions[:step], angles, clr)
    front_end = points[0] - job.blank.front_trim * directions[0]
    rear_end = last + float(behind_after(job)[step - 1]) * directions[step]
    return np.concatenate((front_end[None], arcs.reshape(-1, 3), rear_end[None]))
