"""What trial bends taught, for the people who bent them."""

import math
from collections.abc import Sequence

from bendgen.records.trials import LearnedRow, Lesson, NextBend, SpringbackFit
from bendgen.reports.paragraphs import paragraph
from bendgen.reports.text_table import text_table
from bendgen.units import FINE_DECIMALS, Units, counted, format_length, format_number, units_from_mm

WIDTH = 110
CONTINUED = "*"
POWERS = ("", " · θ", " · θ²")


def trials_text(lessons: Sequence[Lesson], units: Units) -> str:
    """All lessons of one file, lengths in `units`."""
    return "\n\n".join(_lesson_text(lesson, units) for lesson in lessons) + "\n"


def _lesson_text(lesson: Lesson, units: Units) -> str:
    blocks = [_title(lesson, units), *_outcome(lesson)]
    if lesson.rows:
        blocks.append(_rows_text(lesson, units))
    if lesson.fit is not None:
        blocks.append(_fit_text(lesson.fit))
    blocks += [_item(f"line {found.line}, {found.reading} left out: ", found.text) for found in lesson.left_out]
    blocks += [_item("caution: ", caution) for caution in lesson.cautions]
    if lesson.next_bend is not None:
        blocks.append(_next_text(lesson.next_bend, lesson))
    return "\n".join(blocks)


def _item(label: str, text: str) -> str:
    return paragraph(label + text, width=WIDTH, other="  ")


def _title(lesson: Lesson, units: Units) -> str:
    kind = lesson.kind
    facts = [kind.material + (f" {kind.temper}" if kind.temper else ""), f"wall {format_length(kind.wall, units)}"]
    facts += ["perforated" if kind.perforated else "plain", *([f"lot {lesson.lot}"] if lesson.lot else [])]
    used = sum(row.bends for row in lesson.rows)
    return f"{kind.die}, {', '.join(facts)}: {used} of {counted(lesson.bends, 'bend')} used"


def _outcome(lesson: Lesson) -> list[str]:
    if lesson.table is None:
        return [_item("not written: ", lesson.refusal or "")]
    lines = [f"wrote {lesson.table.file}"]
    if lesson.shift is not None:
        text = (
            f"one angle of a lot cannot make a table: every springback of {lesson.shift.base} is shifted by "
            f"{lesson.shift.shift_deg:+.2f}°, the difference at {lesson.shift.angle_deg:.1f}°"
        )
        lines.append(_item("", text))
    if lesson.table.lot is not None:
        lines.append(_item("", "parts that name no lot use it, too, while no newer table serves them"))
    return lines


def _rows_text(lesson: Lesson, units: Units) -> str:
    rows = lesson.rows
    columns = [
        ("commanded [°]", [format_number(row.commanded_deg, 1) for row in rows]),
        ("finished [°]", [format_number(row.angle_deg, 2) for row in rows]),
        ("springback [°]", [format_number(row.springback_deg, 2) for row in rows]),
        ("bends", [str(row.bends) for row in rows]),
        ("spread [°]", _cells([row.spread_deg for row in rows], 2)),
        (f"setback radius [{units}]", _length_cells([(row.clr, row.clr_measured) for row in rows], units)),
        (
            f"elongation [{units}]",
            _length_cells([(row.elongation, row.elongation_measured) for row in rows], units),
        ),
        (f"gauge radius [{units}]", _length_cells([(row.gauge_clr, True) for row in rows], units)),
    ]
    if not any(row.clr for row in rows):
        columns.append((f"2T - blank used [{units}]", _length_cells(_sums(rows), units)))
    filled = [(heading, cells) for heading, cells in columns if any(cells)]
    headings = [heading for heading, _ in filled]
    table = text_table(headings, list(zip(*(cells for _, cells in filled), strict=True)), align="r" * len(filled))
    return "\n".join([table, *_notes(rows)])


def _sums(rows: Sequence[LearnedRow]) -> list[tuple[float | None, bool]]:
    return [(row.legs_less_blank, True) for row in rows]


def _cells(values: Sequence[float | None], decimals: int) -> list[str]:
    return ["" if value is None else format_number(value, decimals) for value in values]


def _length_cells(values: Sequence[tuple[float | None, bool]], units: Units) -> list[str]:
    """Lengths; those that were not measured at their own angle carry a mark."""
    return [
        ""
        if value is None
        else format_number(units_from_mm(value, units), FINE_DECIMALS[units]) + ("" if measured else CONTINUED)
        for value, measured in values
    ]


def _notes(rows: Sequence[LearnedRow]) -> list[str]:
    notes = []
    if any((row.clr and not row.clr_measured) or (row.elongation and not row.elongation_measured) for row in rows):
        notes.append(_item("", f"{CONTINUED} not measured at this angle: continued from the other rows"))
    if not any(row.clr for row in rows) and any(row.legs_less_blank for row in rows):
        text = (
            "2T - blank used, both legs less the blank, is R (2 tan(θ/2) - θ) + elongation: one equation, which cannot "
            "tell the setback radius R from the elongation; note the feed and they come apart"
        )
        notes.append(_item("", text))
    return notes


def _fit_text(fit: SpringbackFit) -> str:
    terms = [f"{value:.3g}{power}" for value, power in zip(fit.coefficients, POWERS, strict=False)]
    shown = " + ".join(terms).replace("+ -", "- ")
    if math.isfinite(fit.sd_deg):
        freedom = counted(fit.degrees_of_freedom, "degree")
        scatter = f"one bend scatters by {fit.sd_deg:.2f}° (one standard deviation, {freedom} of freedom)"
    else:
        scatter = "too few bends to see how much one scatters"
    return _item("", f"springback about {shown} degrees for a finished angle of θ degrees; {scatter}")


def _next_text(bend: NextBend, lesson: Lesson) -> str:
    text = (
        f"command {bend.commanded_deg:.1f}° for {bend.finished_deg:.1f}° finished, {_reason(bend, lesson.rows)}: over "
        f"{bend.matters} the springback is now known to {bend.deviation_before_deg:.2f}°, with that bend to "
        f"{bend.deviation_after_deg:.2f}° (one standard deviation, root mean square)"
    )
    return _item("bend next: ", text)


def _reason(bend: NextBend, rows: Sequence[LearnedRow]) -> str:
    below = [row.angle_deg for row in rows if row.angle_deg < bend.finished_deg]
    above = [row.angle_deg for row in rows if row.angle_deg > bend.finished_deg]
    if bend.repeat:
        return "again, as a mean scatters less than one bend"
    if not below:
        return f"as nothing was bent below {above[0]:.1f}°"
    if not above:
        return f"as nothing was bent above {below[-1]:.1f}°"
    return f"in the gap between {below[-1]:.1f}° and {above[0]:.1f}°"
