"""Where a bend's misses come from, and how large each is: one standard deviation of every cause, apart from the others.

A bend scatters as the trial bends did, or as the machine repeats, whichever is more. The rows of a table are means of
few bends, so all bends made from it miss together. What the cubic between rows differs from the straight line is the
measure of what nobody measured there. The saw and the tape are not in it: no profile tells them.
"""

from collections.abc import Iterator, Sequence
from math import sqrt

import numpy as np

from bendgen.bending.allowances import AllowanceCurves, curves_of_table
from bendgen.bending.estimate_bands import MORE_SPRINGBACK_DEG
from bendgen.bending.misses import KINDS
from bendgen.geometry.interpolation import evaluate, line_weights
from bendgen.geometry.least_squares import linear_fit, powers
from bendgen.geometry.vectors import Array
from bendgen.records.allowances import AllowanceTable
from bendgen.records.bend_program import BendProgram, BendStep
from bendgen.units import RADIANS_PER_DEGREE

ROWS_FOR_SCATTER = 3  # two rows always lie on a line
RECTANGULAR = 1.0 / sqrt(3.0)  # standard deviation over half width, [JCGM100] 4.3.7
ANGLES, ROTATIONS, FEEDS, ARCS, USED = range(len(KINDS))


def miss_sources(program: BendProgram) -> Array:
    """One standard deviation of each of k causes, a (k, 5, n) array, kinds in the order of `KINDS` [rad, mm].

    Causes are independent of each other; NaN marks what nothing is known about.
    """
    tables = {table.die: table for table in program.tables}
    scatter = np.zeros(len(program.steps))
    shared = []
    for die in program.dies:
        places = [i for i, step in enumerate(program.steps) if step.die == die.id]
        steps = [program.steps[i] for i in places]
        table = tables.get(die.id)
        scatter[places] = _scatter_deg(table, program.profile.bend.repeatability_deg)
        causes = _estimate_causes(steps) if table is None else _table_causes(steps, table, die.clr, scatter[places[0]])
        shared += [_spread_out(kind, moved, places, len(scatter)) for kind, moved in causes]
    return np.concatenate((_machine_causes(program, scatter), np.array(shared).reshape(-1, len(KINDS), len(scatter))))


def _machine_causes(program: BendProgram, scatter_deg: Array) -> Array:
    """Every bend, rotation and feed by itself."""
    profile = program.profile
    each = np.eye(len(scatter_deg))
    causes = np.zeros((3, len(each), len(KINDS), len(each)))
    causes[0, :, ANGLES] = each * scatter_deg * RADIANS_PER_DEGREE
    causes[1, :, ROTATIONS] = each * profile.rotation.repeatability_deg * RADIANS_PER_DEGREE
    causes[2, :, FEEDS] = each * profile.feed.repeatability
    return causes.reshape(-1, len(KINDS), len(each))


def _scatter_deg(table: AllowanceTable | None, repeatability_deg: float) -> float:
    """Standard deviation of one bend: that of the trial bends, all rows together, but no less than the machine's."""
    repeated = [row for row in table.rows if row.spread_deg is not None and (row.bends or 0) > 1] if table else []
    freedom = sum((row.bends or 0) - 1 for row in repeated)
    squares = sum(((row.bends or 0) - 1) * (row.spread_deg or 0.0) ** 2 for row in repeated)
    return max(repeatability_deg, sqrt(squares / freedom) if freedom else 0.0)


def _estimate_causes(steps: Sequence[BendStep]) -> Iterator[tuple[int, Array]]:
    """All bends of a material miss together; nobody measured how the tube grows."""
    slopes = np.array([step.slope for step in steps])
    yield ANGLES, -MORE_SPRINGBACK_DEG * RECTANGULAR * RADIANS_PER_DEGREE / slopes
    yield USED, np.full(len(steps), np.nan)


def _table_causes(
    steps: Sequence[BendStep], table: AllowanceTable, die_clr: float, scatter_deg: float
) -> Iterator[tuple[int, Array]]:
    """Each row by itself, and what the curve between the rows may miss."""
    curves = curves_of_table(table, die_clr)
    at = np.array([step.finished_angle_deg for step in steps])
    weights = line_weights(curves.angles_deg, at)
    opened = -RADIANS_PER_DEGREE / np.array([step.slope for step in steps])
    bends = np.array([row.bends or 1 for row in table.rows])
    for row, sd in enumerate(scatter_deg / np.sqrt(bends)):
        yield ANGLES, weights[:, row] * sd * opened
    smooth, _ = evaluate(curves.angles_deg, curves.values, curves.slopes, at)
    yield ANGLES, (smooth[:, 0] - weights @ curves.values[:, 0]) * RECTANGULAR * opened
    for row in range(len(table.rows)):
        yield ARCS, weights[:, row] * (_row_scatter(curves, _arcs(curves)) if curves.has_radius else 0.0)
        yield USED, weights[:, row] * _row_scatter(curves, _used(curves))


def _arcs(curves: AllowanceCurves) -> Array:
    """Developed length of every row [mm]: measured, or that of an arc that keeps its length."""
    if curves.has_radius:
        return curves.values[:, 1]
    return (curves.angles_deg + curves.values[:, 0]) * RADIANS_PER_DEGREE * curves.die_clr


def _used(curves: AllowanceCurves) -> Array:
    """Blank length that goes into the bend of every row [mm]; NaN where the table has no elongation."""
    return _arcs(curves) - (curves.values[:, 2] if curves.has_elongation else np.nan)


def _row_scatter(curves: AllowanceCurves, lengths: Array) -> float:
    """Standard deviation of the lengths of rows about a straight line over the angle [mm]; NaN with too few rows."""
    if len(lengths) < ROWS_FOR_SCATTER or np.isnan(lengths).any():
        return float("nan")
    return linear_fit(powers(curves.angles_deg, 1), lengths).residual_sd


def _spread_out(kind: int, moved: Array, places: Sequence[int], count: int) -> Array:
    """Cause that moves those of `count` bends in one way."""
    cause = np.zeros((len(KINDS), count))
    cause[kind, places] = moved
    return cause
