"""Springback, formed radius and elongation of a bend, from a table or from material data."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from bendgen.geometry.interpolation import evaluate, monotone_slopes
from bendgen.geometry.power_law_tube import power_law_moment, second_moment
from bendgen.geometry.vectors import Array
from bendgen.records.allowances import AllowanceTable, MaterialData
from bendgen.records.bend_program import Basis, BasisWord
from bendgen.records.tooling import DieSet
from bendgen.records.tube import Tube
from bendgen.units import RADIANS_PER_DEGREE

ON_A_ROW_DEG = 1e-9
SMALLEST_ANGLE_DEG = 1e-9  # below it a radius is no longer a quotient of arc and angle


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AllowanceCurves:
    """Curves over the finished angle of one die: columns springback [deg], developed length [mm], elongation [mm].

    angles_deg : (m,) array of rows; values, slopes : (m, 3) arrays
    die_clr : [mm]
    has_radius, has_elongation : whether the table measured them; else the arc keeps its length, and elongation is 0
    estimated : from material data, no row was measured
    """

    angles_deg: Array
    values: Array
    slopes: Array
    die_clr: float
    has_radius: bool
    has_elongation: bool
    estimated: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Allowances:
    """Values for n bends, each an (n,) array.

    springback_deg [deg]; clr, formed [mm]; elongation [mm]; slope, degrees commanded for each degree finished.
    """

    springback_deg: Array
    clr: Array
    elongation: Array
    slope: Array


@lru_cache(maxsize=256)
def curves_of_table(table: AllowanceTable, die_clr: float) -> AllowanceCurves:
    """Curves through the rows of a table for a die of that CLR [mm]."""
    rows = table.rows
    angles = np.array([row.angle_deg for row in rows])
    has_radius = rows[0].clr is not None
    has_elongation = rows[0].elongation is not None
    springback = [row.springback_deg for row in rows]
    developed = [(row.clr or 0.0) * row.angle_deg * RADIANS_PER_DEGREE for row in rows]
    elongation = [row.elongation or 0.0 for row in rows]
    values = np.array([springback, developed, elongation]).T
    return AllowanceCurves(
        angles_deg=angles,
        values=values,
        slopes=monotone_slopes(angles, values),
        die_clr=die_clr,
        has_radius=has_radius,
        has_elongation=has_elongation,
    )


@lru_cache(maxsize=256)
def curves_of_material(data: MaterialData, tube: Tube, die: DieSet) -> AllowanceCurves:
    """Curves estimated from power-law data: springback in proportion to the angle.

    The recovered curvature is M / (E I) and the arc keeps its length, so a bend commanded C loses C · M · R / (E I).

    References
    ----------
    [Gardiner1957], [JohnsonYu1981]
    """
    outer, inner = tube.od / 2.0, tube.od / 2.0 - tube.wall
    moment = power_law_moment(data.strength_coefficient_mpa, data.hardening_exponent, outer, inner, die.clr)
    share = moment * die.clr / (data.youngs_modulus_mpa * second_moment(outer, inner))
    angles = np.array([0.0, 180.0])
    values = np.zeros((2, 3))
    values[:, 0] = angles * share / (1.0 - share)
    return AllowanceCurves(
        angles_deg=angles,
        values=values,
        slopes=monotone_slopes(angles, values),
        die_clr=die.clr,
        has_radius=False,
        has_elongation=False,
        estimated=True,
    )


def allowances_at(curves: AllowanceCurves, angles_deg: Array) -> Allowances:
    """Allowances of bends with those finished angles, an (n,) array [deg]."""
    values, derivatives = evaluate(curves.angles_deg, curves.values, curves.slopes, angles_deg)
    springback, springback_slope = _never_below_zero(curves, angles_deg, values[:, 0], derivatives[:, 0])
    finished = np.maximum(angles_deg, SMALLEST_ANGLE_DEG)
    if curves.has_radius:
        clr = np.maximum(values[:, 1], 0.0) / (finished * RADIANS_PER_DEGREE)
    else:
        clr = curves.die_clr * (finished + springback) / finished
    return Allowances(springback_deg=springback, clr=clr, elongation=values[:, 2], slope=1.0 + springback_slope)


def _never_below_zero(
    curves: AllowanceCurves, angles_deg: Array, springback: Array, slope: Array
) -> tuple[Array, Array]:
    """Beyond the rows springback stops at 0; where the last row itself is negative, at that row, so nothing jumps."""
    first, last = curves.angles_deg[0], curves.angles_deg[-1]
    outside = (angles_deg < first) | (angles_deg > last)
    if not outside.any():
        return springback, slope
    end_value = np.where(angles_deg < first, curves.values[0, 0], curves.values[-1, 0])
    floor = np.minimum(end_value, 0.0)
    held = outside & (springback < floor)
    return np.where(held, floor, springback), np.where(held, 0.0, slope)


def finished_angles(curves: AllowanceCurves, commanded_deg: Array) -> Array:
    """Finished angles that those commands give, (n,) arrays [deg]; 0 where springback takes the whole bend.

    A bracketed Newton search: finished plus springback rises with the finished angle, which the profile's reader
    makes sure of.
    """
    low = np.zeros_like(commanded_deg)
    high = commanded_deg - min(0.0, float(curves.values[:, 0].min()))
    finished = commanded_deg - allowances_at(curves, commanded_deg).springback_deg
    finished = np.clip(finished, low, high)
    for _ in range(200):  # pragma: no branch - a guard; the bracket closes long before
        at = allowances_at(curves, finished)
        excess = finished + at.springback_deg - commanded_deg
        if np.all((np.abs(excess) < 1e-12) | (high - low < 1e-13)):
            break
        high = np.where(excess > 0.0, finished, high)
        low = np.where(excess > 0.0, low, finished)
        with np.errstate(divide="ignore"):
            newton = finished - excess / at.slope
        inside = (newton > low) & (newton < high)
        finished = np.where(excess == 0.0, finished, np.where(inside, newton, 0.5 * (low + high)))
    return finished


def basis_at(curves: AllowanceCurves, angle_deg: float) -> Basis:
    """Where the values for one finished angle [deg] stand."""
    if curves.estimated:
        return Basis(springback="estimated", formed_clr="estimated", elongation="not measured")
    word = _row_word(curves, angle_deg)
    return Basis(
        springback=word,
        formed_clr=word if curves.has_radius else "arc kept",
        elongation=word if curves.has_elongation else "not measured",
    )


def degrees_beyond(curves: AllowanceCurves, angle_deg: float) -> float:
    """How far a finished angle lies beyond the last row [deg]; 0 for an estimate, which has no rows."""
    return 0.0 if curves.estimated else max(0.0, angle_deg - float(curves.angles_deg[-1]))


def lies_beyond_rows(curves: AllowanceCurves, angle_deg: float) -> bool:
    """Whether a finished angle lies outside what was measured; an estimate has no rows to lie outside of."""
    if curves.estimated:
        return False
    return not curves.angles_deg[0] - ON_A_ROW_DEG <= angle_deg <= curves.angles_deg[-1] + ON_A_ROW_DEG


def _row_word(curves: AllowanceCurves, angle_deg: float) -> BasisWord:
    if lies_beyond_rows(curves, angle_deg):
        return "beyond"
    if np.abs(curves.angles_deg - angle_deg).min() <= ON_A_ROW_DEG:
        return "measured"
    return "between"
