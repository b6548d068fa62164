"""Cures: single changes that remove a finding, each tried on the part before it is offered."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from itertools import takewhile

from bendgen.bending.changed_part import ChangedPart
from bendgen.bending.changes import can_be_written
from bendgen.bending.cure_candidates import candidates
from bendgen.bending.job import Job, remark
from bendgen.errors import BendgenError
from bendgen.records.findings import Change, Cure, Finding
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part

BrokenLimits = Callable[[Part, MachineProfile], tuple[Finding, ...]]
# Pairs of bends in all parts that are planned to try cures: some seconds, as every step moves all bends made before it.
# A part of twenty bends that all break limits stays far below.
MOST_PAIRS_TRIED = 2_000_000
TOO_MANY = (
    "more limits are broken than cures can be tried for in a few seconds: remove some by a cure that is told, and try "
    "again"
)


def with_cures(findings: tuple[Finding, ...], job: Job, broken_limits: BrokenLimits) -> tuple[Finding, ...]:
    """Findings, every limit with the cures that work.

    Parameters
    ----------
    findings : of the job
    job : the part as planned
    broken_limits : plans a changed part and tells the limits it breaks
    """
    tries = _Tries(job, broken_limits)
    before = tuple(finding for finding in findings if finding.level == "limit")

    def cured(finding: Finding) -> Finding:
        writable = (candidate for candidate in candidates(finding, job) if can_be_written(candidate))
        tried = takewhile(lambda _: not tries.spent, writable)
        working = [c for c in tried if _removes(c, finding, before, job, tries.limits_after(c))]
        return replace(finding, cures=tuple(dict.fromkeys(Cure(text=c.text, change=c.change) for c in working)))

    told = tuple(cured(finding) if finding.level == "limit" else finding for finding in findings)
    return (*told, remark("cures", "caution", None, TOO_MANY)) if tries.spent else told


class _Tries:
    """Limits that changed parts break, each planned once."""

    def __init__(self, job: Job, broken_limits: BrokenLimits) -> None:
        self._profile, self._broken_limits = job.profile, broken_limits
        self._left = MOST_PAIRS_TRIED // max(len(job.bends.dies), 1) ** 2
        self._after: dict[Change, tuple[Finding, ...] | None] = {}

    @property
    def spent(self) -> bool:
        """Whether nobody would wait for more."""
        return self._left <= 0

    def limits_after(self, candidate: ChangedPart) -> tuple[Finding, ...] | None:
        """Limits that the changed part breaks; None if it cannot be planned."""
        if candidate.change not in self._after:
            self._left -= 1
            self._after[candidate.change] = self._planned(candidate.part)
        return self._after[candidate.change]

    def _planned(self, part: Part) -> tuple[Finding, ...] | None:
        try:
            return self._broken_limits(part, self._profile)
        except BendgenError:
            return None


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
    candidate: ChangedPart,
    finding: Finding,
    before: tuple[Finding, ...],
    job: Job,
    after: tuple[Finding, ...] | None,
) -> bool:
    """Whether the change removes the finding and breaks no rule that held before; after: the limits then broken."""
    if after is None:
        return False
    if {f.rule for f in after} - {f.rule for f in before}:
        return False
    still_broken = [f for f in after if f.rule == finding.rule]
    renumbered = candidate.part.from_rear != job.part.from_rear or candidate.change.key == "centreline.merge_below"
    if renumbered:
        return not still_broken
    return all(f.step != finding.step for f in still_broken) and len(after) < len(before)
