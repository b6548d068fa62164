"""A series of pieces, check by check."""

from collections.abc import Sequence

from bendgen.records.series import Capability, CheckSeries
from bendgen.reports.blocks import Section, bullets, section, table
from bendgen.units import FINE_DECIMALS, Units, format_number, units_from_mm

DEGREE_DECIMALS = 3
NOTE = (
    "Mean and spread (one standard deviation) of what the pieces are off the wanted value; in brackets what so few "
    "pieces leave open, 95 %. Cp and Cpk hold for scatter that is normal and a process that does not drift."
)


def series_section(series: Sequence[CheckSeries], units: Units) -> Section | None:
    """Table of all checks, then whatever drifts; None where no check was read on two pieces."""
    if not series:
        return None
    headings = ["check", "pieces", "mean", "", "spread", "Cp", "", "Cpk", ""]
    rows = [_row(of_check, units) for of_check in series]
    drifts = [_drift_words(of_check, units) for of_check in series if of_check.drift_shown]
    return section("Series", table(headings, rows, align="lrrlrrlrl", gap=2), bullets([NOTE, *drifts]))


def _row(series: CheckSeries, units: Units) -> list[str]:
    unit = "°" if series.unit == "deg" else units
    mean = [_number(series.mean, series, units), ""]
    if series.mean_bounds is not None:
        low, high = (_number(bound, series, units) for bound in series.mean_bounds)
        mean[1] = f"({low} to {high}) {unit}"
    spread = "" if series.spread is None else _number(series.spread, series, units)
    return [series.check, str(len(series.pieces)), *mean, spread, *_capability_cells(series.capability)]


def _capability_cells(capability: Capability | None) -> list[str]:
    if capability is None:
        return ["", "", "", ""]
    cells = []
    for value, (low, high) in ((capability.cp, capability.cp_bounds), (capability.cpk, capability.cpk_bounds)):
        cells += [f"{value:.2f}", f"({low:.2f} to {high:.2f})"]
    return cells


def _drift_words(series: CheckSeries, units: Units) -> str:
    unit = "°" if series.unit == "deg" else f" {units}"
    step = _number(series.drift or 0.0, series, units)
    return f"{series.check} drifts by {step}{unit} from piece to piece: more than chance, by Student's t at 1 %"


def _number(value: float, series: CheckSeries, units: Units) -> str:
    if series.unit == "deg":
        return format_number(value, DEGREE_DECIMALS)
    return format_number(units_from_mm(value, units), FINE_DECIMALS[units] + 1)
