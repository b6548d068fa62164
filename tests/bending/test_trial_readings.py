"""One trial bend by itself: the formulas by hand, and readings that cannot be."""

import math
from dataclasses import replace

import pytest

from bendgen.bending.trial_readings import (
    check_angle,
    check_lengths,
    elongation,
    kept_radius,
    legs_less_blank,
    setback_radius,
    tangent_length,
)
from bendgen.records.tooling import DieSet
from bendgen.records.trials import TrialBend, TubeKind

KIND = TubeKind(die="d40-r150", material="304L", wall=1.5, perforated=False)
DIE = DieSet(id="d40-r150", tube_od=40.0, clr=150.0, clamp=100.0, largest_bend_deg=180.0)
BEND = TrialBend(line=2, kind=KIND, commanded_deg=92.0, measured_deg=90.0)


def test_a_right_angle_by_hand() -> None:
    bend = replace(BEND, feed=200.0, front_leg=353.0, rear_leg=400.0, blank=520.0)
    assert tangent_length(bend, DIE) == 153.0
    assert setback_radius(bend, DIE) == pytest.approx(153.0)
    assert legs_less_blank(bend, DIE) == 233.0
    used = 520.0 - 353.0 - 400.0 + 2 * 153.0
    assert elongation(bend, DIE, 153.0) == pytest.approx(153.0 * math.pi / 2 - used)
    assert elongation(replace(bend, carriage_move=235.0), DIE, 153.0) == pytest.approx(153.0 * math.pi / 2 - 235.0)


def test_outer_apex_legs_are_longer_by_half_the_od_at_a_right_angle() -> None:
    apex = replace(BEND, feed=200.0, front_leg=353.0, rear_leg=400.0, blank=520.0)
    outer = replace(apex, front_leg=373.0, rear_leg=420.0, legs="outer_apex")
    assert setback_radius(outer, DIE) == pytest.approx(153.0)
    assert legs_less_blank(outer, DIE) == pytest.approx(233.0)


def test_finished_right_angle_measured_on_a_four_inch_die() -> None:
    """Case of apex to tangent 4.04 in: formed radius 4.04, wound 90.9° with the arc kept, arc 6.34602 in."""
    inch = 25.4
    die = replace(DIE, clr=4.0 * inch)
    bend = replace(BEND, commanded_deg=90.9, feed=10.0 * inch, front_leg=14.04 * inch)
    radius = setback_radius(bend, die)
    assert radius is not None
    assert radius == pytest.approx(4.04 * inch)
    assert kept_radius(bend, die) == pytest.approx(4.04 * inch)
    assert bend.springback_deg == pytest.approx(0.9)
    assert radius * math.pi / 2 / inch == pytest.approx(6.34602, abs=0.5e-5)


def test_case_13_an_implausible_reading() -> None:
    """Blank 1000, OD 40, die CLR 150, outer legs 560 and 570: read as a formed radius of 209.7, 40 % over the die."""
    bend = replace(BEND, commanded_deg=90.0, blank=1000.0, front_leg=560.0, rear_leg=570.0, legs="outer_apex")
    (found,) = check_lengths(bend, DIE, "mm")
    assert found.reading == "lengths"
    assert found.text == (
        "blank and legs mean a formed radius of 209.69 mm, 40 % over the die's, or an elongation of 25.62 mm; "
        "plausible is at most 8 % of the arc"
    )
    sum_of_legs = 1104.38  # what the legs of this bend should add up to, from outside
    right = replace(bend, front_leg=sum_of_legs / 2, rear_leg=sum_of_legs / 2)
    assert legs_less_blank(right, DIE) == pytest.approx(150.0 * (2.0 - math.pi / 2), abs=0.005)
    assert list(check_lengths(right, DIE, "mm")) == []


