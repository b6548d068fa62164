"""Changes that might cure a finding, rule by rule; `cures` tries them."""

from collections.abc import Callable, Iterator
from typing import Literal

from bendgen.bending.changed_part import ChangedPart, rounded_down, rounded_up
from bendgen.bending.changes import (
    from_other_end,
    longer_straight,
    longer_trim,
    merged_vertices,
    other_angle,
    other_blank,
    other_clr,
    other_die,
    other_wall,
    trim_allowed,
)
from bendgen.bending.compensation import finished_for_bends
from bendgen.bending.hands import OTHER_END
from bendgen.bending.job import Job
from bendgen.bending.limits_moves import largest_bend, smallest_bend
from bendgen.bending.tooling import OD_AGREES
from bendgen.geometry.vectors import Array
from bendgen.records.findings import Finding

CONTACT_SHARES = (1.1, 3.0)  # of what is missing between two places: straight away, and at a slant
ROUTE_SHARE = 1.05  # of an excess; a route that is found anew may gain less than its port was moved

Candidates = Iterator[ChangedPart]


def candidates(finding: Finding, job: Job) -> Candidates:
    """Changes that might remove a finding, none of them tried yet."""
    by_rule: dict[str, Callable[[Finding, Job], Candidates]] = {
        "clamp": _for_straight_ahead,
        "mandrel": _for_straight_ahead,
        "geometry": _for_overlap,
        "pressure die": _for_pressure_die,
        "grip": _for_grip,
        "carriage": _for_long_blank,
        "blank": _for_blank,
        "bend": _for_bend,
        "table": _for_table,
        "rotation": _for_swing,
        "floor": _for_swing,
        "feed": _for_feed,
        "tube": _other_tooling,
        "shape": _for_shape,
    }
    yield from by_rule[finding.rule](finding, job)


def _short_by(finding: Finding) -> float:
    assert finding.value is not None  # rules with cures have both
    assert finding.limit is not None
    return finding.limit - finding.value


def _other_tooling(finding: Finding, job: Job) -> Candidates:
    """Every other die set for this tube: named for the part, or by its CLR where the part asks for a CLR."""
    step = finding.step or 1
    used = job.bends.dies[step - 1]
    for die in job.profile.dies:
        if die.id == used.id or abs(die.tube_od - job.part.tube.od) > OD_AGREES:
            continue
        if job.layout.clr[step - 1] is None:
            yield other_die(job.part, die.id)
        else:
            yield other_clr(job.part, job.layout, step, die.clr)


def _for_straight_ahead(finding: Finding, job: Job) -> Candidates:
    step, short = finding.step or 1, _short_by(finding)
    if step == 1:
        yield from _more_trim(job, "front", short)
    yield longer_straight(job.part, job.layout, step, short)
    yield from _other_tooling(finding, job)
    yield from_other_end(job.part)


def _more_trim(job: Job, end: Literal["front", "rear"], extra: float) -> Candidates:
    """More material at an end as bent, or leave to have trim there at all."""
    trim, other_end = job.part.trim, OTHER_END[end]
    if trim in (other_end, "none"):
        yield trim_allowed(job.part, "both" if trim == other_end else end)
    else:
        yield _longer_end(job, end, extra)


def _longer_end(job: Job, end: Literal["front", "rear"], extra: float) -> ChangedPart:
    """More trim at an end as bent; a file that fixes the blank says it by the blank at what the file calls the rear."""
    part = job.part
    filed_rear = (end == "rear") != part.from_rear
    if part.blank is not None and filed_rear:
        return other_blank(part, rounded_up(job.blank.length + extra, part.units))
    present = job.blank.front_trim if end == "front" else job.blank.rear_trim
    return longer_trim(part, end, present + extra)


def _for_overlap(finding: Finding, job: Job) -> Candidates:
    for number, straight in enumerate(job.bends.straights.tolist(), start=1):
        if straight == finding.value:
            yield longer_straight(job.part, job.layout, number, -straight)
    if finding.limit == job.part.tube.od:
        yield from _for_contact(finding, job)
    yield from _other_tooling(finding, job)


def _for_contact(finding: Finding, job: Job) -> Candidates:
    """Move what touches apart along any straight between two bends, for none knows which of them leads away."""
    for number in range(2, len(job.bends.straights)):
        for share in CONTACT_SHARES:
            yield longer_straight(job.part, job.layout, number, share * _short_by(finding))


