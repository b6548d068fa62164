"""Cures: single changes that remove a finding, each tried on the part before it is offered."""

from collections.abc import Callable, Iterable
from dataclasses import replace

from bendgen.bending.changed_part import ChangedPart
from bendgen.bending.changes import can_be_written
from bendgen.bending.cure_candidates import candidates
from bendgen.bending.job import Job
from bendgen.errors import BendgenError
from bendgen.records.findings import Cure, Finding
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part

BrokenLimits = Callable[[Part, MachineProfile], tuple[Finding, ...]]


def with_cures(findings: tuple[Finding, ...], job: Job, broken_limits: BrokenLimits) -> tuple[Finding, ...]:
    """Findings, every limit with the cures that work.

    Parameters
    ----------
    findings : of the job
    job : the part as planned
    broken_limits : plans a changed part and tells the limits it breaks
    """
    before = tuple(finding for finding in findings if finding.level == "limit")

    def cured(finding: Finding) -> Finding:
        writable = (candidate for candidate in candidates(finding, job) if can_be_written(candidate))
        working = [c for c in writable if _removes(c, finding, before, job, broken_limits)]
        return replace(finding, cures=tuple(dict.fromkeys(Cure(text=c.text, change=c.change) for c in working)))

    return tuple(cured(finding) if finding.level == "limit" else finding for finding in findings)


def tried_cures(
    candidates: Iterable[ChangedPart], rule: str, profile: MachineProfile, broken_limits: BrokenLimits
) -> tuple[Cure, ...]:
    """Changes after which the rule holds; those first that leave no other limit, the others with what they leave."""
    whole, partial = [], []
    for candidate in candidates:
        try:
            broken = broken_limits(candidate.part, profile)
        except BendgenError:
            continue
        rules = list(dict.fromkeys(finding.rule for finding in broken))
        if not rules:
            whole.append(Cure(text=candidate.text, change=candidate.change))
        elif rule not in rules:
            text = f"{candidate.text}; still to cure then: {', '.join(rules)}"
            partial.append(Cure(text=text, change=candidate.change))
    return tuple(dict.fromkeys((*whole, *partial)))


def _removes(
    candidate: ChangedPart, finding: Finding, before: tuple[Finding, ...], job: Job, broken_limits: BrokenLimits
) -> bool:
    """Whether the change removes the finding and breaks no rule that held before."""
    try:
        after = broken_limits(candidate.part, job.profile)
    except BendgenError:
        return False
    if {f.rule for f in after} - {f.rule for f in before}:
        return False
    still_broken = [f for f in after if f.rule == finding.rule]
    renumbered = candidate.part.from_rear != job.part.from_rear or candidate.change.key == "centreline.merge_below"
    if renumbered:
        return not still_broken
    return all(f.step != finding.step for f in still_broken) and len(after) < len(before)
