"""Perforated tube: where clamp, mandrel and collet would bear on holes."""

from collections.abc import Iterator

from bendgen.bending.job import SPARE, Job, remark
from bendgen.bending.limits_straights import clamp_needed
from bendgen.records.findings import Finding


def check_perforated(job: Job) -> Iterator[Finding]:
    """Cautions for holes under clamp, mandrel or collet; in general where the part does not say where holes are."""
    tube = job.part.tube
    if not tube.perforated or not job.bends.dies:
        return
    if tube.perforation is None:
        text = "perforated tube: keep holes clear of clamp, mandrel and collet, or expect marks and slip there"
        yield remark("perforated", "caution", None, text)
        return
    first_hole = job.blank.front_trim + tube.perforation.plain_front
    last_hole = job.blank.length - job.blank.rear_trim - tube.perforation.plain_rear
    for step, (die, passed) in enumerate(zip(job.bends.dies, job.positions.passed.tolist(), strict=True), start=1):
        for holder, length in (("clamp", clamp_needed(job, step)), ("mandrel", die.mandrel_ahead)):
            held = _overlap(passed - (length or 0.0), passed, first_hole, last_hole)
            if held > SPARE:
                text = f"{job.length(held)} of perforated tube lies under the {holder}: expect marks and slip"
                yield remark("perforated", "caution", step, text)
    gripped = _overlap(job.blank.length - job.profile.carriage.grip, job.blank.length, first_hole, last_hole)
    if gripped > SPARE:
        text = f"{job.length(gripped)} of perforated tube lies inside the collet: expect marks and slip"
        yield remark("perforated", "caution", None, text)


def _overlap(start: float, end: float, first: float, last: float) -> float:
    """Length that two stretches of the blank have in common [mm]."""
    return min(end, last) - max(start, first)
