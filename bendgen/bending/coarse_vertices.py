"""Whether a drawing's rounded coordinates have turned a round angle into an odd one."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from bendgen.bending.job import Job, remark
from bendgen.geometry.rounding_reach import rotation_reach, turn_reach
from bendgen.geometry.vectors import Array
from bendgen.records.findings import Finding
from bendgen.records.part import Centreline
from bendgen.units import DEGREES_PER_RADIAN, MM_PER_UNIT, Units

GRIDS = (1.0, 0.1, 0.01, 0.001)  # steps to which drawings round, in the unit of the part's file
ON_GRID = 1e-6  # of a step
ROUND_ANGLE_DEG = 15.0  # people bend to multiples of it
NOT_WORTH_TELLING_DEG = 0.005
# A round angle was hardly meant where it is missed by more than this, or by more than half of what rounding could do.
FARTHEST_DEG = 0.5
LIKELY_SHARE = 0.5


def check_coarse_vertices(job: Job) -> Iterator[Finding]:
    """Cautions for bends and rotations that miss a multiple of 15° by what rounded coordinates can explain."""
    centreline, vertices = job.part.centreline, job.layout.vertices
    if centreline is None or vertices is None or not job.bends.dies:
        return
    turns, rotations = job.layout.angles_deg, job.layout.rotations_deg[1:]
    odd_turns = _nearly_round(turns) & (turns > ROUND_ANGLE_DEG / 2.0)
    odd_rotations = _nearly_round(rotations)
    if not (odd_turns.any() or odd_rotations.any()):
        return
    grid = _grid(centreline, job.units)
    if grid is None:
        return
    half_step_deg = 0.5 * grid * MM_PER_UNIT[job.units] * DEGREES_PER_RADIAN
    step_text = f"{grid:g} {job.units}"
    explained = _missed_by(turns) <= LIKELY_SHARE * half_step_deg * turn_reach(vertices)
    for i in np.flatnonzero(odd_turns & explained).tolist():
        yield remark("geometry", "caution", i + 1, _text("bend", float(turns[i]), step_text))
    if odd_rotations.any():
        explained = _missed_by(rotations) <= LIKELY_SHARE * half_step_deg * rotation_reach(vertices)
        for i in np.flatnonzero(odd_rotations & explained).tolist():
            yield remark("geometry", "caution", i + 2, _text("rotation", float(rotations[i]), step_text))


def _missed_by(angles_deg: Array) -> Array:
    return np.abs(angles_deg - np.round(angles_deg / ROUND_ANGLE_DEG) * ROUND_ANGLE_DEG)


def _nearly_round(angles_deg: Array) -> NDArray[np.bool_]:
    missed_by = _missed_by(angles_deg)
    return (missed_by > NOT_WORTH_TELLING_DEG) & (missed_by <= FARTHEST_DEG)


def _grid(centreline: Centreline, units: Units) -> float | None:
    """Coarsest step, in the unit of the part's file, of which every coordinate is a multiple; None if there is none."""
    coordinates = np.array([(v.x, v.y, v.z) for v in centreline.vertices]) / MM_PER_UNIT[units]
    for grid in GRIDS:
        steps = coordinates / grid
        if np.abs(steps - np.round(steps)).max() < ON_GRID:
            return grid
    return None


def _text(what: str, angle_deg: float, step: str) -> str:
    meant = round(angle_deg / ROUND_ANGLE_DEG) * ROUND_ANGLE_DEG
    return f"{what} of {angle_deg:.3f}°: vertices rounded to {step} can make that of {meant:g}°; see which is meant"
