import math
from dataclasses import replace

import pytest

from bendgen.records.machine import FeedForm, MachineProfile, RotationPositive
from bendgen.reports.machine_words import feed_example, rotation_words, side_words, turn_words


def top_after_turning(degrees: float) -> tuple[float, float]:
    """(y, z) of the top of the tube after a right-handed turn about +X; +Y is left of somebody looking along +X."""
    turn = math.radians(degrees)
    return -math.sin(turn), math.cos(turn)


@pytest.mark.parametrize(
    ("positive", "turned_right_handed"), [("clockwise_from_carriage", 10.0), ("counterclockwise_from_carriage", -10.0)]
)
def test_positive_rotation_goes_where_the_words_say(
    metric_profile: MachineProfile, positive: RotationPositive, turned_right_handed: float
) -> None:
    from_carriage, from_die = rotation_words(replace(metric_profile.output, rotation_positive=positive))
    y, _ = top_after_turning(turned_right_handed)
    left_of_carriage, left_of_die = y > 0, y < 0
    assert f"to your {'left' if left_of_carriage else 'right'} (" in from_carriage
    assert f"to your {'left' if left_of_die else 'right'} (" in from_die


def test_rotation_in_full(metric_profile: MachineProfile) -> None:
    assert rotation_words(metric_profile.output) == (
        "Stand behind the carriage and look along the tube to the die: a positive number turns the top of the tube to "
        "your right (clockwise).",
        "Stand at the die and look back to the carriage: the same turn takes the top to your left (counterclockwise).",
    )


def test_draw_in_full(metric_profile: MachineProfile, inch_profile: MachineProfile) -> None:
    assert side_words(metric_profile.bend) == (
        "Stand behind the carriage and look along the tube to the die: the bend die is on your left and draws the "
        "tube to your left. Seen from above, the front end swings counterclockwise.",
        "Stand at the die and look back to the carriage: the tube is drawn to your right.",
    )
    assert side_words(inch_profile.bend) == (
        "Stand behind the carriage and look along the tube to the die: the bend die is on your right and draws the "
        "tube to your right. Seen from above, the front end swings clockwise.",
        "Stand at the die and look back to the carriage: the tube is drawn to your left.",
    )


@pytest.mark.parametrize(
    ("form", "numbers"),
    [
        # By hand: straights of 200 and 150, an arc of 100 · π / 2 = 157.08, a blank of 1000, 60 of it in the grip.
        ("incremental", "200.0 mm and then 150.0 mm"),
        ("summed", "200.0 mm and then 350.0 mm"),
        ("passed", "200.0 mm and then 507.1 mm"),
        ("carriage", "740.0 mm and then 432.9 mm"),
    ],
)
def test_feed_example_in_every_form(metric_profile: MachineProfile, form: FeedForm, numbers: str) -> None:
    profile = replace(metric_profile, output=replace(metric_profile.output, feed=form))
    assert f"The feed numbers are {numbers}." in str(feed_example(profile))


def test_feed_example_in_inches(inch_profile: MachineProfile) -> None:
    # By hand: 8 + 100 / 25.4 · π / 2 + 6 = 20.184
    assert feed_example(inch_profile) == (
        "For example: 8 in straight, a bend of 90° on d50-r100 that uses 6.184 in of tube, 6 in straight, a second "
        "bend. The feed numbers are 8.000 in and then 20.184 in. (Springback and elongation are left aside here.)"
    )


def test_no_feed_example_without_a_die(metric_profile: MachineProfile) -> None:
    assert feed_example(replace(metric_profile, dies=())) is None


@pytest.mark.parametrize(
    ("rotation", "words"),
    [
        (0.0, "no turn"),
        (-1.4e-14, "no turn"),
        (0.1, "turns clockwise"),
        (-55.7, "turns counterclockwise"),
        (180.0, "half a turn"),
        (-180.0 + 3e-14, "half a turn"),
    ],
)
def test_sense_of_a_turn(rotation: float, words: str) -> None:
    assert turn_words(rotation) == words
