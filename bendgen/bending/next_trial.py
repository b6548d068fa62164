"""Which trial bend would teach most.

The springback a table gives is uncertain for two reasons: its rows scatter, and between or beyond them the curve may
run elsewhere than straight on. For a place at the fraction t between two rows h apart, of n1 and n2 bends,

    variance = σ² ((1 - t)² / n1 + t² / n2) + (κ t (1 - t) h² / 2)²

where σ is the scatter of one bend and κ how sharply springback may curve. Beyond the rows t lies outside 0 … 1, and
the same sum grows as it should. The bend that teaches most is the one that, added as one more row or one more repeat,
makes this variance smallest on average over the angles that matter; of bends that teach nearly as much, the one
closest to such an angle, as a value on a row needs no curve.
"""

from dataclasses import dataclass, replace
from math import hypot, isfinite

import numpy as np

from bendgen.bending.allowances import AllowanceCurves, allowances_at, curves_of_table
from bendgen.bending.planning import job_of_part
from bendgen.bending.trial_outliers import PROTRACTOR_SD_DEG
from bendgen.geometry.vectors import Array
from bendgen.records.allowances import AllowanceTable
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part
from bendgen.records.tooling import DieSet
from bendgen.records.trials import Lesson, NextBend, SpringbackFit

STEP_DEG = 5.0  # a programmer keys in round angles
SMALLEST_DEG = 10.0  # smaller bends are rarely asked for
NEARLY_BEST = 1.1  # standard deviations that differ by less are one to a shop
USUAL_CURVE = 2e-4  # deg/deg², common practice, no source: what few angles cannot rule out


@dataclass(frozen=True, slots=True, kw_only=True)
class AnglesThatMatter:
    """Finished angles to learn for [deg], and what they are, in words."""

    angles_deg: tuple[float, ...]
    words: str


def with_next_bend(
    lesson: Lesson, profile: MachineProfile, *, part: Part | None = None, range_deg: tuple[float, float] | None = None
) -> Lesson:
    """Lesson with the bend that would teach most: for a part, a range of finished angles, or all that the die bends.

    Raises
    ------
    GeometryError, ToolingError
        as planning the part does
    """
    table, fit = lesson.table, lesson.fit
    if table is None or fit is None:
        return lesson
    matter: AnglesThatMatter | None
    if part is not None:
        matter = angles_of_part(part, table, profile)
    elif range_deg is not None:
        matter = angles_of_range(*range_deg)
    else:
        matter = angles_of_die(table, profile)
    if matter is None:
        return replace(
            lesson, cautions=(*lesson.cautions, "the part bends nothing with this table: no bend is advised")
        )
    return replace(lesson, next_bend=next_bend(table, fit, matter, profile))


def angles_of_range(low_deg: float, high_deg: float) -> AnglesThatMatter:
    """All angles from `low_deg` to `high_deg`."""
    angles = np.linspace(low_deg, high_deg, max(2, round((high_deg - low_deg) / STEP_DEG) + 1))
    return AnglesThatMatter(angles_deg=tuple(angles.tolist()), words=f"{low_deg:g} to {high_deg:g}°")


def angles_of_die(table: AllowanceTable, profile: MachineProfile) -> AnglesThatMatter:
    """All finished angles that die and machine can bend."""
    die = profile.die(table.die)
    low, high = _reach(curves_of_table(table, die.clr), die, profile)
    return replace(angles_of_range(low, high), words=f"the range of the die, {low:g} to {high:g}°")


def angles_of_part(part: Part, table: AllowanceTable, profile: MachineProfile) -> AnglesThatMatter | None:
    """Angles a part bends with the new table; None if it bends none with it.

    Raises
    ------
    GeometryError, ToolingError
        as planning the part does
    """
    job = job_of_part(part, replace(profile, tables=(*profile.tables, table)))
    columns = zip(job.tables, job.bends.angles_deg.tolist(), strict=True)
    angles = tuple(angle for used, angle in columns if used is table)
    listed = ", ".join(f"{angle:.4g}" for angle in dict.fromkeys(angles))
    return AnglesThatMatter(angles_deg=angles, words=f"the bends of {part.number}: {listed}°") if angles else None


