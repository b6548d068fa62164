"""How hard the bends of a job are on its tube, each figure by its own rule."""

from collections.abc import Iterator

from bendgen.bending.b31_1 import extrados_factor, intrados_factor, thickness_factor
from bendgen.bending.job import SPARE, Job, limit_in_mm, remark
from bendgen.geometry.bendability import bend_ratio, outer_strain, thinning_share, wall_factor
from bendgen.geometry.perforation import outer_pitch
from bendgen.records.bend_program import Bendability
from bendgen.records.findings import Finding
from bendgen.records.part import Part
from bendgen.records.tooling import DieSet


def bendability(part: Part, die: DieSet) -> Bendability:
    """Figures of a bend on that die."""
    tube = part.tube
    strain = outer_strain(tube.od, die.clr)
    holes = tube.perforation
    return Bendability(
        die=die.id,
        bend_ratio=bend_ratio(tube.od, die.clr),
        wall_factor=wall_factor(tube.od, tube.wall),
        outer_strain=strain,
        thinning_percent=100.0 * thinning_share(tube.od, die.clr),
        code_wall=_code_wall(part, die),
        code_factors=None
        if part.code is None
        else (intrados_factor(die.clr, tube.od), extrados_factor(die.clr, tube.od)),
        outer_pitch=None if holes is None else outer_pitch(holes.pitch, strain),
    )


def _code_wall(part: Part, die: DieSet) -> float | None:
    factor = thickness_factor(die.clr, part.tube.od)
    return None if part.code is None or factor is None else factor * part.code.minimum_wall


def check_code(job: Job) -> Iterator[Finding]:
    """Wall before bending against B31.1, where the part asks for it."""
    code, wall = job.part.code, job.part.tube.wall
    if code is None:
        return
    text = "pressure parts follow the code and its licensed people; this is one thickness rule of it, no approval"
    yield remark("shape", "caution", None, f"{code.rule}: {text}")
    for step, die in enumerate(job.bends.dies, start=1):
        needed = _code_wall(job.part, die)
        if needed is None:
            text = f"{code.rule}: CLR {job.length(die.clr)} is tighter than 3 D, for which its table has no factor"
            yield limit_in_mm("shape", step, die.clr, 3.0 * job.part.tube.od, text)
        elif wall < needed - SPARE:
            text = f"{code.rule}: wall {job.length(wall)} before bending; this bend needs {job.length(needed)}"
            yield limit_in_mm("shape", step, wall, needed, text)
