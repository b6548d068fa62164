"""From a part and a machine to a program, or to every limit that forbids one.

What only some parts need, offsets, routes and cures, is imported where it is used: an operator waits for the rest.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from bendgen.bending.allowances import AllowanceCurves
from bendgen.bending.blank import BlankPlan, plan_blank
from bendgen.bending.commands import Commands, exact_feeds, positions_from_feeds, rear_straight, rounded_commands
from bendgen.bending.compensation import compensated_bends
from bendgen.bending.corrected_plan import aimed_off, beyond_commands, corrected_curves, with_lost_motion
from bendgen.bending.die_curves import table_and_curves
from bendgen.bending.envelope import swings
from bendgen.bending.job import Job, Made
from bendgen.bending.layout import Layout, layout_of_part
from bendgen.bending.machine_limits import check_job
from bendgen.bending.modelled_machine import Moves, Played, play
from bendgen.bending.other_clr import other_dies_text
from bendgen.bending.program_of_job import program_of_job
from bendgen.bending.tooling import die_for_bend
from bendgen.errors import ToolingError
from bendgen.records.allowances import AllowanceTable
from bendgen.records.bend_program import Plan
from bendgen.records.findings import Finding
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part
from bendgen.records.tooling import DieSet

if TYPE_CHECKING:
    from bendgen.records.offset import OffsetSolution
    from bendgen.records.route import Route


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
    if part.route is not None:
        return _plan_route(part, profile)
    misfits = _offset_misfits(part, profile)
    if misfits:
        from bendgen.bending.offset_limits import with_offset_cures  # noqa: PLC0415

        misfits = with_offset_cures(misfits, part, profile, broken_limits)
        return Plan(part=part, profile=profile, findings=misfits, program=None)
    job = job_of_part(part, profile)
    findings = check_job(job)
    if _limits(findings):
        from bendgen.bending.cures import with_cures  # noqa: PLC0415

        return Plan(part=part, profile=profile, findings=with_cures(findings, job, broken_limits), program=None)
    return Plan(part=part, profile=profile, findings=findings, program=program_of_job(job, findings))


def _plan_route(part: Part, profile: MachineProfile) -> Plan:
    """Program for the best route that breaks no limit; else the limits of the first, with cures."""
    from bendgen.bending.cures import with_cures  # noqa: PLC0415
    from bendgen.bending.route import check_routes, routes_of_part  # noqa: PLC0415
    from bendgen.bending.route_cures import with_route_cures  # noqa: PLC0415

    routes = routes_of_part(part, profile)
    broken = check_routes(routes)
    if broken:
        broken = with_route_cures(broken, routes, part, profile, broken_limits)
        return Plan(part=part, profile=profile, findings=broken, program=None)
    job, findings = _best_routed(part, routes, profile)
    if _limits(findings):
        findings = with_cures(findings, job, broken_limits)
        return Plan(part=part, profile=profile, findings=findings, program=None)
    return Plan(part=job.part, profile=profile, findings=findings, program=program_of_job(job, findings))


def _best_routed(part: Part, routes: "Sequence[Route]", profile: MachineProfile) -> tuple[Job, tuple[Finding, ...]]:
    """Part on the first route that breaks no limit, else on the first that fits between the ports."""
    from bendgen.bending.route import fitting_routes, with_route  # noqa: PLC0415

    jobs = (job_of_part(with_route(part, route), profile) for route in fitting_routes(routes))
    judged = ((job, check_job(job)) for job in jobs)
    first = next(judged)
    if not _limits(first[1]):
        return first
    return next((one for one in judged if not _limits(one[1])), first)


def broken_limits(part: Part, profile: MachineProfile) -> tuple[Finding, ...]:
    """Limits that a changed part would break."""
    if part.route is not None:
        return _broken_route_limits(part, profile)
    return _offset_misfits(part, profile) or _limits(check_job(job_of_part(part, profile)))


def _broken_route_limits(part: Part, profile: MachineProfile) -> tuple[Finding, ...]:
    """Limits that a part broke whose route is looked for anew, whatever path it has been given before."""
    from bendgen.bending.route import check_routes, routes_of_part  # noqa: PLC0415

    routes = routes_of_part(part, profile)
    return check_routes(routes) or _limits(_best_routed(part, routes, profile)[1])


def _limits(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    return tuple(finding for finding in findings if finding.level == "limit")


def _offset_misfits(part: Part, profile: MachineProfile) -> tuple[Finding, ...]:
    """Why nothing makes the offset that the part asks for; empty where something does, or none is asked for."""
    if part.offset is None:
        return ()
    from bendgen.bending.offset_limits import check_offset  # noqa: PLC0415

    return check_offset(part, profile)


def _with_offset_solved(part: Part, profile: MachineProfile) -> "tuple[OffsetSolution | None, Part]":
    """Solution of the part's offset, and the part along its path; the part itself where it asks for none."""
    if part.offset is None:
        return None, part
    from bendgen.bending.offset import offset_of_part, with_path  # noqa: PLC0415

    offset = offset_of_part(part, profile)
    return offset, with_path(part, offset)


