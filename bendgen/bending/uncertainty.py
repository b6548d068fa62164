"""How far a reading may come out from its prediction, and which bends make it uncertain.

First-order propagation after [JCGM100] 5.1, expanded by k = 2: some 95 % of parts lie within it.
"""

from dataclasses import replace
from math import sqrt

import numpy as np

from bendgen.bending.check_cautions import check_cautions
from bendgen.bending.check_values import check_values
from bendgen.bending.foretold import foretold_of_program
from bendgen.bending.miss_sources import miss_sources
from bendgen.bending.misses import KINDS, missed_tubes, misses_of_array
from bendgen.geometry.vectors import Array
from bendgen.records.bend_program import BendProgram, Uncertainty
from bendgen.records.foretold import Foretold

COVERAGE_FACTOR = 2.0
NUDGES = (1e-4, 1e-4, 1e-2, 1e-2, 1e-2)  # of each kind of miss [rad, rad, mm, mm, mm]
NOTHING = 1e-9  # a reading that moves less than this, per mm or radian, does not depend on the miss


def with_uncertainty(program: BendProgram) -> BendProgram:
    """Program whose checks say how uncertain they are, with the cautions that follow from them."""
    if not program.steps:
        return program
    contributions = _contributions(program)
    checks = tuple(
        replace(check, uncertainty=_uncertainty(parts))
        for check, parts in zip(program.checks, contributions, strict=True)
    )
    unknown = tuple(check for check, parts in zip(checks, contributions, strict=True) if np.isnan(parts).any())
    told = replace(program, checks=checks)
    return replace(told, findings=(*program.findings, *check_cautions(told, unknown)))


def slopes_of_checks(foretold: Foretold) -> Array:
    """How far each of c readings moves per miss, a (5, n, c) array, kinds in the order of `KINDS`.

    By central differences: the readings are smooth but for the box, whose corners move from one bend to the next.
    """
    count = len(foretold.steps)
    nudges = np.repeat(NUDGES, count)
    nudged = np.diag(nudges).reshape(-1, len(KINDS), count)
    tubes = missed_tubes(foretold, misses_of_array(np.concatenate((nudged, -nudged))))
    up, down = np.split(check_values(foretold, tubes), 2)
    return ((up - down) / (2.0 * nudges[:, None])).reshape(len(KINDS), count, -1)


def _contributions(program: BendProgram) -> Array:
    """Standard deviation of c readings by each of k causes through each of n bends, a (c, k, n) array; NaN: unknown."""
    slopes = slopes_of_checks(foretold_of_program(program))
    slopes[np.abs(slopes) < NOTHING] = 0.0
    sources = miss_sources(program)
    unknown = np.isnan(sources)
    moved = np.einsum("kjn,jnc->knc", np.where(unknown, 0.0, sources), slopes)
    hidden = np.einsum("kjn,jnc->knc", unknown.astype(float), np.abs(slopes))
    return np.where(hidden > 0.0, np.nan, moved).transpose(2, 0, 1)


def _uncertainty(contributions: Array) -> Uncertainty | None:
    """Uncertainty of one reading from what each cause does through each bend, a (k, n) array; None: not known."""
    by_cause = contributions.sum(axis=1)
    variance = float(by_cause @ by_cause)
    if not variance > 0.0:
        return None
    shares = contributions.T @ by_cause / variance
    return Uncertainty(expanded=COVERAGE_FACTOR * sqrt(variance), shares=tuple(shares.tolist()))