def test_a_radius_far_off_the_die() -> None:
    bend = replace(BEND, feed=200.0, front_leg=410.0)
    (found,) = check_lengths(bend, DIE, "mm")
    assert found.text == (
        "feed and front leg mean a formed radius of 210 mm, 40 % over the die's; plausible is 153.33 mm within 15 %, "
        "as if the arc kept its length"
    )


def test_a_carriage_that_moved_too_far() -> None:
    (found,) = check_lengths(replace(BEND, carriage_move=200.0), DIE, "mm")
    assert found.text == "the carriage's move means an elongation of 40.86 mm; plausible is at most 8 % of the arc"


def test_small_angles_and_short_legs_are_not_said_as_a_radius() -> None:
    small = replace(BEND, commanded_deg=31.0, measured_deg=30.0, blank=500.0, front_leg=300.0, rear_leg=220.0)
    noted = replace(BEND, feed=200.0, front_leg=353.0, rear_leg=430.0, blank=520.0)
    texts = [found.text for bend in (small, noted) for found in check_lengths(bend, DIE, "mm")]
    assert texts == [
        "blank and legs mean an elongation of 18.09 mm; plausible is at most 8 % of the arc",
        "blank and legs mean an elongation of 197.33 mm; plausible is at most 8 % of the arc",
    ]


@pytest.mark.parametrize("measured", [44.9, 150.1, 200.0])
def test_too_small_or_too_large_to_tell_a_radius(measured: float) -> None:
    bend = replace(BEND, commanded_deg=measured + 2.0, measured_deg=measured, feed=200.0, front_leg=250.0)
    assert setback_radius(bend, DIE) is None


@pytest.mark.parametrize(
    ("bend", "text"),
    [
        (
            replace(BEND, restruck=True),
            "re-struck: after a second stroke the springback is no longer that of one bend",
        ),
        (
            replace(BEND, measured_deg=9.0),
            "measured 9° after a command of 92°: a springback of 83.00° cannot be (plausible here: -2 to 21.4°)"
            ". Is the decimal point right? It may be 90°",
        ),
        (
            replace(BEND, measured_deg=95.0),
            "measured 95° after a command of 92°: a springback of -3.00° cannot be (plausible here: -2 to 21.4°)"
            ". Was it read from the other side? 180° less that is 85°",
        ),
    ],
)
def test_bends_that_teach_nothing(bend: TrialBend, text: str) -> None:
    (found,) = check_angle(bend)
    assert (found.line, found.reading, found.text) == (2, "bend", text)


def test_an_ordinary_bend_passes() -> None:
    assert list(check_angle(BEND)) == []
    assert list(check_lengths(BEND, DIE, "mm")) == []


def test_legs_to_the_other_apex_are_asked_about() -> None:
    """A right angle on a CLR 100 die, OD 50: its arc is kept, so T is 103.33, and 25 mm more on the outside."""
    bend = replace(BEND, commanded_deg=93.0, measured_deg=90.0, feed=200.0, front_leg=328.33, legs="apex")
    (found,) = check_lengths(bend, replace(DIE, clr=100.0, tube_od=50.0), "mm")
    assert found.text.endswith("Are the legs right? Read as outer_apex, in the column legs, they are plausible")
    (found,) = check_lengths(
        replace(bend, front_leg=303.33, legs="outer_apex"), replace(DIE, clr=100.0, tube_od=50.0), "mm"
    )
    assert found.text.endswith("Are the legs right? Read as apex, in the column legs, they are plausible")


@pytest.mark.parametrize(
    ("measured", "question"),
    [
        (121.5, ". Was it read from the other side? 180° less that is 58.5°"),
        (5.85, ". Is the decimal point right? It may be 58.5°"),
        (20.0, "cannot be (plausible here: -2 to 15.0°)"),
    ],
)
def test_an_angle_that_cannot_be_is_asked_about_where_a_slip_explains_it(measured: float, question: str) -> None:
    (found,) = check_angle(replace(BEND, commanded_deg=60.0, measured_deg=measured))
    assert found.text.endswith(question)
