"""What trial bends taught, for the people who bent them."""

import math
from collections.abc import Iterator, Sequence

from bendgen.records.trials import LearnedRow, Lesson, NextBend, SpringbackFit
from bendgen.reports.blocks import Section, Table, bullets, headed, table
from bendgen.reports.report_text import report_text
from bendgen.units import FINE_DECIMALS, Units, counted, format_length, format_number, units_from_mm

CONTINUED = "*"
POWERS = ("", " · θ", " · θ²")


def trials_text(lessons: Sequence[Lesson], units: Units) -> str:
    """All lessons of one file, lengths in `units`."""
    return report_text(trials_sections(lessons, units))


def trials_sections(lessons: Sequence[Lesson], units: Units) -> list[Section]:
    """The same, one section of each lesson."""
    return [_lesson_section(lesson, units) for lesson in lessons]


def _lesson_section(lesson: Lesson, units: Units) -> Section:
    told = (bullets(_outcome(lesson)), _rows_table(lesson.rows, units), bullets(_said_below(lesson)))
    return headed(_title(lesson, units), told)


def _said_below(lesson: Lesson) -> Iterator[str]:
    """What is to be known of the rows, and what to do next."""
    yield from _notes(lesson.rows)
    if lesson.fit is not None:
        yield _fit_words(lesson.fit)
    yield from (f"line {found.line}, {found.reading} left out: {found.text}" for found in lesson.left_out)
    yield from (f"caution: {caution}" for caution in lesson.cautions)
    if lesson.next_bend is not None:
        yield _next_words(lesson.next_bend, lesson)


def _title(lesson: Lesson, units: Units) -> str:
    kind = lesson.kind
    facts = [kind.material + (f" {kind.temper}" if kind.temper else ""), f"wall {format_length(kind.wall, units)}"]
    facts += ["perforated" if kind.perforated else "plain", *([f"lot {lesson.lot}"] if lesson.lot else [])]
    used = sum(row.bends for row in lesson.rows)
    return f"{kind.die}, {', '.join(facts)}: {used} of {counted(lesson.bends, 'bend')} used"


def _outcome(lesson: Lesson) -> Iterator[str]:
    if lesson.table is None:
        yield f"not written: {lesson.refusal or ''}"
        return
    yield f"wrote {lesson.table.file}"
    if lesson.shift is not None:
        yield (
            f"one angle of a lot cannot make a table: every springback of {lesson.shift.base} is shifted by "
            f"{lesson.shift.shift_deg:+.2f}°, the difference at {lesson.shift.angle_deg:.1f}°"
        )
    if lesson.table.lot is not None:
        yield "parts that name no lot use it, too, while no newer table serves them"


def _rows_table(rows: Sequence[LearnedRow], units: Units) -> Table | None:
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
    return table(headings, zip(*(cells for _, cells in filled), strict=True), align="r" * len(filled), gap=2)


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


def _notes(rows: Sequence[LearnedRow]) -> Iterator[str]:
    if any((row.clr and not row.clr_measured) or (row.elongation and not row.elongation_measured) for row in rows):
        yield f"{CONTINUED} not measured at this angle: continued from the other rows"
    if not any(row.clr for row in rows) and any(row.legs_less_blank for row in rows):
        yield (
            "2T - blank used, both legs less the blank, is R (2 tan(θ/2) - θ) + elongation: one equation, which cannot "
            "tell the setback radius R from the elongation; note the feed and they come apart"
        )


def _fit_words(fit: SpringbackFit) -> str:
    terms = [f"{value:.3g}{power}" for value, power in zip(fit.coefficients, POWERS, strict=False)]
    shown = " + ".join(terms).replace("+ -", "- ")
    if math.isfinite(fit.sd_deg):
        freedom = counted(fit.degrees_of_freedom, "degree")
        scatter = f"one bend scatters by {fit.sd_deg:.2f}° (one standard deviation, {freedom} of freedom)"
    else:
        scatter = "too few bends to see how much one scatters"
    return f"springback about {shown} degrees for a finished angle of θ degrees; {scatter}"


def _next_words(bend: NextBend, lesson: Lesson) -> str:
    return (
        f"bend next: command {bend.commanded_deg:.1f}° for {bend.finished_deg:.1f}° finished, "
        f"{_reason(bend, lesson.rows)}: over {bend.matters} the springback is now known to "
        f"{bend.deviation_before_deg:.2f}°, with that bend to {bend.deviation_after_deg:.2f}° (one standard deviation, "
        "root mean square)"
    )


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
