"""The table that learned rows make."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from bendgen.records.allowances import AllowanceRow, AllowanceTable
from bendgen.records.trials import LearnedRow, Lesson, TrialSource
from bendgen.units import FINE_DECIMALS, MM_PER_UNIT, Units

ANGLE_DECIMALS = 4  # far finer than any protractor, and short enough to read


def table_of_lesson(lesson: Lesson, units: Units, source: TrialSource) -> AllowanceTable:
    """Table with the rows of a lesson, without a file name yet."""
    kind = lesson.kind
    rows = [
        AllowanceRow(
            angle_deg=row.angle_deg,
            springback_deg=row.springback_deg,
            elongation=row.elongation,
            clr=row.clr,
            bends=row.bends,
            spread_deg=row.spread_deg,
        )
        for row in lesson.rows
    ]
    return AllowanceTable(
        file="",
        die=kind.die,
        material=kind.material,
        wall=kind.wall,
        perforated=kind.perforated,
        temper=kind.temper,
        lot=lesson.lot,
        source=f"trial bends: {source.file}{_continued_words(lesson.rows)}",
        issued=source.issued,
        rows=rounded_rows(rows, units),
    )


def _continued_words(rows: Sequence[LearnedRow]) -> str:
    """Which values were not measured at their own angle."""
    continued = {
        "clr": [row for row in rows if row.clr is not None and not row.clr_measured],
        "elongation": [row for row in rows if row.elongation is not None and not row.elongation_measured],
    }
    return "".join(
        f"; {key} at {', '.join(f'{row.angle_deg:.1f}' for row in lacking)}° continued from the other rows"
        for key, lacking in continued.items()
        if lacking
    )


def rounded_rows(rows: Iterable[AllowanceRow], units: Units) -> tuple[AllowanceRow, ...]:
    """Rows without the noise of arithmetic, in a file whose lengths are in `units`."""
    return tuple(_rounded(row, units) for row in rows)


def _rounded(row: AllowanceRow, units: Units) -> AllowanceRow:
    def length(value: float | None) -> float | None:
        unit = MM_PER_UNIT[units]
        return None if value is None else round(value / unit, FINE_DECIMALS[units] + 1) * unit

    return replace(
        row,
        angle_deg=round(row.angle_deg, ANGLE_DECIMALS),
        springback_deg=round(row.springback_deg, ANGLE_DECIMALS),
        elongation=length(row.elongation),
        clr=length(row.clr),
        spread_deg=None if row.spread_deg is None else round(row.spread_deg, ANGLE_DECIMALS),
    )
