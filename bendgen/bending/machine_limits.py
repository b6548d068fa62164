"""Every rule that a job is held against, in the order in which a person would look."""

from collections.abc import Callable, Iterator

from bendgen.bending.bendability import check_code
from bendgen.bending.coarse_vertices import check_coarse_vertices
from bendgen.bending.job import Job
from bendgen.bending.limits_moves import (
    check_bend,
    check_carriage,
    check_die_changes,
    check_feed,
    check_floor,
    check_rotation,
)
from bendgen.bending.limits_perforated import check_perforated
from bendgen.bending.limits_straights import check_clamp_and_mandrel, check_geometry, check_grip, check_pressure_die
from bendgen.bending.limits_tube import check_blank, check_ends, check_saw_stop, check_shape, check_trims, check_tube
from bendgen.bending.self_contact import check_self_contact
from bendgen.bending.trial_piece import check_proven
from bendgen.records.findings import Finding

RULES: tuple[Callable[[Job], Iterator[Finding]], ...] = (
    check_tube,
    check_bend,
    check_geometry,
    check_coarse_vertices,
    check_self_contact,
    check_clamp_and_mandrel,
    check_pressure_die,
    check_grip,
    check_rotation,
    check_feed,
    check_die_changes,
    check_carriage,
    check_blank,
    check_floor,
    check_shape,
    check_code,
    check_perforated,
    check_proven,
    check_trims,
    check_saw_stop,
    check_ends,
)


def check_job(job: Job) -> tuple[Finding, ...]:
    """All findings of a job, none of them with cures yet."""
    return tuple(finding for rule in RULES for finding in rule(job))