def next_bend(table: AllowanceTable, fit: SpringbackFit, matter: AnglesThatMatter, profile: MachineProfile) -> NextBend:
    """The bend that teaches most about the angles that matter."""
    die = profile.die(table.die)
    curves = curves_of_table(table, die.clr)
    sd, curve = _scatter(fit, profile), _curve(fit)
    rows = np.array([row.angle_deg for row in table.rows])
    counts = np.array([float(row.bends or 1) for row in table.rows])
    angles = np.array(matter.angles_deg)
    places = _candidates(rows, angles, _reach(curves, die, profile))
    after = [_deviation(*_with_one_more(rows, counts, place), angles, sd=sd, curve=curve) for place in places]
    best = _nearly_best(np.array(after), np.abs(places[:, None] - angles).min(axis=1))
    place = float(places[best])
    commanded = place + float(allowances_at(curves, np.array([place])).springback_deg[0])
    resolution = profile.bend.resolution_deg
    return NextBend(
        finished_deg=place,
        commanded_deg=round(commanded / resolution) * resolution,
        repeat=bool(np.any(rows == place)),
        deviation_before_deg=_deviation(rows, counts, angles, sd=sd, curve=curve),
        deviation_after_deg=after[best],
        matters=matter.words,
    )


def _scatter(fit: SpringbackFit, profile: MachineProfile) -> float:
    """Standard deviation of one bend [deg]: as seen, but never better than the machine; as usual where unseen."""
    usual = hypot(profile.bend.repeatability_deg, PROTRACTOR_SD_DEG)
    return max(profile.bend.repeatability_deg, fit.sd_deg) if isfinite(fit.sd_deg) else usual


def _curve(fit: SpringbackFit) -> float:
    return max(USUAL_CURVE, *(2.0 * abs(curve) for curve in fit.coefficients[2:]), 0.0)


def _reach(curves: AllowanceCurves, die: DieSet, profile: MachineProfile) -> tuple[float, float]:
    """Smallest and largest finished angle worth bending, in whole degrees."""
    smallest = max(SMALLEST_DEG, die.smallest_bend_deg or 0.0, profile.bend.smallest_deg or 0.0)
    largest = min(die.largest_bend_deg, profile.bend.largest_deg)
    finished = largest - float(allowances_at(curves, np.array([largest])).springback_deg[0])
    return float(np.ceil(smallest)), float(np.floor(max(finished, smallest + 1.0)))


def _candidates(rows: Array, angles: Array, reach: tuple[float, float]) -> Array:
    """The rows themselves; and round angles, and angles that matter, within reach and not close to a row."""
    low, high = reach
    fresh = np.union1d(np.arange(np.ceil(low / STEP_DEG) * STEP_DEG, high + 1e-9, STEP_DEG), angles)
    apart = np.abs(fresh[:, None] - rows).min(axis=1) >= STEP_DEG / 2.0
    return np.concatenate((rows, fresh[apart & (fresh >= low) & (fresh <= high)]))


def _nearly_best(after: Array, distances: Array) -> int:
    """Index of the place nearest to an angle that matters among those that are nearly the best."""
    return int(np.lexsort((after, distances, after > NEARLY_BEST * after.min()))[0])


def _with_one_more(rows: Array, counts: Array, place: float) -> tuple[Array, Array]:
    on_row = rows == place
    if on_row.any():
        return rows, counts + on_row
    index = int(np.searchsorted(rows, place))
    return np.insert(rows, index, place), np.insert(counts, index, 1.0)


def _deviation(rows: Array, counts: Array, angles: Array, *, sd: float, curve: float) -> float:
    """Root mean square, over `angles`, of the standard deviation of the table's springback [deg].

    rows, counts : (m,) arrays, rising finished angles [deg] and bends of each row
    angles : (n,) array [deg]
    """
    below = np.clip(np.searchsorted(rows, angles, side="right") - 1, 0, len(rows) - 2)
    gap = rows[below + 1] - rows[below]
    t = (angles - rows[below]) / gap
    scatter = sd**2 * ((1.0 - t) ** 2 / counts[below] + t**2 / counts[below + 1])
    bow = curve / 2.0 * t * (1.0 - t) * gap**2
    return float(np.sqrt(np.mean(scatter + bow**2)))