def _for_pressure_die(finding: Finding, job: Job) -> Candidates:
    short = _short_by(finding)
    if short > 0.0:
        yield from _more_trim(job, "rear", short)
        yield longer_straight(job.part, job.layout, len(job.bends.straights), short)
    yield from _other_tooling(finding, job)
    yield from_other_end(job.part)


def _for_grip(finding: Finding, job: Job) -> Candidates:
    short = _short_by(finding)
    yield from _more_trim(job, "rear", short)
    yield longer_straight(job.part, job.layout, len(job.bends.straights), short)
    yield from_other_end(job.part)


def _for_long_blank(finding: Finding, job: Job) -> Candidates:
    """A blank too long to load or to carry: take the length out of a straight that has it to spare."""
    excess = -_short_by(finding)
    if job.part.blank is not None:
        yield other_blank(job.part, rounded_down(job.blank.length - excess, job.part.units))
    straights = job.bends.straights.tolist()
    share = 1.0 if job.part.route is None else ROUTE_SHARE
    for number in sorted(range(1, len(straights) + 1), key=lambda n: -straights[n - 1]):
        yield longer_straight(job.part, job.layout, number, -share * excess - _saw_stop(job))
    yield from_other_end(job.part)


def _saw_stop(job: Job) -> float:
    """Length by which a blank may be rounded up [mm]."""
    return job.profile.blank.resolution or 0.0


def _for_blank(finding: Finding, job: Job) -> Candidates:
    short = _short_by(finding)
    if short < 0.0:
        yield from _for_long_blank(finding, job)
        return
    if job.part.blank is not None:
        yield other_blank(job.part, rounded_up(job.blank.length + short, job.part.units))
    else:
        yield from _more_trim(job, "rear", short)


def _for_bend(finding: Finding, job: Job) -> Candidates:
    step = finding.step or 1
    die = job.bends.dies[step - 1]
    short = _short_by(finding)
    if short > 0.0 and job.part.centreline is not None:
        turn = float(job.bends.angles_deg[step - 1])
        yield merged_vertices(job.part, round(turn * 1.001 + 0.0005, 3))
    if job.part.steps is not None:
        commanded = (smallest_bend if short > 0.0 else largest_bend)(job.profile, die)
        yield other_angle(job.part, step, _angle_inside(job, step, commanded, short))
    yield from _other_tooling(finding, job)


def _angle_inside(job: Job, step: int, commanded_deg: float, short: float) -> float:
    """Finished angle, in hundredths of a degree, that stays on the right side of a commanded limit."""
    limit: Array = job.bends.commanded_deg[:1] * 0.0 + commanded_deg
    finished = float(finished_for_bends(job.bends.curves[step - 1 : step], limit)[0])
    hundredths = 100.0 * (max(finished, commanded_deg) if short > 0.0 else finished)
    return float(-(-hundredths // 1.0) if short > 0.0 else hundredths // 1.0) / 100.0


def _for_table(finding: Finding, job: Job) -> Candidates:
    if job.part.steps is not None and finding.limit is not None:
        hundredths = finding.limit * 100.0 // 1.0
        yield other_angle(job.part, finding.step or 1, hundredths / 100.0)
    yield from _other_tooling(finding, job)


def _for_swing(finding: Finding, job: Job) -> Candidates:
    yield from_other_end(job.part)
    if finding.rule == "floor":
        for number in range(1, finding.step or 1):
            yield longer_straight(job.part, job.layout, number, _short_by(finding))
            yield longer_straight(job.part, job.layout, number, 2.0 * _short_by(finding))


def _for_feed(finding: Finding, job: Job) -> Candidates:
    short = _short_by(finding)
    step = finding.step or 1
    if step == 1 and short > 0.0:
        yield from _more_trim(job, "front", short)
    yield longer_straight(job.part, job.layout, step, short)
    yield from_other_end(job.part)


def _for_shape(finding: Finding, job: Job) -> Candidates:
    if finding.step is not None:
        if finding.limit is not None and finding.value == job.part.tube.wall:  # a code asks for more wall
            yield other_wall(job.part, rounded_up(finding.limit, job.part.units))
        yield from _other_tooling(finding, job)
        return
    assert finding.limit is not None  # a wall factor has one
    yield other_wall(job.part, rounded_up(job.part.tube.od / finding.limit, job.part.units))
