"""Cures of parts with so many bends that not all can be tried."""

from dataclasses import replace

import numpy as np

from bendgen.bending.cures import MOST_PAIRS_TRIED, TOO_MANY, with_cures
from bendgen.bending.machine_limits import check_job
from bendgen.bending.planning import broken_limits, job_of_part
from bendgen.records.findings import Finding
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Centreline, Part, Vertex
from tests.pages import large_bender, winding_part


def wandering_part(bends: int) -> Part:
    """Part that hangs far below the machine, and to whose sides nothing fits."""
    points = np.cumsum(np.random.default_rng(1).normal(0.0, 300.0, (bends + 2, 3)), axis=0)
    vertices = tuple(Vertex(x=x, y=y, z=z) for x, y, z in points.tolist())
    return replace(winding_part(1), steps=None, centreline=Centreline(vertices=vertices))


def cured(part: Part) -> tuple[tuple[Finding, ...], list[Part]]:
    """Findings of a part with cures, and every part that was planned for them."""
    planned: list[Part] = []

    def counting(changed: Part, profile: MachineProfile) -> tuple[Finding, ...]:
        planned.append(changed)
        return broken_limits(changed, profile)

    job = job_of_part(part, large_bender())
    return with_cures(check_job(job), job, counting), planned


def test_a_few_bends_have_all_their_cures_tried_each_once() -> None:
    findings, planned = cured(wandering_part(6))
    assert TOO_MANY not in [finding.text for finding in findings]
    assert len(planned) == len(set(planned)) > 10


def test_of_many_bends_only_so_many_cures_are_tried_and_that_is_said() -> None:
    findings, planned = cured(wandering_part(100))
    assert findings[-1].text == TOO_MANY
    assert len(planned) <= MOST_PAIRS_TRIED // 100**2
    assert any(finding.cures for finding in findings)
