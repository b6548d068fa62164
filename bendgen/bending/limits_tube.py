"""Limits on the tube itself: its size against the die, the blank, and what the bend does to the wall."""

from collections.abc import Iterator

from bendgen.bending.blank import NO_TRIM, STAYS_ON, sawn_length
from bendgen.bending.job import SPARE, Job, limit_in_mm, remark
from bendgen.bending.tooling import OD_AGREES
from bendgen.geometry.bendability import thinning_share, wall_factor
from bendgen.records.findings import Finding


def check_tube(job: Job) -> Iterator[Finding]:
    """OD against the groove of every die; the wall fits the table, else that table was not chosen."""
    od = job.part.tube.od
    for step, die in enumerate(job.bends.dies, start=1):
        if abs(od - die.tube_od) > OD_AGREES:
            text = f"tube OD {job.length(od)}; die '{die.id}' is for {job.length(die.tube_od)}"
            yield limit_in_mm("tube", step, od, die.tube_od, text)


def check_blank(job: Job) -> Iterator[Finding]:
    """Blank against what can be loaded, and against the part it must yield."""
    blank, limits = job.blank, job.profile.blank
    missing = min(blank.front_trim, blank.rear_trim)
    if missing < -SPARE:
        needed = blank.length - missing
        text = f"the blank is {job.length(blank.length)}; the part and its trims need {job.length(needed)}"
        yield limit_in_mm("blank", None, blank.length, needed, text)
    if blank.length < limits.shortest - SPARE:
        text = f"the blank is {job.length(blank.length)}; the shortest to load is {job.length(limits.shortest)}"
        yield limit_in_mm("blank", None, blank.length, limits.shortest, text)
    if blank.length > limits.longest + SPARE:
        text = f"the blank is {job.length(blank.length)}; the longest to load is {job.length(limits.longest)}"
        yield limit_in_mm("blank", None, blank.length, limits.longest, text)


def check_shape(job: Job) -> Iterator[Finding]:
    """Thinning and wall factor against the stricter of the part's and the profile's limits."""
    tube = job.part.tube
    part, profile = job.part.limits, job.profile.limits
    thinnest = _stricter(part.thinning_percent, profile.thinning_percent)
    for step, die in enumerate(job.bends.dies, start=1):
        thinning = 100.0 * thinning_share(tube.od, die.clr)
        if thinnest is not None and thinning > thinnest + SPARE:
            text = f"outer wall thins by {thinning:.1f} % (volume-kept estimate); the limit is {thinnest:g} %"
            yield Finding(rule="shape", level="limit", step=step, value=thinning, limit=thinnest, unit="%", text=text)
    largest = _stricter(part.wall_factor, profile.wall_factor)
    factor = wall_factor(tube.od, tube.wall)
    if largest is not None and factor > largest + SPARE and job.bends.dies:
        text = f"wall factor (OD over wall) is {factor:.1f}; the limit is {largest:g}"
        yield Finding(rule="shape", level="limit", step=None, value=factor, limit=largest, unit="", text=text)


def check_trims(job: Job) -> Iterator[Finding]:
    """Cautions that name every saw cut the machine asks for."""
    part, blank = job.part, job.blank
    if part.front_trim is None and blank.front_trim > NO_TRIM:
        text = f"{job.length(blank.front_trim)} added at the front for clamp and mandrel: saw it off after bending"
        yield remark("clamp", "caution", None, text)
    if part.blank is not None or blank.rear_trim <= STAYS_ON:
        return
    if part.rear_trim is None and blank.rear_needed > NO_TRIM:
        text = f"{job.length(blank.rear_needed)} added at the rear for the collet: saw it off after bending"
        yield remark("grip", "caution", None, text)
    if blank.length <= job.profile.blank.shortest + NO_TRIM and blank.padded > NO_TRIM:
        text = (
            f"{job.length(blank.padded)} added at the rear to reach the shortest blank, "
            f"{job.length(job.profile.blank.shortest)}: saw it off after bending"
        )
        yield remark("blank", "caution", None, text)


def check_saw_stop(job: Job) -> Iterator[Finding]:
    """Caution for a blank between two saw stops that the part does not let be rounded up at the rear."""
    length = job.blank.length
    stop = sawn_length(length, job.profile)
    if stop > length + SPARE:
        text = (
            f"the saw stops at {job.length(stop)}, the blank is {job.length(length)}: take the "
            f"{job.length(stop - length)} off before bending, or let the part have trim at the rear"
        )
        yield remark("blank", "caution", None, text)


def check_ends(job: Job) -> Iterator[Finding]:
    """Straight left at ends that are sized over another tube, or left plain for a weld."""
    straights = job.bends.straights
    for end, fit, left in (("front", job.part.front_fit, straights[0]), ("rear", job.part.rear_fit, straights[-1])):
        if fit is not None and left < fit.straight - SPARE:
            use = "to be sized" if fit.kind == "sized" else "left plain for a weld"
            text = f"{end} end, {use}, needs {job.length(fit.straight)} of straight; {job.length(left)} is left"
            yield remark("ends", "caution", None, text)


def _stricter(one: float | None, other: float | None) -> float | None:
    given = [limit for limit in (one, other) if limit is not None]
    return min(given, default=None)
