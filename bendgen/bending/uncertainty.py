"""How far a reading may come out from its prediction, and which bends make it uncertain.

First-order propagation after [JCGM100] 5.1, expanded by k = 2: some 95 % of parts lie within it.
"""

from collections.abc import Iterator
from dataclasses import replace
from math import sqrt

import numpy as np

from bendgen.bending.check_values import check_values
from bendgen.bending.foretold import foretold_of_program
from bendgen.bending.miss_sources import miss_sources
from bendgen.bending.misses import KINDS, missed_tubes, misses_of_array
from bendgen.geometry.vectors import Array
from bendgen.records.bend_program import BendProgram, Check, Uncertainty
from bendgen.records.findings import Finding
from bendgen.records.foretold import Foretold

COVERAGE_FACTOR = 2.0
NUDGES = (1e-4, 1e-4, 1e-2, 1e-2, 1e-2)  # of each kind of miss [rad, rad, mm, mm, mm]
NOTHING = 1e-9  # a reading that moves less than this, per mm or radian, does not depend on the miss


def with_uncertainty(program: BendProgram) -> BendProgram:
    """Program whose checks say how uncertain they are, with a caution where a tolerance is tighter than that."""
    if not program.steps:
        return program
    contributions = _contributions(program)
    checks = tuple(
        replace(check, uncertainty=_uncertainty(parts))
        for check, parts in zip(program.checks, contributions, strict=True)
    )
    return replace(program, checks=checks, findings=(*program.findings, *_tighter_tolerances(checks)))


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


def _tighter_tolerances(checks: tuple[Check, ...]) -> Iterator[Finding]:
    """One caution for all readings that are less certain than their tolerance, with the numbers of the worst."""
    loose = [(check, of) for check in checks if (of := check.uncertainty) is not None and of.expanded > check.tolerance]
    if not loose:
        return
    check, uncertainty = max(loose, key=lambda pair: pair[1].expanded / pair[0].tolerance)
    # A share goes beyond 1 where another bend makes up for part of it.
    step, share = max(enumerate(uncertainty.shares, start=1), key=lambda of_step: of_step[1])
    others = f" and {len(loose) - 1} more" if len(loose) > 1 else ""
    yield Finding(
        rule="uncertainty",
        level="caution",
        step=step,
        value=uncertainty.expanded,
        limit=check.tolerance,
        unit=check.unit,
        text=f"{check.id}{others}: less certain than the tolerance; bend {step} makes {min(share, 1.0):.0%} of it: "
        "measure the first part, and bend trials near its angle",
    )
