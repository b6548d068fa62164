"""Measured pieces against their program, for QA."""

from collections.abc import Sequence

from bendgen.records.comparison import Comparison, Deviation, Fit, Ovality, Slip
from bendgen.records.foretold import Foretold
from bendgen.reports.cause_words import cause_words, rival_words
from bendgen.reports.paragraphs import paragraph
from bendgen.reports.text_table import text_table
from bendgen.units import FINE_DECIMALS, Units, counted, format_length, format_number, units_from_mm

WIDTH = 100
DEGREE_DECIMALS = 2
WELL_EXPLAINED = 0.9  # less of a miss explained than this, and the text says that more is wrong


def comparison_text(foretold: Foretold, comparisons: Sequence[Comparison]) -> str:
    """Every piece: its verdict, what explains a miss, and all readings of a piece that is out or stands alone."""
    title = f"{foretold.number} {foretold.revision} issue {foretold.issue} (id {foretold.program_id})"
    alone = len(comparisons) == 1
    telling = [comparison for comparison in comparisons if alone or not _unremarkable(comparison)]
    blocks = [_piece_text(one, foretold, in_full=alone or not one.in_tolerance) for one in telling]
    blocks += _unremarkable_pieces([one for one in comparisons if one not in telling])
    return "\n\n".join([f"{title}: {_verdict(comparisons)}", *blocks]) + "\n"


def _unremarkable(comparison: Comparison) -> bool:
    """Judged and in tolerance, and nothing else to say of it."""
    judged_good = comparison.deviations and comparison.in_tolerance
    return bool(judged_good) and not (comparison.causes or comparison.fit or comparison.ovality)


def _unremarkable_pieces(comparisons: Sequence[Comparison]) -> list[str]:
    """All of them in one paragraph."""
    if not comparisons:
        return []
    names = ", ".join(comparison.piece for comparison in comparisons)
    return [paragraph(f"in tolerance: {names}", width=WIDTH, other="  ")]


def _verdict(comparisons: Sequence[Comparison]) -> str:
    judged = [comparison for comparison in comparisons if comparison.deviations]
    out = sum(not comparison.in_tolerance for comparison in judged)
    words = [f"{counted(len(comparisons), 'piece')} measured"]
    if len(judged) < len(comparisons):
        words.append(f"{len(comparisons) - len(judged)} NOT JUDGED")
    if judged:
        others = "all" if len(judged) == len(comparisons) else "the others"
        words.append(f"{out} OUT OF TOLERANCE" if out else f"{others} in tolerance")
    return ", ".join(words)


def _piece_text(comparison: Comparison, foretold: Foretold, *, in_full: bool) -> str:
    units = foretold.units
    lot = f", lot {comparison.lot}" if comparison.lot else ""
    readings = counted(len(comparison.deviations), "reading")
    text = f"piece {comparison.piece}{lot}: {readings}, {_piece_verdict(comparison.deviations)}"
    lines = [paragraph(text, width=WIDTH, other="  ")]
    lines += _cause_lines(comparison, units)
    lines += [_slip_line(slip, units) for slip in comparison.slips]
    if comparison.fit is not None:
        lines += _fit_lines(comparison.fit, units)
    lines += [_ovality_line(ovality, units) for ovality in comparison.ovality]
    if in_full and comparison.deviations:
        lines.append(_deviation_table(comparison.deviations, units))
    return "\n".join(lines)


def _piece_verdict(deviations: Sequence[Deviation]) -> str:
    if not deviations:
        return "NOT JUDGED: nothing was read that has a tolerance"
    out = [deviation.check for deviation in deviations if not deviation.in_tolerance]
    return f"OUT: {', '.join(out)}" if out else "in tolerance"


def _cause_lines(comparison: Comparison, units: Units) -> list[str]:
    lines = []
    for cause in comparison.causes:
        text = f"{cause_words(cause, units)}: {cause.share:.0%} of the miss"
        lines.append(paragraph(text, width=WIDTH, first="  cause: ", other="    "))
        if cause.rivals:
            lines.append(paragraph(rival_words(cause, units), width=WIDTH, first="    ", other="    "))
    if comparison.causes and comparison.explained < WELL_EXPLAINED:
        lines.append(
            f"  {1.0 - comparison.explained:.0%} of the miss is left unexplained: measure again before correcting"
        )
    if not comparison.causes and not comparison.in_tolerance and not comparison.slips:
        lines.append("  no cause stands out from what machine, protractor and tape scatter")
    return lines


def _slip_line(slip: Slip, units: Units) -> str:
    """A question, with the number as it was perhaps meant."""
    read, meant = (
        f"{format_number(value, DEGREE_DECIMALS)}°" if slip.unit == "deg" else format_length(value, units)
        for value in (slip.measured, slip.meant)
    )
    question = {
        "unit": f"is the unit right? In the other one it is {meant}",
        "other side": f"was it read from the other side? 180° less that is {meant}",
        "decimal point": f"is the decimal point right? It may be {meant}",
    }[slip.kind]
    line = f", line {slip.line}," if slip.line else ""
    return paragraph(f"{slip.check}{line} reads {read}: {question}", width=WIDTH, first="  ", other="    ")


def _fit_lines(fit: Fit, units: Units) -> list[str]:
    places = ", ".join(f"{point.place} {format_length(point.distance, units)}" for point in fit.points)
    text = f"off the wanted axis after a best fit: {places}; root mean square {format_length(fit.rms, units)}"
    lines = [paragraph(text, width=WIDTH, first="  ", other="    ")]
    if fit.mirrored_rms is not None and fit.mirrored_rms < fit.rms:
        text = (
            f"its mirror image would lie better, {format_length(fit.mirrored_rms, units)}: the rotation sign, or two "
            "columns of the points exchanged"
        )
        lines.append(paragraph(text, width=WIDTH, first="  ", other="    "))
    return lines


def _ovality_line(ovality: Ovality, units: Units) -> str:
    largest, smallest = (format_length(value, units) for value in (ovality.largest, ovality.smallest))
    text = (
        f"bend {ovality.bend} is oval, {largest} by {smallest}: (largest - smallest) / mean = {ovality.of_mean:.2f} %, "
        f"/ nominal = {ovality.of_nominal:.2f} %; smallest / largest = {ovality.ratio:.4f}"
    )
    return paragraph(text, width=WIDTH, first="  ", other="    ")


def _deviation_table(deviations: Sequence[Deviation], units: Units) -> str:
    headings = ["check", "measured", "predicted", "wanted", "off wanted", "tolerance", ""]
    rows = [
        [
            deviation.check,
            _number(deviation.measured, deviation, units),
            _number(deviation.predicted, deviation, units),
            _number(deviation.wanted, deviation, units),
            _number(deviation.from_wanted, deviation, units, sign="+"),
            f"± {_number(deviation.tolerance, deviation, units)} {'°' if deviation.unit == 'deg' else units}",
            "" if deviation.in_tolerance else "OUT",
        ]
        for deviation in deviations
    ]
    return "\n".join("  " + line for line in text_table(headings, rows, align="lrrrrrl", gap=3).splitlines())


def _number(value: float, deviation: Deviation, units: Units, *, sign: str = "") -> str:
    decimals = DEGREE_DECIMALS if deviation.unit == "deg" else FINE_DECIMALS[units]
    shown = value if deviation.unit == "deg" else units_from_mm(value, units)
    text = format_number(shown, decimals)
    return f"{sign}{text}" if sign and float(text) > 0.0 else text
