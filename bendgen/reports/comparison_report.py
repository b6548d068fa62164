"""Measured pieces against their program, for QA."""

from collections.abc import Iterator, Sequence

from bendgen.records.comparison import Comparison, Deviation, Fit, Ovality, Slip
from bendgen.records.foretold import Foretold
from bendgen.records.series import CheckSeries
from bendgen.reports.blocks import Section, Table, bullets, headed, table
from bendgen.reports.cause_words import cause_words, rival_words
from bendgen.reports.report_text import report_text
from bendgen.reports.series_section import series_section
from bendgen.units import FINE_DECIMALS, Units, counted, format_length, format_number, units_from_mm

DEGREE_DECIMALS = 2
WELL_EXPLAINED = 0.9  # less of a miss explained than this, and the text says that more is wrong

OfPiece = tuple[Section, Comparison | None]  # what is said, and the piece that it is said of


def comparison_text(foretold: Foretold, comparisons: Sequence[Comparison], series: Sequence[CheckSeries]) -> str:
    """The pieces, then the series that they are."""
    pieces = [told for told, _ in comparison_sections(foretold, comparisons)]
    return report_text([*pieces, series_section(series, foretold.units)])


def comparison_sections(foretold: Foretold, comparisons: Sequence[Comparison]) -> list[OfPiece]:
    """Every piece: its verdict, what explains a miss, and all readings of a piece that is out or stands alone."""
    title = f"{foretold.number} {foretold.revision} issue {foretold.issue} (id {foretold.program_id})"
    alone = len(comparisons) == 1
    telling = [comparison for comparison in comparisons if alone or not _unremarkable(comparison)]
    others = [comparison.piece for comparison in comparisons if comparison not in telling]
    told: list[OfPiece] = [(headed(f"{title}: {_verdict(comparisons)}"), None)]
    told += [(_piece_section(one, foretold.units, in_full=alone or not one.in_tolerance), one) for one in telling]
    return [*told, *[(headed(f"in tolerance: {', '.join(others)}"), None)] * bool(others)]


def _unremarkable(comparison: Comparison) -> bool:
    """Judged and in tolerance, and nothing else to say of it."""
    judged_good = comparison.deviations and comparison.in_tolerance
    return bool(judged_good) and not (comparison.causes or comparison.fit or comparison.ovality)


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


def _piece_section(comparison: Comparison, units: Units, *, in_full: bool) -> Section:
    lot = f", lot {comparison.lot}" if comparison.lot else ""
    readings = counted(len(comparison.deviations), "reading")
    title = f"piece {comparison.piece}{lot}: {readings}, {_piece_verdict(comparison.deviations)}"
    shown = comparison.deviations if in_full else ()
    told = (bullets(_said_of_piece(comparison, units)), _deviation_table(shown, units))
    return headed(title, told)


def _said_of_piece(comparison: Comparison, units: Units) -> Iterator[str]:
    yield from _cause_sentences(comparison, units)
    yield from (_slip_words(slip, units) for slip in comparison.slips)
    if comparison.fit is not None:
        yield from _fit_sentences(comparison.fit, units)
    yield from (_ovality_words(ovality, units) for ovality in comparison.ovality)


def _piece_verdict(deviations: Sequence[Deviation]) -> str:
    if not deviations:
        return "NOT JUDGED: nothing was read that has a tolerance"
    out = [deviation.check for deviation in deviations if not deviation.in_tolerance]
    return f"OUT: {', '.join(out)}" if out else "in tolerance"


def _cause_sentences(comparison: Comparison, units: Units) -> Iterator[str]:
    for cause in comparison.causes:
        rivals = f"; {rival_words(cause, units)}" if cause.rivals else ""
        yield f"cause: {cause_words(cause, units)}: {cause.share:.0%} of the miss{rivals}"
    if comparison.causes and comparison.explained < WELL_EXPLAINED:
        yield f"{1.0 - comparison.explained:.0%} of the miss is left unexplained: measure again before correcting"
    if not comparison.causes and not comparison.in_tolerance and not comparison.slips:
        yield "no cause stands out from what machine, protractor and tape scatter"


def _slip_words(slip: Slip, units: Units) -> str:
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
    return f"{slip.check}{line} reads {read}: {question}"


def _fit_sentences(fit: Fit, units: Units) -> Iterator[str]:
    places = ", ".join(f"{point.place} {format_length(point.distance, units)}" for point in fit.points)
    yield f"off the wanted axis after a best fit: {places}; root mean square {format_length(fit.rms, units)}"
    if fit.mirrored_rms is not None and fit.mirrored_rms < fit.rms:
        yield (
            f"its mirror image would lie better, {format_length(fit.mirrored_rms, units)}: the rotation sign, or two "
            "columns of the points exchanged"
        )


def _ovality_words(ovality: Ovality, units: Units) -> str:
    largest, smallest = (format_length(value, units) for value in (ovality.largest, ovality.smallest))
    return (
        f"bend {ovality.bend} is oval, {largest} by {smallest}: (largest - smallest) / mean = {ovality.of_mean:.2f} %, "
        f"/ nominal = {ovality.of_nominal:.2f} %; smallest / largest = {ovality.ratio:.4f}"
    )


def _deviation_table(deviations: Sequence[Deviation], units: Units) -> Table | None:
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
    marked = [number for number, deviation in enumerate(deviations) if not deviation.in_tolerance]
    return table(headings, rows, align="lrrrrrl", marked=marked)


def _number(value: float, deviation: Deviation, units: Units, *, sign: str = "") -> str:
    decimals = DEGREE_DECIMALS if deviation.unit == "deg" else FINE_DECIMALS[units]
    shown = value if deviation.unit == "deg" else units_from_mm(value, units)
    text = format_number(shown, decimals)
    return f"{sign}{text}" if sign and float(text) > 0.0 else text
