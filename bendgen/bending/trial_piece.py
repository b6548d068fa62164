"""Bends that nobody has measured: they make the sheet one for a trial piece, quantity 1."""

from collections.abc import Iterator

from bendgen.bending.allowances import lies_beyond_rows
from bendgen.bending.job import SPARE, Job, remark
from bendgen.records.findings import Finding


def check_proven(job: Job) -> Iterator[Finding]:
    """Cautions for bends beyond the rows of a table, estimated, or farther than a perforated tube was proven."""
    for rule, step, reason in _unproven(job):
        yield remark(rule, "caution", step, f"trial piece: {reason}")


def trial_reasons(job: Job) -> tuple[str, ...]:
    """Why only one piece may be made; empty if nothing forbids more."""
    return tuple(f"bend {step}: {reason}" for _, step, reason in _unproven(job))


def _unproven(job: Job) -> Iterator[tuple[str, int, str]]:
    """Rule, bend and reason of everything that nobody has measured."""
    for step, (curves, table) in enumerate(zip(job.bends.curves, job.tables, strict=True), start=1):
        angle = float(job.bends.angles_deg[step - 1])
        if table is None:
            yield "table", step, "springback is estimated, no table serves this tube"
            continue
        if lies_beyond_rows(curves, angle):
            first, last = table.rows[0].angle_deg, table.rows[-1].angle_deg
            yield "table", step, f"finished angle {angle:.2f}° is beyond the table's rows, {first:g}° to {last:g}°"
        proven = table.proven_angle_deg
        if job.part.tube.perforated and proven is not None and angle > proven + SPARE:
            reason = f"finished angle {angle:.2f}° is more than this perforated tube is proven for, {proven:g}°"
            yield "perforated", step, reason
