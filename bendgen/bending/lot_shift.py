"""One bend of a new lot: the newest table of the same tube, moved as a whole to where that bend lies.

A lot that is harder or softer springs back by nearly the same amount more or less at all angles (common practice, no
source), so one bend can place it: every row's springback grows by the difference at the angle of that bend. Where
the table gives radii, the arc that is wound in addition lies in the developed length; elongations stay.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from bendgen.bending.allowances import allowances_at, curves_of_table, degrees_beyond
from bendgen.bending.trial_groups import same_but_for_wall, walls_agree
from bendgen.records.allowances import AllowanceRow, AllowanceTable
from bendgen.records.machine import MachineProfile
from bendgen.records.tooling import DieSet
from bendgen.records.trials import LearnedRow, LotShift, TubeKind

# Common practice, no source: a lot springs back at most twice as much as another, or by this much more.
LARGEST_SHIFT_SHARE = 1.0
LARGEST_SMALL_SHIFT_DEG = 1.0


def tables_of_kind(kind: TubeKind, profile: MachineProfile) -> tuple[AllowanceTable, ...]:
    """Tables that stand for this kind of tube on its die, oldest first; of one day, those for all lots last."""
    fitting = [table for table in profile.tables if _stands_for(table, kind)]
    return tuple(sorted(fitting, key=lambda table: (table.issued, table.lot is None, table.file)))


def _stands_for(table: AllowanceTable, kind: TubeKind) -> bool:
    of_table = TubeKind(
        die=table.die,
        material=table.material,
        wall=table.wall,
        perforated=table.perforated,
        temper=table.temper,
    )
    return same_but_for_wall(of_table, kind) and (
        walls_agree(table.wall, kind.wall) or walls_agree(kind.wall, table.wall)
    )


def lot_shift(row: LearnedRow, base: AllowanceTable, die: DieSet) -> LotShift:
    """How far the bends of `row` lie off the table `base`."""
    at = allowances_at(curves_of_table(base, die.clr), np.array([row.angle_deg]))
    shift = row.springback_deg - float(at.springback_deg[0])
    return LotShift(base=base.file, angle_deg=row.angle_deg, shift_deg=shift)


def shift_refusal(row: LearnedRow, shift: LotShift) -> str | None:
    """Why a lot cannot spring back so differently; None if it can."""
    expected = row.springback_deg - shift.shift_deg
    largest = max(LARGEST_SMALL_SHIFT_DEG, LARGEST_SHIFT_SHARE * expected)
    if abs(shift.shift_deg) <= largest:
        return None
    return (
        f"the bend at {row.angle_deg:.1f}° springs back by {row.springback_deg:.2f}°, {shift.base} says "
        f"{expected:.2f}°: no lot differs by more than {largest:.2f}°, measure it again"
    )


def shift_cautions(shift: LotShift, base: AllowanceTable, die: DieSet) -> tuple[str, ...]:
    """Say where the comparison itself stands on the table's continuation."""
    curves = curves_of_table(base, die.clr)
    first = base.rows[0].angle_deg
    if shift.angle_deg >= first and degrees_beyond(curves, shift.angle_deg) == 0.0:
        return ()
    return (f"{shift.angle_deg:.1f}° lies beyond the rows of {base.file}: the shift is less certain",)


def shifted_rows(rows: Sequence[AllowanceRow], shift_deg: float, die: DieSet) -> tuple[AllowanceRow, ...]:
    """Rows that spring back by `shift_deg` more; the number of bends stays with the table it was counted for."""
    return tuple(
        replace(
            row,
            springback_deg=row.springback_deg + shift_deg,
            clr=None if row.clr is None else shifted_radius(row.clr, shift_deg, row.angle_deg, die),
            bends=None,
        )
        for row in rows
    )


def shifted_radius(clr: float, shift_deg: float, angle_deg: float, die: DieSet) -> float:
    """Setback radius [mm] of a bend of that finished angle that springs back by `shift_deg` more than at `clr`."""
    return clr + die.clr * shift_deg / angle_deg
