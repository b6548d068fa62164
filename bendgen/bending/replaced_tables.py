"""What is lost when a new table takes the place of an older one.

The newest table serves all parts that name no lot, so a short set of trial bends would silently take from them what
an older and fuller set had measured: setback radius, elongation, angles.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from bendgen.bending.allowances import allowances_at, curves_of_table
from bendgen.bending.lot_shift import shifted_radius, tables_of_kind
from bendgen.records.allowances import AllowanceTable
from bendgen.records.machine import MachineProfile
from bendgen.records.tooling import DieSet
from bendgen.records.trials import Lesson, TubeKind
from bendgen.units import Units, format_length

SAME_END_DEG = 1.0  # common practice, no source: the same command, bent on another day, ends as near as this


def with_losses(lesson: Lesson, profile: MachineProfile) -> Lesson:
    """Lesson with a caution for all that the tables replaced by its own hold and its own does not."""
    if lesson.table is None:
        return lesson
    return replace(lesson, cautions=(*lesson.cautions, *_cautions(lesson.table, lesson.kind, profile)))


def _cautions(table: AllowanceTable, kind: TubeKind, profile: MachineProfile) -> Iterator[str]:
    known = tables_of_kind(kind, profile)
    yield from _still_in_use(table, known[-1:])
    for older in _replaced(table, known):
        yield from _lost_lengths(table, older, profile.die(kind.die), profile.units)
        yield from _lost_angles(table, older)
        if older.proven_angle_deg is not None and table.proven_angle_deg is None:
            proven = f"{older.proven_angle_deg:g}°"
            yield f"{_holds(older)} proven_angle, {proven}: add it to the new file, if it still holds"


def _still_in_use(table: AllowanceTable, newest: Sequence[AllowanceTable]) -> Iterator[str]:
    for other in newest:
        if other.issued > table.issued:
            whose = "parts" if table.lot is None else f"parts that do not name lot '{table.lot}'"
            yield f"{whose} go on using {other.file}: it is issued {other.issued}, after this one"


def _replaced(table: AllowanceTable, known: Sequence[AllowanceTable]) -> list[AllowanceTable]:
    """The newest of those `known`, and the newest of the table's own lot, as far as they are older."""
    of_lot = [other for other in known if table.lot is not None and other.lot == table.lot]
    return [other for other in dict.fromkeys([*known[-1:], *of_lot[-1:]]) if other.issued < table.issued]


def _holds(older: AllowanceTable) -> str:
    return f"it takes the place of {older.file}, which holds"


def _lost_lengths(table: AllowanceTable, older: AllowanceTable, die: DieSet, units: Units) -> Iterator[str]:
    radii, gains = _older_lengths(table, older, die)
    if older.rows[0].clr is not None and table.rows[0].clr is None:
        yield (
            f"{_holds(older)} the setback radius; without it every bend is placed as if the wound arc kept its length. "
            f"To keep it, note feed and front leg of trial bends, too, or {_typed_in('clr', radii, table, units)}"
        )
    if older.rows[0].elongation is not None and table.rows[0].elongation is None:
        yield (
            f"{_holds(older)} elongation; without it blanks are sawn as if no bend gained length. To keep it, note "
            f"feed, blank and both legs of trial bends, too, or {_typed_in('elongation', gains, table, units)}"
        )


def _older_lengths(table: AllowanceTable, older: AllowanceTable, die: DieSet) -> tuple[list[float], list[float]]:
    """Setback radii, for the springback of the new table, and elongations that the older one gives at its angles."""
    at = allowances_at(curves_of_table(older, die.clr), np.array([row.angle_deg for row in table.rows]))
    radii = [
        shifted_radius(float(clr), row.springback_deg - float(springback), row.angle_deg, die)
        for row, clr, springback in zip(table.rows, at.clr, at.springback_deg, strict=True)
    ]
    return radii, at.elongation.tolist()


def _typed_in(key: str, lengths: Sequence[float], table: AllowanceTable, units: Units) -> str:
    values = ", ".join(
        f"{format_length(length, units)} at {row.angle_deg:.1f}°"
        for length, row in zip(lengths, table.rows, strict=True)
    )
    return f"add `{key}` to every row of the new file: the older one says {values}"


def _lost_angles(table: AllowanceTable, older: AllowanceTable) -> Iterator[str]:
    first, last = table.rows[0].angle_deg, table.rows[-1].angle_deg
    older_first, older_last = older.rows[0].angle_deg, older.rows[-1].angle_deg
    lost = [f"below {first:.1f}°"] * (first - older_first > SAME_END_DEG)
    lost += [f"above {last:.1f}°"] * (older_last - last > SAME_END_DEG)
    if lost:
        yield (
            f"{_holds(older)} angles from {older_first:.1f} to {older_last:.1f}°; bends {' and '.join(lost)} are trial "
            "pieces from now on. To keep them, make trial bends there, too, and give all of them in one CSV; until "
            "then take the new file out of tables/, and parts use the older one"
        )
