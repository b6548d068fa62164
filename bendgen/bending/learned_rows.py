"""Rows of a table from trial bends: repeats averaged, and lengths continued to angles where none were measured.

A table gives the setback radius, and the elongation, in all rows or in none. Where some rows lack the radius, the
developed length R θ differs from the arc wound on the die by as much as it does on average in the others; where some
lack the elongation, it is in proportion to the angle.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from statistics import fmean, stdev

import numpy as np

from bendgen.bending.trial_readings import elongation, legs_less_blank, setback_radius, tangent_length
from bendgen.geometry.least_squares import linear_fit
from bendgen.records.tooling import DieSet
from bendgen.records.trials import LearnedRow, TrialBend
from bendgen.units import RADIANS_PER_DEGREE

SAME_COMMAND_NOISE_DEG = 1e-9


def repeats(bends: Iterable[TrialBend], resolution_deg: float) -> tuple[tuple[TrialBend, ...], ...]:
    """Bends of one command each, in rising order: commands within half the machine's resolution are one."""
    rows: list[list[TrialBend]] = []
    for bend in sorted(bends, key=lambda bend: bend.commanded_deg):
        first = rows[-1][0].commanded_deg if rows else -np.inf
        if bend.commanded_deg - first > resolution_deg / 2.0 + SAME_COMMAND_NOISE_DEG:
            rows.append([])
        rows[-1].append(bend)
    return tuple(tuple(row) for row in rows)


def learned_rows(
    rows: Sequence[Sequence[TrialBend]], die: DieSet, without_lengths: frozenset[int]
) -> tuple[LearnedRow, ...]:
    """Averaged rows.

    Parameters
    ----------
    rows : bends of one command each, rising
    die : that they were made on
    without_lengths : lines whose lengths do not count
    """
    sound = [[_without_lengths(bend) if bend.line in without_lengths else bend for bend in row] for row in rows]
    with_radii = _with_radii([_angles_row(row, die) for row in sound], sound, die)
    return _with_elongations(with_radii, sound, die)


def _without_lengths(bend: TrialBend) -> TrialBend:
    return replace(bend, feed=None, blank=None, front_leg=None, rear_leg=None, carriage_move=None)


def _angles_row(row: Sequence[TrialBend], die: DieSet) -> LearnedRow:
    springback = [bend.springback_deg for bend in row]
    return LearnedRow(
        commanded_deg=fmean(bend.commanded_deg for bend in row),
        angle_deg=fmean(bend.measured_deg for bend in row),
        springback_deg=fmean(springback),
        bends=len(row),
        spread_deg=stdev(springback) if len(row) > 1 else None,
        legs_less_blank=_mean(row, lambda bend: legs_less_blank(bend, die)),
        used=_mean(row, lambda bend: bend.carriage_move),
        gauge_clr=_mean(row, lambda bend: bend.gauge_clr),
    )


def _with_radii(
    rows: Sequence[LearnedRow], bends: Sequence[Sequence[TrialBend]], die: DieSet
) -> tuple[LearnedRow, ...]:
    radii = [_mean(row, lambda bend: setback_radius(bend, die)) for row in bends]
    excesses = [
        (radius * row.angle_deg - die.clr * row.commanded_deg) * RADIANS_PER_DEGREE
        for row, radius in zip(rows, radii, strict=True)
        if radius is not None
    ]
    if not excesses:
        return tuple(rows)
    excess_deg = fmean(excesses) / RADIANS_PER_DEGREE
    return tuple(
        replace(
            row,
            clr=(die.clr * row.commanded_deg + excess_deg) / row.angle_deg if radius is None else radius,
            clr_measured=radius is not None,
        )
        for row, radius in zip(rows, radii, strict=True)
    )


def _with_elongations(
    rows: Sequence[LearnedRow], bends: Sequence[Sequence[TrialBend]], die: DieSet
) -> tuple[LearnedRow, ...]:
    gained = [_row_elongation(row, of_row, die) for row, of_row in zip(rows, bends, strict=True)]
    measured = [(row.angle_deg, value) for row, value in zip(rows, gained, strict=True) if value is not None]
    if not measured:
        return tuple(rows)
    angles, values = np.array(measured).T
    per_degree = float(linear_fit(angles[:, None], values).coefficients[0])
    return tuple(
        replace(
            row,
            elongation=per_degree * row.angle_deg if value is None else value,
            elongation_measured=value is not None,
        )
        for row, value in zip(rows, gained, strict=True)
    )


def _row_elongation(row: LearnedRow, bends: Sequence[TrialBend], die: DieSet) -> float | None:
    """Elongation [mm], from bends whose feed was noted or whose carriage was read; without a radius there is none."""
    radius = row.clr
    if radius is None:
        return None
    told = [bend for bend in bends if bend.carriage_move is not None or tangent_length(bend, die) is not None]
    return _mean(told, lambda bend: elongation(bend, die, radius))


def _mean(row: Iterable[TrialBend], value: Callable[[TrialBend], float | None]) -> float | None:
    values = [found for bend in row if (found := value(bend)) is not None]
    return fmean(values) if values else None
