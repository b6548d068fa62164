"""Which readings do not belong among the others.

Each reading is held against a line, or with six places and more a parabola, through all the others. How far it may
lie off follows from their scatter; as a handful of bends tells little about scatter, what a bench usually gives
counts like a few more readings. Up to a quarter of the readings is suspected one after another, the worst first, and
those up to the last one that fails are left out, so that two wrong readings cannot hide each other.

How often it errs was counted on invented shops, 3,000 sets each of 3 to 8 bends that scatter by 0.05° to 0.2°, with
springback along a line, a parabola and a square root, and a usual scatter of 0.11°: of honest sets at most 0.13 %
lost a reading, most kinds none; one angle typed 4.5° or 9° wrong was named in at least 97 % of the sets of four and
more different angles, in over 99 % where bends scatter by 0.1° or less. Three angles can show that one is wrong, not
which.

References
----------
[Rosner1983] for the order of suspicion, [BeckmanCook1983] for the deleted residual; the usual scatter that stands in
for missing readings is common practice, no source
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import stdtrit

from bendgen.geometry.least_squares import linear_fit, powers
from bendgen.geometry.vectors import Array

FALSE_ALARMS = 0.001  # of sets in which nothing is wrong, each step of the test by itself
USUAL_READINGS = 3.0  # degrees of freedom that the usual scatter of a bench counts for
PLACES_FOR_A_CURVE = 6
MOST_SUSPECTS = 50
ALONE = 1.0 - 1e-9  # leverage of a reading without which there would be no fit


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlier:
    """A reading that does not belong: its index, its distance from where the others put it, the largest allowed.

    nameable : False where another reading could be the wrong one just as well
    """

    index: int
    deviation: float
    limit: float
    nameable: bool = True


def outlying_readings(places: Array, readings: Array, *, usual_sd: float) -> tuple[Outlier, ...]:
    """Readings that do not belong.

    Parameters
    ----------
    places : (n,) array, where each was taken; itself beyond doubt
    readings : (n,) array
    usual_sd : standard deviation of one reading at an ordinary bench
    """
    kept = np.arange(len(places))
    suspects: list[Outlier] = []
    for _ in range(min(MOST_SUSPECTS, max(1, len(places) // 4))):
        suspect = _most_suspect(places[kept], readings[kept], usual_sd)
        if suspect is None:
            break
        suspects.append(_of_all(suspect, int(kept[suspect.index])))
        kept = np.delete(kept, suspect.index)
    failing = [number for number, suspect in enumerate(suspects, start=1) if abs(suspect.deviation) > suspect.limit]
    return tuple(suspects[: failing[-1]]) if failing else ()


def _of_all(suspect: Outlier, index: int) -> Outlier:
    return Outlier(index=index, deviation=suspect.deviation, limit=suspect.limit, nameable=suspect.nameable)


def _most_suspect(places: Array, readings: Array, usual_sd: float) -> Outlier | None:
    """The reading farthest off in proportion to what the others allow; None where nothing is left to compare."""
    degree = fitting_degree(places)
    freedom = len(places) - degree - 2  # of the fit through the others
    if degree == 0 or freedom < 0:
        return None
    fit = linear_fit(powers(places / np.abs(places).max(), degree), readings)
    room = 1.0 - fit.leverages
    testable = np.flatnonzero(fit.leverages < ALONE)
    squares = np.maximum(fit.residuals @ fit.residuals - fit.residuals[testable] ** 2 / room[testable], 0.0)
    sd = np.sqrt((squares + USUAL_READINGS * usual_sd**2) / (freedom + USUAL_READINGS))
    ratios = np.abs(fit.residuals[testable]) / (sd * np.sqrt(room[testable]))
    worst = int(np.argmax(ratios))
    index = int(testable[worst])
    quantile = float(stdtrit(freedom + USUAL_READINGS, 1.0 - FALSE_ALARMS / (2.0 * len(places))))
    return Outlier(
        index=index,
        deviation=float(fit.residuals[index] / room[index]),
        limit=quantile * float(sd[worst] / np.sqrt(room[index])),
        nameable=bool(np.sum(ratios > 0.99 * ratios[worst]) == 1),
    )


def fitting_degree(places: Array) -> int:
    """Degree of the polynomial that so many different places can carry: 2, 1, or 0 for none."""
    different = len(np.unique(places))
    return 2 if different >= PLACES_FOR_A_CURVE else int(different >= 2)
