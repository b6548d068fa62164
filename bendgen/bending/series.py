"""A series of pieces: mean, spread, capability with the uncertainty of the sample's size, drift.

Bounds are of 95 %; those of Cp and Cpk after the NIST/SEMATECH handbook [NIST2012] 6.1.6, of Cpk by its normal
approximation. Scatter is taken to be normal.
"""

from collections.abc import Sequence
from math import sqrt

import numpy as np
from scipy.special import chdtri, ndtri, stdtrit

from bendgen.geometry.least_squares import linear_fit, powers
from bendgen.geometry.vectors import Array
from bendgen.records.comparison import Comparison, Deviation
from bendgen.records.series import Capability, CheckSeries

FEWEST_FOR_CAPABILITY = 5
FEWEST_FOR_DRIFT = 5
OUTSIDE = 0.025  # of each side of a bound
DRIFT_BY_CHANCE = 0.01  # a slope as steep by chance alone, both ways; common practice, no source


def series_of(comparisons: Sequence[Comparison]) -> tuple[CheckSeries, ...]:
    """One series for each check that more than one piece was measured by, in the order of the sheet.

    A reading that is likely a slip of the pen tells nothing of how the pieces scatter, and is left out.
    """
    checks = list(dict.fromkeys(deviation.check for piece in comparisons for deviation in piece.deviations))
    found = []
    for check in checks:
        of_check = [(p.piece, d) for p in comparisons for d in p.believed if d.check == check]
        if len(of_check) > 1:
            found.append(_series_of_check([piece for piece, _ in of_check], [deviation for _, deviation in of_check]))
    return tuple(found)


def _series_of_check(pieces: Sequence[str], deviations: Sequence[Deviation]) -> CheckSeries:
    values = np.array([deviation.from_wanted for deviation in deviations])
    first = deviations[0]
    count, mean, spread = len(values), float(values.mean()), float(values.std(ddof=1))
    drift, shown = _drift(values)
    return CheckSeries(
        check=first.check,
        unit=first.unit,
        tolerance=first.tolerance,
        pieces=tuple(pieces),
        deviations=tuple(values.tolist()),
        mean=mean,
        spread=spread,
        mean_bounds=_mean_bounds(mean, spread, count),
        capability=_capability(mean, spread, count, first.tolerance) if spread > 0.0 else None,
        drift=drift,
        drift_shown=shown,
    )


def _mean_bounds(mean: float, spread: float, count: int) -> tuple[float, float]:
    half = float(stdtrit(count - 1, 1.0 - OUTSIDE)) * spread / sqrt(count)
    return mean - half, mean + half


def _capability(mean: float, spread: float, count: int, tolerance: float) -> Capability | None:
    """Cp and Cpk of deviations from the middle of a symmetrical tolerance."""
    if count < FEWEST_FOR_CAPABILITY:
        return None
    freedom = count - 1
    cp = tolerance / (3.0 * spread)
    cpk = (tolerance - abs(mean)) / (3.0 * spread)
    low, high = (sqrt(float(chdtri(freedom, above)) / freedom) for above in (1.0 - OUTSIDE, OUTSIDE))
    half = float(ndtri(1.0 - OUTSIDE)) * sqrt(1.0 / (9.0 * count) + cpk**2 / (2.0 * freedom))
    return Capability(cp=cp, cp_bounds=(cp * low, cp * high), cpk=cpk, cpk_bounds=(cpk - half, cpk + half))


def _drift(values: Array) -> tuple[float | None, bool]:
    """Slope of a line over the order of the pieces, and whether it is steeper than chance makes it, by Student's t."""
    if len(values) < FEWEST_FOR_DRIFT:
        return None, False
    fit = linear_fit(powers(np.arange(float(len(values))), 1), values)
    slope, sd = float(fit.coefficients[1]), sqrt(float(fit.covariance[1, 1]))
    limit = float(stdtrit(fit.degrees_of_freedom, 1.0 - DRIFT_BY_CHANCE / 2.0))
    return slope, abs(slope) > limit * sd if sd > 0.0 else slope != 0.0
