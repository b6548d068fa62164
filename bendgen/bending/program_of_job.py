"""A job that breaks no limit, written up as a program: steps, blank, shapes, checks."""

from dataclasses import replace

import numpy as np

from bendgen.bending.allowances import basis_at
from bendgen.bending.bendability import bendability
from bendgen.bending.blank import blank_with_marks
from bendgen.bending.checks import STRAIGHTEDGES_MEET_UP_TO_DEG, Predicted, checks_of, outer_apex_leg
from bendgen.bending.commands import machine_steps
from bendgen.bending.estimate_bands import with_bands
from bendgen.bending.job import Job
from bendgen.bending.layout import marks_of_layout
from bendgen.bending.seam import seam_positions
from bendgen.bending.shapes import bent_tube, laid_on, solid_of_played, wanted_solid, wanted_tube
from bendgen.bending.tooling import material_for_tube
from bendgen.bending.trial_piece import trial_reasons
from bendgen.records.bend_program import BendProgram, BendStep, Blank, EndLeft
from bendgen.records.bent_tube import BentTube
from bendgen.records.findings import Finding
from bendgen.units import RADIANS_PER_DEGREE


def program_of_job(job: Job, findings: tuple[Finding, ...]) -> BendProgram:
    """Program of a job, with the findings to print on its sheet."""
    commands, bends = job.commands, job.bends
    finished = _finished_tube(job)
    asked_for = wanted_tube(job.layout, bends)
    wanted = wanted_solid(job.layout, asked_for)
    predicted, deviation = laid_on(solid_of_played(job.played, commands.finished_deg, commands.given.clr), wanted)
    blank = _blank_of_job(job, finished)
    reading = Predicted(part=job.part, tube=finished, solid=predicted, wanted=wanted, blank=blank)
    arcs = bends.clr * bends.angles_deg * RADIANS_PER_DEGREE
    return BendProgram(
        part=job.part,
        profile=job.profile,
        dies=tuple(dict.fromkeys(bends.dies)),
        tables=tuple(dict.fromkeys(table for table in job.tables if table is not None)),
        blank=blank,
        steps=_steps(job),
        machine_steps=machine_steps(commands, bends, job.profile),
        wanted=wanted.shape(),
        predicted=predicted.shape(),
        largest_deviation=deviation,
        wanted_tube=asked_for,
        finished=finished,
        marks=marks_of_layout(job.layout, bends.straights, arcs, bends.tangents),
        checks=with_bands(checks_of(reading), reading, bends.curves),
        findings=findings,
        trial_piece=trial_reasons(job),
        bendability=tuple(bendability(job.part, die) for die in dict.fromkeys(bends.dies)),
        ends=_ends_left(job, finished),
        offset=job.offset,
        estimated_from=material_for_tube(job.part.tube, job.profile) if None in job.tables else None,
    )


def _ends_left(job: Job, finished: BentTube) -> tuple[EndLeft, ...]:
    """Straight left at each end whose use the part names."""
    fits = (("front", job.part.front_fit, finished.straights[0]), ("rear", job.part.rear_fit, finished.straights[-1]))
    return tuple(
        EndLeft(end="front" if end == "front" else "rear", kind=fit.kind, needed=fit.straight, left=left)
        for end, fit, left in fits
        if fit is not None
    )


def _finished_tube(job: Job) -> BentTube:
    """What the rounded commands leave after cutting: the rear is cut to length, measured from the last bend."""
    commands = job.commands
    straights = np.append(job.made.feeds, job.made.rear)
    if commands.feeds.size:
        straights[0] -= job.blank.front_trim
    return bent_tube(straights, commands.finished_deg, job.made.rotations_deg, commands.given.clr)


def _blank_of_job(job: Job, finished: BentTube) -> Blank:
    leg = None
    if finished.bends and finished.bends[-1].angle_deg <= STRAIGHTEDGES_MEET_UP_TO_DEG:
        last = finished.bends[-1]
        leg = outer_apex_leg(finished.straights[-1], last.clr, last.angle_deg, job.part.tube.od)
    return blank_with_marks(job.blank, rear_straight=finished.straights[-1], outer_apex_leg=leg)


def _steps(job: Job) -> tuple[BendStep, ...]:
    commands, given, at = job.commands, job.commands.given, job.commands.positions
    figures = np.stack(
        (
            commands.feeds,
            commands.rotations_deg,
            commands.commanded_deg,
            commands.finished_deg,
            given.clr,
            given.springback_deg,
            given.elongation,
            given.slope,
            at.carriage_before,
            at.carriage_after,
            at.passed,
        ),
        axis=1,
    )
    steps = tuple(_step(job, i, row) for i, row in enumerate(figures.tolist()))
    return _with_seam(steps, job.part.tube.seam_deg)


def _step(job: Job, i: int, figures: list[float]) -> BendStep:
    """Step of bend i from its row of figures."""
    feed, rotation, commanded, finished, clr, springback, elongation, slope, before, after, passed = figures
    bends, die = job.bends, job.bends.dies[i]
    return BendStep(
        number=i + 1,
        die=die.id,
        feed=feed,
        rotation_deg=rotation,
        bend_deg=commanded,
        carriage_before=before,
        carriage_after=after,
        passed=passed,
        straight_ahead=feed,
        finished_angle_deg=finished,
        formed_clr=clr,
        springback_deg=springback,
        elongation=elongation,
        slope=slope,
        basis=basis_at(bends.curves[i], float(bends.angles_deg[i])),
        swing=job.swings[i],
        width_change=None if bends.held[i] else 2.0 * (clr - die.clr),
        collet_open=i == len(bends.dies) - 1 and _collet_opens(job),
    )


def _collet_opens(job: Job) -> bool:
    """Whether the collet must open before the last bend, because the rear straight is too short to hold."""
    carriage = job.profile.carriage
    rear = float(job.bends.straights[-1]) + job.blank.rear_trim
    return carriage.open_before_last and rear < carriage.grip + carriage.closest


def _with_seam(steps: tuple[BendStep, ...], seam_deg: float | None) -> tuple[BendStep, ...]:
    if seam_deg is None:
        return steps
    positions = seam_positions(seam_deg, [step.rotation_deg for step in steps])
    return tuple(replace(step, seam_deg=position) for step, position in zip(steps, positions, strict=True))
