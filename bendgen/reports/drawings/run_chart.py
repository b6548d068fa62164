"""One check from piece to piece: what each was off the wanted value, the tolerance and the mean."""

from collections.abc import Iterator

from htpy import Element

from bendgen.records.comparison import SPARE
from bendgen.records.series import CheckSeries
from bendgen.reports.drawings.chart import FRAME, HEIGHT, WIDTH, Chart, range_around
from bendgen.reports.drawings.dimensions import spread
from bendgen.reports.drawings.paper import (
    LETTERS,
    MIDDLE_TO_BASELINE,
    Ink,
    LineKind,
    Place,
    dot,
    drawing,
    polyline,
    rectangle,
    words,
)
from bendgen.units import Units, units_from_mm

SQUARE = 1.8  # half of the square around a reading out of tolerance [paper mm]
NOTE = "Pieces in the order in which they were made; a square: out of tolerance."


def run_chart(series: CheckSeries, units: Units) -> Element:
    """Chart of one check; lengths in the shop's unit."""
    unit = "°" if series.unit == "deg" else units
    tolerance, mean = _shown(series.tolerance, series, units), _shown(series.mean, series, units)
    readings = [_shown(deviation, series, units) for deviation in series.deviations]
    chart = Chart(
        across=(0.5, len(readings) + 0.5),
        upwards=range_around([*readings, -tolerance, tolerance], 0.01),
        is_counted=True,
    )
    places = chart.places(range(1, len(readings) + 1), readings)
    levels: dict[str, tuple[float, LineKind]] = {
        "+ tolerance": (tolerance, "hidden"),
        "mean": (mean, "axis"),
        "wanted": (0.0, "narrow"),
        "- tolerance": (-tolerance, "hidden"),
    }
    pieces = [
        *_levels(chart, levels),
        polyline("outline", places, class_="readings"),
        *(dot(place, 0.9) for place in places.tolist()),
        *(
            _square(place)
            for place, deviation in zip(places.tolist(), series.deviations, strict=True)
            if abs(deviation) > series.tolerance + SPARE
        ),
        *chart.frame("piece", f"{series.check}: off the wanted value, {unit}"),
        words(NOTE, (1.0, HEIGHT - 1.5), anchor="start"),
    ]
    return drawing(WIDTH, HEIGHT, f"{series.check} from piece to piece", pieces)


def _shown(value: float, series: CheckSeries, units: Units) -> float:
    return value if series.unit == "deg" else units_from_mm(value, units)


def _levels(chart: Chart, levels: dict[str, tuple[float, LineKind]]) -> Iterator[Ink]:
    """Lines across the frame, named at its right where the names have room."""
    heights = []
    for value, kind in levels.values():
        line = chart.places(chart.across, [value, value])
        yield polyline(kind, line)
        heights.append(float(line[0, 1]))
    order = sorted(range(len(heights)), key=heights.__getitem__)
    names = list(levels)
    for i, y in zip(order, spread([heights[i] for i in order], 1.15 * LETTERS), strict=True):
        yield words(names[i], (FRAME.right + 1.5, y + MIDDLE_TO_BASELINE), anchor="start")


def _square(place: Place) -> Ink:
    x, y = place
    low, high = (x - SQUARE, y - SQUARE), (x + SQUARE, y + SQUARE)
    return rectangle("outline", low, high)
