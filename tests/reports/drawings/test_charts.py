"""Springback plots and run charts, read back through the numbers beside their own marks."""

from dataclasses import replace
from xml.etree.ElementTree import Element

import numpy as np
import pytest

from bendgen.records.series import CheckSeries
from bendgen.records.trials import LearnedRow, Lesson, SpringbackFit, TubeKind
from bendgen.reports.drawings.chart import Chart, range_around
from bendgen.reports.drawings.run_chart import run_chart
from bendgen.reports.drawings.springback_plot import springback_plot
from tests.independent_bender import Array
from tests.svg_reading import overlapping_texts, path_places, read_drawing, smallest_capitals, texts_outside

LESSON = Lesson(
    kind=TubeKind(die="d50-r100", material="304L", wall=1.5, perforated=False, temper=None),
    lot="7731",
    bends=3,
    rows=(
        LearnedRow(commanded_deg=31.0, angle_deg=29.8, springback_deg=1.2, bends=1),
        LearnedRow(commanded_deg=93.0, angle_deg=90.2, springback_deg=2.8, bends=2, spread_deg=0.2),
    ),
    fit=SpringbackFit(
        coefficients=(0.5, 0.025), covariance=((0.01, 0.0), (0.0, 0.0)), sd_deg=0.1, degrees_of_freedom=1
    ),
)
SERIES = CheckSeries(
    check="angle-1",
    unit="deg",
    tolerance=0.5,
    pieces=("1", "2", "3", "4"),
    deviations=(0.1, -0.2, 0.7, 0.2),
    mean=0.2,
    spread=0.37,
    mean_bounds=(-0.4, 0.8),
    capability=None,
    drift=None,
    drift_shown=False,
)


def values_at(drawing: Element, places: Array) -> Array:
    """Values at places, read off the numbers of both scales as a person would with a ruler, a (k, 2) array."""
    across, upwards = [], []
    for text in drawing.iter("text"):
        try:
            value = float(text.text or "")
        except ValueError:
            continue
        x, y = float(text.get("x") or "nan"), float(text.get("y") or "nan")
        if text.get("text-anchor") == "end":
            upwards.append((y - 0.36 * 3.5, value))
        else:
            across.append((x, value))
    scales = (np.array(across), np.array(upwards))
    columns = [
        np.polynomial.Polynomial.fit(marks[:, 0], marks[:, 1], deg=1)(places[:, i]) for i, marks in enumerate(scales)
    ]
    return np.stack(columns, axis=1)


def path_of(drawing: Element, name: str) -> list[Array]:
    return [path_places(path) for path in drawing.iter("path") if path.get("class") == name]


def check_legible(drawing: Element) -> None:
    assert overlapping_texts(drawing) == []
    assert texts_outside(drawing) == []
    assert smallest_capitals(drawing) >= 2.5


def test_rows_and_curve_stand_where_the_scales_say() -> None:
    plot = springback_plot(LESSON)
    assert plot is not None
    drawing = read_drawing(plot)
    crosses = values_at(drawing, np.array([row.mean(axis=0) for row in path_of(drawing, "row")]))
    np.testing.assert_allclose(crosses, [(29.8, 1.2), (90.2, 2.8)], atol=0.1)
    (curve,) = path_of(drawing, "curve")
    angles, springback = values_at(drawing, curve).T
    np.testing.assert_allclose(springback, 0.5 + 0.025 * angles, atol=0.02)
    check_legible(drawing)


def test_the_band_is_two_standard_deviations_of_one_bend_to_either_side() -> None:
    plot = springback_plot(LESSON)
    assert plot is not None
    drawing = read_drawing(plot)
    band = next(path_places(path) for path in drawing.iter("path") if path.get("stroke") is None)
    springback = values_at(drawing, band)[:, 1]
    upper, lower = springback[: len(band) // 2], springback[len(band) // 2 :][::-1]
    # By hand: the variance of the mean is 0.01, of one bend about it 0.1² = 0.01; two deviations either side.
    np.testing.assert_allclose(upper - lower, 4.0 * np.sqrt(0.02), atol=0.03)


def test_too_few_bends_for_a_curve_are_shown_without_one() -> None:
    plot = springback_plot(replace(LESSON, rows=LESSON.rows[:1], fit=None))
    assert plot is not None
    assert path_of(read_drawing(plot), "curve") == []
    assert springback_plot(replace(LESSON, rows=())) is None


def test_a_fit_without_degrees_of_freedom_has_no_band() -> None:
    assert LESSON.fit is not None
    nan = float("nan")
    exact = replace(LESSON.fit, covariance=((nan, nan), (nan, nan)), sd_deg=nan)
    plot = springback_plot(replace(LESSON, fit=exact))
    assert plot is not None
    assert "nan" not in str(plot)


def test_pieces_stand_in_order_at_their_deviations_and_those_out_in_a_square() -> None:
    drawing = read_drawing(run_chart(SERIES, "mm"))
    (readings,) = path_of(drawing, "readings")
    np.testing.assert_allclose(values_at(drawing, readings)[:, 1], SERIES.deviations, atol=0.02)
    squares = [path_places(path) for path in drawing.iter("path") if len(path_places(path)) == 4]
    out = [square for square in squares if np.ptp(square[:, 0]) == pytest.approx(3.6, abs=0.02)]
    np.testing.assert_allclose([square.mean(axis=0) for square in out], readings[[2]], atol=0.02)
    check_legible(drawing)


def test_lengths_are_charted_in_the_shop_s_unit() -> None:
    of_length = replace(SERIES, check="straight-2", unit="mm", tolerance=2.54, deviations=(25.4, 0.0), mean=12.7)
    drawing = read_drawing(run_chart(of_length, "in"))
    (readings,) = path_of(drawing, "readings")
    np.testing.assert_allclose(values_at(drawing, readings)[:, 1], (1.0, 0.0), atol=0.02)
    assert "straight-2: off the wanted value, in" in [text.text for text in drawing.iter("text")]


@pytest.mark.parametrize("values", [[3.0], [0.0, 0.0], [-1e-3, 1e3]])
def test_a_range_is_never_empty_and_shows_everything(values: list[float]) -> None:
    low, high = range_around(values, 0.5)
    assert low < min(values)
    assert max(values) < high
    assert high - low >= 0.5


def test_counted_things_have_whole_numbers_only() -> None:
    frame = Chart(across=(0.5, 2.5), upwards=(0.0, 1.0), is_counted=True).frame("piece", "deviation")
    said = "".join(frame)
    assert ">1<" in said
    assert ">2<" in said
    assert ">1.5<" not in said
