"""Limits on straights: what clamp, mandrel, pressure die and collet hold."""

from collections.abc import Iterator

import numpy as np

from bendgen.bending.blank import rear_straight_needed
from bendgen.bending.job import SPARE, Job, limit_in_mm
from bendgen.geometry.vectors import Array
from bendgen.records.findings import Finding
from bendgen.records.tooling import ContourClamp
from bendgen.units import RADIANS_PER_DEGREE, shorter_way

ROTATION_AGREES_DEG = 0.5  # a contoured clamp fits a rotation this close to its own; common practice, no source


def check_geometry(job: Job) -> Iterator[Finding]:
    """Straights that would be negative, with the largest CLR that fits."""
    for number, straight in enumerate(job.bends.straights.tolist(), start=1):
        if straight < -SPARE:
            step = min(number, len(job.bends.dies))
            text = f"straight {number} would be {job.length(straight)}: the bends at its ends overlap"
            if job.layout.segment_lengths is not None:
                largest = _largest_clr(job, job.layout.segment_lengths, number)
                text += f"; the largest CLR that fits is {job.length(largest)}"
            yield limit_in_mm("geometry", step, straight, 0.0, text)


def _largest_clr(job: Job, segment_lengths: Array, number: int) -> float:
    """Die CLR, common to the bends at both ends of a straight, at which that straight is zero [mm]."""
    bends = job.bends
    formed_per_die = np.where(bends.held, bends.clr / bends.die_clr, 1.0)
    per_clr = formed_per_die * np.tan(0.5 * bends.angles_deg * RADIANS_PER_DEGREE)
    ends = per_clr[max(number - 2, 0) : number]
    return float(segment_lengths[number - 1] / ends.sum())


def clamp_needed(job: Job, step: int) -> float:
    """Straight that the clamp of a bend needs: that of its contoured clamp where it fits the bend before [mm]."""
    die = job.bends.dies[step - 1]
    contour = die.contour
    if contour is None or step == 1 or not fits_rotation(contour, float(job.bends.rotations_deg[step - 1])):
        return die.clamp
    smallest, largest = contour.before_angle_deg
    fits = smallest - SPARE <= float(job.bends.commanded_deg[step - 2]) <= largest + SPARE
    return min(die.clamp, contour.shortest_between) if fits else die.clamp


def fits_rotation(contour: ContourClamp, rotation_deg: float) -> bool:
    """Whether a contoured clamp is cut for a bend behind that rotation [deg]."""
    turns = [abs(shorter_way(rotation_deg - fitting)) for fitting in contour.rotation_deg]
    return min(turns, default=360.0) <= ROTATION_AGREES_DEG


def check_clamp_and_mandrel(job: Job) -> Iterator[Finding]:
    """Straight ahead of every bend against its clamp and its mandrel; wall against the mandrel."""
    ahead_of = job.positions.straight_ahead.tolist()
    for step, (die, ahead) in enumerate(zip(job.bends.dies, ahead_of, strict=True), start=1):
        needed = clamp_needed(job, step)
        if ahead < needed - SPARE:
            text = f"{job.length(ahead)} of straight ahead; the clamp of '{die.id}' needs {job.length(needed)}"
            yield limit_in_mm("clamp", step, ahead, needed, text)
        mandrel = die.mandrel_ahead
        if mandrel is not None and ahead < mandrel - SPARE:
            text = f"{job.length(ahead)} of straight ahead; the mandrel of '{die.id}' needs {job.length(mandrel)}"
            yield limit_in_mm("mandrel", step, ahead, mandrel, text)
    yield from _check_mandrel_walls(job)


def _check_mandrel_walls(job: Job) -> Iterator[Finding]:
    wall = job.part.tube.wall
    for step, die in enumerate(job.bends.dies, start=1):
        if die.walls is None or die.walls[0] - SPARE <= wall <= die.walls[1] + SPARE:
            continue
        thinnest, thickest = die.walls
        text = (
            f"wall {job.length(wall)}; the mandrel of '{die.id}' takes {job.length(thinnest)} to {job.length(thickest)}"
        )
        yield limit_in_mm("mandrel", step, wall, thinnest if wall < thinnest else thickest, text)


def check_pressure_die(job: Job) -> Iterator[Finding]:
    """Room for the pressure die between carriage and die, and its travel along the wound arc."""
    before_of = job.positions.carriage_before.tolist()
    wound_of = (job.bends.die_clr * job.bends.commanded_deg * RADIANS_PER_DEGREE).tolist()
    for step, (die, before, wound) in enumerate(zip(job.bends.dies, before_of, wound_of, strict=True), start=1):
        needed, travel = die.pressure_die, die.pressure_travel
        if needed is not None and before < needed - SPARE:
            text = (
                f"carriage {job.length(before)} from the tangent line; the pressure die of '{die.id}' "
                f"needs {job.length(needed)}"
            )
            yield limit_in_mm("pressure die", step, before, needed, text)
        if travel is not None and wound > travel + SPARE:
            text = f"{job.length(wound)} of tube is wound; the pressure die of '{die.id}' travels {job.length(travel)}"
            yield limit_in_mm("pressure die", step, wound, travel, text)


def check_grip(job: Job) -> Iterator[Finding]:
    """Straight behind the last bend, rear trim included, against what the collet needs."""
    if not job.bends.dies:
        return
    rear = float(job.bends.straights[-1]) + job.blank.rear_trim
    needed = rear_straight_needed(job.profile)
    if rear < needed - SPARE:
        text = f"{job.length(rear)} of straight behind the last bend; the collet needs {job.length(needed)}"
        yield limit_in_mm("grip", len(job.bends.dies), rear, needed, text)
