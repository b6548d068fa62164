"""From a part and a machine to a program, or to every limit that forbids one."""

import numpy as np

from bendgen.bending.allowances import basis_at
from bendgen.bending.blank import NO_TRIM, BlankPlan, blank_with_marks, plan_blank
from bendgen.bending.checks import STRAIGHTEDGES_MEET_UP_TO_DEG, Predicted, checks_of, outer_apex_leg
from bendgen.bending.commands import Commands, exact_feeds, machine_steps, positions_from_feeds, rounded_commands
from bendgen.bending.compensation import Bends, compensated_bends
from bendgen.bending.cures import with_cures
from bendgen.bending.die_curves import table_and_curves
from bendgen.bending.envelope import swings
from bendgen.bending.job import Job
from bendgen.bending.layout import layout_of_part, marks_of_layout
from bendgen.bending.machine_limits import check_job
from bendgen.bending.modelled_machine import Moves, play
from bendgen.bending.offset import offset_of_part, with_path
from bendgen.bending.offset_limits import check_offset, with_offset_cures
from bendgen.bending.shapes import bent_tube, laid_on, solid_of_played, wanted_solid, wanted_tube
from bendgen.bending.tooling import die_for_bend
from bendgen.bending.trial_piece import trial_reasons
from bendgen.records.bend_program import BendProgram, BendStep, Blank, Plan
from bendgen.records.bent_tube import BentTube
from bendgen.records.findings import Finding
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part
from bendgen.units import RADIANS_PER_DEGREE


def plan_part(part: Part, profile: MachineProfile) -> Plan:
    """Program for a part, or the limits that forbid one, each with cures that were tried.

    Parameters
    ----------
    part : as it will be bent; `bendgen.bending.hands` makes the other hand or starts from the other end
    profile : the machine

    Raises
    ------
    GeometryError
        the vertices describe no tube
    ToolingError
        no die set, or neither a table nor material data serves, or two serve equally
    """
    misfits = check_offset(part, profile)
    if misfits:
        misfits = with_offset_cures(misfits, part, profile, _broken_limits)
        return Plan(part=part, profile=profile, findings=misfits, program=None)
    job = job_of_part(part, profile)
    findings = check_job(job)
    if any(finding.level == "limit" for finding in findings):
        return Plan(part=part, profile=profile, findings=with_cures(findings, job, _broken_limits), program=None)
    return Plan(part=part, profile=profile, findings=findings, program=_program_of_job(job, findings))


def _broken_limits(part: Part, profile: MachineProfile) -> tuple[Finding, ...]:
    """Limits that a changed part would break."""
    return check_offset(part, profile) or tuple(f for f in check_job(job_of_part(part, profile)) if f.level == "limit")


def job_of_part(part: Part, profile: MachineProfile) -> Job:
    """Part laid out on its dies, compensated, played forward; raises as `plan_part` does."""
    offset = offset_of_part(part, profile)
    layout = layout_of_part(with_path(part, offset))
    dies = tuple(die_for_bend(part.tube, profile, named=part.die, clr=clr) for clr in layout.clr)
    learned = [table_and_curves(part.tube, die, profile) for die in dies]
    bends = compensated_bends(layout, dies, tuple(curves for _, curves in learned))
    blank = plan_blank(part, profile, bends)
    commands = rounded_commands(bends, blank, profile)
    rear = rear_straight(bends, blank, commands)
    played = play(
        Moves(
            feeds=commands.feeds,
            rotations_deg=commands.rotations_deg,
            angles_deg=commands.finished_deg,
            clr=commands.given.clr,
            front_trim=blank.front_trim,
            rear=rear,
            side=profile.bend.side,
        )
    )
    exact = exact_feeds(bends, blank.front_trim)
    return Job(
        part=part,
        profile=profile,
        layout=layout,
        bends=bends,
        tables=tuple(table for table, _ in learned),
        blank=blank,
        positions=positions_from_feeds(exact, bends.used, blank.length, profile.carriage.grip),
        commands=commands,
        played=played,
        swings=swings(played, commands.turns_deg, bends.die_clr, part.tube.od, profile.bend.side),
        offset=offset,
    )


def rear_straight(bends: Bends, blank: BlankPlan, commands: Commands) -> float:
    """Straight behind the last bend: cut to the wanted length, or whatever is left where nothing is cut [mm]."""
    if blank.rear_trim > NO_TRIM or not bends.dies:
        return float(bends.straights[-1])
    return float(blank.length - commands.positions.passed[-1] - commands.used[-1])


def _program_of_job(job: Job, findings: tuple[Finding, ...]) -> BendProgram:
    commands, bends = job.commands, job.bends
    finished = _finished_tube(job)
    asked_for = wanted_tube(job.layout, bends)
    wanted = wanted_solid(job.layout, asked_for)
    predicted, deviation = laid_on(solid_of_played(job.played, commands.finished_deg, commands.given.clr), wanted)
    blank = _blank_of_job(job, finished)
    checks = checks_of(Predicted(part=job.part, tube=finished, solid=predicted, wanted=wanted, blank=blank))
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
        checks=checks,
        findings=findings,
        trial_piece=trial_reasons(findings),
        offset=job.offset,
    )


def _finished_tube(job: Job) -> BentTube:
    """What the rounded commands leave after cutting: the rear is cut to length, measured from the last bend."""
    commands = job.commands
    straights = np.append(commands.feeds, rear_straight(job.bends, job.blank, commands))
    if commands.feeds.size:
        straights[0] -= job.blank.front_trim
    return bent_tube(straights, commands.finished_deg, commands.rotations_deg, commands.given.clr)


def _blank_of_job(job: Job, finished: BentTube) -> Blank:
    leg = None
    if finished.bends and finished.bends[-1].angle_deg <= STRAIGHTEDGES_MEET_UP_TO_DEG:
        last = finished.bends[-1]
        leg = outer_apex_leg(finished.straights[-1], last.clr, last.angle_deg, job.part.tube.od)
    return blank_with_marks(job.blank, rear_straight=finished.straights[-1], outer_apex_leg=leg)


def _steps(job: Job) -> tuple[BendStep, ...]:
    commands, bends = job.commands, job.bends
    given, at = commands.given, commands.positions
    rear = float(bends.straights[-1]) + job.blank.rear_trim
    carriage = job.profile.carriage
    opens = carriage.open_before_last and rear < carriage.grip + carriage.closest
    last = len(bends.dies) - 1
    columns = zip(
        bends.dies,
        bends.curves,
        bends.held.tolist(),
        job.swings,
        commands.feeds.tolist(),
        commands.rotations_deg.tolist(),
        commands.commanded_deg.tolist(),
        commands.finished_deg.tolist(),
        given.clr.tolist(),
        given.springback_deg.tolist(),
        given.elongation.tolist(),
        given.slope.tolist(),
        at.carriage_before.tolist(),
        at.carriage_after.tolist(),
        at.passed.tolist(),
        strict=True,
    )
    return tuple(
        BendStep(
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
            basis=basis_at(curves, float(bends.angles_deg[i])),
            swing=swing,
            width_change=None if held else 2.0 * (clr - die.clr),
            collet_open=opens and i == last,
        )
        for i, (
            die,
            curves,
            held,
            swing,
            feed,
            rotation,
            commanded,
            finished,
            clr,
            springback,
            elongation,
            slope,
            before,
            after,
            passed,
        ) in enumerate(columns)
    )