def job_of_part(part: Part, profile: MachineProfile) -> Job:
    """Part laid out on its dies, compensated, played forward; raises as `plan_part` does."""
    offset, drawn = _with_offset_solved(part, profile)
    layout = layout_of_part(drawn)
    dies, tables, curves = _tooling(part, profile, layout)
    bends = with_lost_motion(compensated_bends(layout, dies, curves), part.correction)
    blank = plan_blank(part, profile, bends)
    more_feed, more_turn = beyond_commands(part.correction, len(dies), profile.output)
    commands = rounded_commands(aimed_off(bends, more_feed, more_turn), blank, profile)
    made = Made(
        feeds=commands.feeds + more_feed,
        rotations_deg=commands.rotations_deg + more_turn,
        rear=rear_straight(bends, blank, commands, fed_beyond=float(more_feed.sum())),
    )
    played = _played(made, commands, blank, profile)
    exact = exact_feeds(bends, blank.front_trim)
    return Job(
        part=part,
        profile=profile,
        layout=layout,
        bends=bends,
        tables=tables,
        blank=blank,
        positions=positions_from_feeds(exact, bends.used, blank.length, profile.carriage.grip),
        commands=commands,
        made=made,
        played=played,
        swings=swings(played, commands.turns_deg, bends.die_clr, part.tube.od, profile.bend.side),
        offset=offset,
    )


def _tooling(
    part: Part, profile: MachineProfile, layout: Layout
) -> tuple[tuple[DieSet, ...], tuple[AllowanceTable | None, ...], tuple[AllowanceCurves, ...]]:
    """Die, table and curves of each bend; each is looked up once."""
    of_clr = {clr: _die(part, profile, layout, clr) for clr in dict.fromkeys(layout.clr)}
    dies = tuple(of_clr[clr] for clr in layout.clr)
    of_die = {die.id: table_and_curves(part.tube, die, profile) for die in of_clr.values()}
    curves = corrected_curves([of_die[die.id][1] for die in dies], part.correction)
    return dies, tuple(of_die[die.id][0] for die in dies), curves


def _die(part: Part, profile: MachineProfile, layout: Layout, clr: float | None) -> DieSet:
    """Die for bends of that CLR; where there is none, the error tells what others would do to the straights."""
    try:
        return die_for_bend(part.tube, profile, named=part.die, clr=clr)
    except ToolingError as error:
        others = "" if clr is None else other_dies_text(layout, clr, part.tube.od, profile, part.units)
        raise ToolingError(f"{error}\n{others}" if others else str(error)) from None


def _played(made: Made, commands: Commands, blank: BlankPlan, profile: MachineProfile) -> Played:
    """The tube that the machine makes of its commands."""
    return play(
        Moves(
            feeds=made.feeds,
            rotations_deg=made.rotations_deg,
            angles_deg=commands.finished_deg,
            clr=commands.given.clr,
            front_trim=blank.front_trim,
            rear=made.rear,
            side=profile.bend.side,
        )
    )
