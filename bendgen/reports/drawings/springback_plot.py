"""Springback learned from trial bends: every row with its spread, the curve through all bends, and its band."""

from collections.abc import Iterator

import numpy as np
from htpy import Element

from bendgen.geometry.vectors import Array
from bendgen.records.trials import LearnedRow, Lesson, SpringbackFit
from bendgen.reports.drawings.chart import HEIGHT, WIDTH, Chart, range_around
from bendgen.reports.drawings.paper import MACHINE, Ink, drawing, path_data, polyline, surface, words

STEPS = 60  # along the curve
BAND = 2.0  # standard deviations of one bend
ARM = 1.2  # of the cross at a row
LEAST_ACROSS_DEG, LEAST_UPWARDS_DEG = 10.0, 0.5
CROSSES = "Cross: a row of the table; bar: one standard deviation of its bends."
CURVE = "Curve: through all bends; grey: two standard deviations of one bend to either side."


def springback_plot(lesson: Lesson) -> Element | None:
    """Chart of a lesson's rows; None where it has none."""
    if not lesson.rows:
        return None
    angles = np.array([row.angle_deg for row in lesson.rows])
    along = np.linspace(angles.min(), angles.max(), STEPS)
    curve = None if lesson.fit is None else _curve(lesson.fit, along)
    shown = [row.springback_deg + side * (row.spread_deg or 0.0) for row in lesson.rows for side in (-1.0, 1.0)]
    if curve is not None:
        shown += [*(curve[0] - curve[1]), *(curve[0] + curve[1])]
    chart = Chart(
        across=range_around(angles, LEAST_ACROSS_DEG), upwards=range_around(np.array(shown), LEAST_UPWARDS_DEG)
    )
    pieces = [
        *(() if curve is None else _with_band(chart, along, *curve)),
        *(piece for row in lesson.rows for piece in _cross(chart, row)),
        *chart.frame("finished angle, °", "springback, °"),
        words(CROSSES, (1.0, HEIGHT - 6.0), anchor="start"),
        words(CURVE if curve is not None else "", (1.0, HEIGHT - 1.5), anchor="start"),
    ]
    return drawing(WIDTH, HEIGHT, "Springback over the finished angle", pieces)


def _curve(fit: SpringbackFit, angles_deg: Array) -> tuple[Array, Array]:
    """Springback at angles, and half the band of one bend there; 0 where the bends are too few to tell."""
    powers = np.stack([angles_deg**power for power in range(len(fit.coefficients))], axis=1)
    of_mean = np.einsum("ij,jk,ik->i", powers, np.array(fit.covariance), powers)
    half = BAND * np.sqrt(fit.sd_deg**2 + of_mean)
    return powers @ np.array(fit.coefficients), np.nan_to_num(half)


def _with_band(chart: Chart, along: Array, curve: Array, half: Array) -> Iterator[Ink]:
    there, back = chart.places(along, curve + half), chart.places(along[::-1], (curve - half)[::-1])
    yield surface(path_data(np.concatenate((there, back))), MACHINE)
    yield polyline("outline", chart.places(along, curve), class_="curve")


def _cross(chart: Chart, row: LearnedRow) -> Iterator[Ink]:
    """Cross at a row, and a bar as long as its bends spread."""
    ((x, y),) = chart.places([row.angle_deg], [row.springback_deg]).tolist()
    yield polyline("outline", ((x - ARM, y - ARM), (x + ARM, y + ARM)), class_="row")
    yield polyline("outline", ((x - ARM, y + ARM), (x + ARM, y - ARM)))
    if row.spread_deg:
        ends = (row.springback_deg - row.spread_deg, row.springback_deg + row.spread_deg)
        yield polyline("narrow", chart.places([row.angle_deg] * 2, ends))
