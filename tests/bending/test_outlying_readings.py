"""Readings that do not belong: blunders are named, honest scatter is left alone, however the springback curves."""

from collections.abc import Callable

import numpy as np
import pytest

from bendgen.bending.outlying_readings import fitting_degree, outlying_readings

USUAL_SD = 0.11
LAWS: dict[str, Callable[[np.ndarray], np.ndarray]] = {
    "line": lambda c: 0.6 + 0.02 * c,
    "parabola": lambda c: 0.6 + 0.03 * c - 6e-5 * c**2,
    "root": lambda c: 0.35 * np.sqrt(c),
}
ANGLES = [(30, 60, 90, 120), (15, 30, 60, 90, 120), (20, 40, 60, 80, 100, 120), (20, 20, 60, 60, 90, 90, 120, 120)]


@pytest.mark.parametrize("law", LAWS)
@pytest.mark.parametrize("angles", ANGLES, ids=str)
def test_honest_sets_stay_whole_and_blunders_are_named(law: str, angles: tuple[int, ...]) -> None:
    rng = np.random.default_rng(20260314)
    places = np.array(angles, dtype=float)
    false_alarms = missed = 0
    for _ in range(200):
        readings = LAWS[law](places) + rng.normal(0.0, 0.1, len(places))
        false_alarms += bool(outlying_readings(places, readings, usual_sd=USUAL_SD))
        wrong = int(rng.integers(len(places)))
        readings[wrong] += rng.choice([-9.0, 9.0])
        named = [found.index for found in outlying_readings(places, readings, usual_sd=USUAL_SD) if found.nameable]
        missed += named != [wrong]
    assert false_alarms <= 1  # at most 0.13 % in long runs
    assert missed <= 4


def test_seventy_eight_typed_for_eighty_seven() -> None:
    commanded = np.array([30.0, 60.0, 90.0, 120.0])
    (found,) = outlying_readings(commanded, commanded - [28.8, 58.1, 78.0, 116.9], usual_sd=USUAL_SD)
    assert (found.index, found.nameable) == (2, True)
    assert found.deviation == pytest.approx(12.0 - 2.45, abs=0.1)
    assert found.limit < 3.0


def test_two_blunders_do_not_hide_each_other() -> None:
    commanded = np.array([20.0, 35.0, 50.0, 65.0, 80.0, 95.0, 110.0, 125.0])
    springback = 0.6 + 0.02 * commanded
    springback[[2, 6]] += 9.0
    found = outlying_readings(commanded, springback, usual_sd=USUAL_SD)
    assert sorted(outlier.index for outlier in found) == [2, 6]


def test_three_angles_show_a_blunder_but_not_which() -> None:
    commanded = np.array([30.0, 60.0, 90.0])
    (found,) = outlying_readings(commanded, np.array([1.2, 1.9, 12.0]), usual_sd=USUAL_SD)
    assert not found.nameable


@pytest.mark.parametrize("places", [[], [90.0], [90.0, 90.0], [30.0, 90.0], [90.0, 90.0, 90.0]])
def test_too_few_to_compare(places: list[float]) -> None:
    readings = np.arange(len(places), dtype=float) * 20.0
    assert outlying_readings(np.array(places), readings, usual_sd=USUAL_SD) == ()


def test_the_only_reading_at_an_end_of_two_angles_cannot_be_judged() -> None:
    places = np.array([90.0, 90.0, 90.0, 30.0])
    assert outlying_readings(places, np.array([2.5, 2.6, 2.4, 9.0]), usual_sd=USUAL_SD) == ()
    (found,) = outlying_readings(places, np.array([2.5, 12.0, 2.4, 1.0]), usual_sd=USUAL_SD)
    assert found.index == 1


def test_degree_by_number_of_different_places() -> None:
    assert [fitting_degree(np.array(x, dtype=float)) for x in ([5, 5], [5, 9], range(5), range(6))] == [0, 1, 1, 2]
