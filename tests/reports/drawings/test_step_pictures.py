"""Pictures of the tube in the machine, read back and held against the independent bender."""

import math
from dataclasses import replace
from typing import Literal
from xml.etree.ElementTree import Element

import numpy as np
import pytest
from hypothesis import Phase, given, settings

from bendgen.bending.lying import lying_before_bends
from bendgen.records.bend_program import BendProgram
from bendgen.reports.drawings.paper import MACHINE
from bendgen.reports.drawings.step_pictures import step_pictures
from tests.independent_bender import Keyed, SpringLaw
from tests.lying_on_bender import lying_on_bender
from tests.pages import sample_program
from tests.random_jobs import (
    Setting,
    WantedTube,
    bender_of,
    laws,
    part_of,
    profile_of,
    program_of,
    settings_of_machines,
    wanted_tubes,
)
from tests.svg_reading import (
    numbers,
    overlapping_texts,
    path_places,
    read_drawing,
    seen_in,
    smallest_capitals,
    text_boxes,
    texts_outside,
)

ON_PAPER = 0.1  # mm


def pictures(program: BendProgram) -> list[Element]:
    return [read_drawing(picture) for picture in step_pictures(program, lying_before_bends(program))]


def part_of_picture(picture: Element, name: str) -> Element:
    found = picture.find(f".//g[@class='{name}']")
    assert found is not None
    return found


def tube_places(view: Element) -> np.ndarray:
    tube = part_of_picture(view, "tube").find("path")
    assert tube is not None
    return path_places(tube)


@given(wanted_tubes(most=4), laws(), settings_of_machines())
@settings(max_examples=40, deadline=None, derandomize=True, phases=[Phase.generate])
def test_the_drawn_tube_lies_where_the_independent_bender_has_it(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    program = program_of(part_of(wanted, springs), profile_of(setting, springs))
    table = [Keyed(die=s.die, feed=s.feed, rotation=s.rotation, bend=s.bend) for s in program.machine_steps]
    made = bender_of(setting, springs).make(table, program.blank.length)
    for picture, theirs in zip(pictures(program), lying_on_bender(made, setting.side), strict=True):
        for name in ("from-carriage", "from-above"):
            view = part_of_picture(picture, name)
            drawn, true = tube_places(view), seen_in(view, theirs)
            distances = np.linalg.norm(drawn[:, None] - true[None], axis=2)
            assert distances.min(axis=0).max() < ON_PAPER


def test_left_on_paper_is_left_of_whoever_stands_at_the_carriage(example_program: BendProgram) -> None:
    # Looking along +X with +Z up, +Y is at the left hand; from above +X goes right and +Y up. By hand.
    view = pictures(example_program)[0]
    assert numbers(part_of_picture(view, "from-carriage").get("data-right")) == [0.0, -1.0, 0.0]
    assert numbers(part_of_picture(view, "from-carriage").get("data-up")) == [0.0, 0.0, 1.0]
    assert numbers(part_of_picture(view, "from-above").get("data-right")) == [1.0, 0.0, 0.0]
    assert numbers(part_of_picture(view, "from-above").get("data-up")) == [0.0, 1.0, 0.0]


@pytest.mark.parametrize("rotation", [90.0, -45.0, 180.0, -180.0, 270.0])
def test_an_arrow_goes_round_as_far_as_the_tube_and_ends_where_it_lies(
    example_program: BendProgram, rotation: float
) -> None:
    # Seen from the carriage, y to the left and z up: clockwise on paper is clockwise for whoever stands there. By hand.
    steps = (example_program.steps[0], replace(example_program.steps[1], rotation_deg=rotation))
    view = part_of_picture(pictures(replace(example_program, steps=steps))[1], "from-carriage")
    arc = part_of_picture(view, "turn").find(".//path")
    assert arc is not None
    (centre,) = seen_in(view, np.zeros((1, 3)))
    offsets = path_places(arc) - centre
    clock = np.unwrap(np.arctan2(offsets[:, 0], -offsets[:, 1]))  # clockwise from up, as y runs down on paper
    assert math.degrees(clock[-1] - clock[0]) == pytest.approx(rotation, abs=0.5)
    left_when_bent = -90.0  # the die is on the left: there the first bend pointed before the turn
    assert math.degrees(math.remainder(clock[0] - math.radians(left_when_bent), 2.0 * math.pi)) == pytest.approx(
        0.0, abs=0.5
    )


def test_without_a_turn_there_is_no_arrow_round_the_tube(example_program: BendProgram) -> None:
    assert pictures(example_program)[0].find(".//g[@class='turn']") is None


@pytest.mark.parametrize("stands", ["left", "right", "carriage", None])
def test_the_operators_own_place_is_marked_where_it_is_known(
    example_program: BendProgram, stands: Literal["left", "right", "carriage"] | None
) -> None:
    known = replace(example_program, profile=replace(example_program.profile, operator_stands=stands))
    for picture in pictures(known):
        words = [text.text for text in part_of_picture(picture, "from-above").iter("text")]
        assert ("you" in words) == (stands is not None)
    for height in (12.5, 40.0):
        for drawn in step_pictures(known, lying_before_bends(known), (88.0, height)):
            marked = {view: operator_in(read_drawing(drawn), view) for view in ("from-carriage", "from-above")}
            assert (marked["from-above"] is not None) == (stands is not None)
            assert (marked["from-carriage"] is not None) == (stands in {"left", "right"})
            if marked["from-carriage"] is not None:  # at the same hand as in plan, whose top is the left
                assert (marked["from-carriage"][0] < 20.0) == (stands == "left")


def operator_in(picture: Element, view: str) -> tuple[float, float] | None:
    """Where somebody's head is drawn."""
    head = part_of_picture(picture, view).find(".//g[@class='operator']/circle")
    return None if head is None else (float(head.get("cx") or "nan"), float(head.get("cy") or "nan"))


@given(wanted_tubes(most=20), laws(), settings_of_machines())
@settings(max_examples=30, deadline=None, derandomize=True, phases=[Phase.generate])
def test_words_cover_no_other_words_and_are_whole_and_large(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    profile = replace(profile_of(setting, springs), operator_stands="left")
    program = program_of(part_of(wanted, springs), profile)
    for picture in pictures(program):
        assert overlapping_texts(picture) == []
        assert texts_outside(picture) == []
        assert smallest_capitals(picture) >= 2.5


@pytest.mark.parametrize("sample", ["dryer_inlet", "bearing_jog", "guard_hoop", "fan_link"])
def test_no_word_stands_across_the_edge_of_die_or_clamp(sample: str) -> None:
    for picture in pictures(sample_program(sample)):
        tools = [path for path in picture.iter("path") if path.get("fill") == MACHINE and "A" not in path.get("d", "")]
        rectangles = [(path_places(path).min(axis=0), path_places(path).max(axis=0)) for path in tools]
        assert len(rectangles) >= 4  # die and clamp on edge, clamp and carriage in plan
        for words in text_boxes(picture):
            low, high = np.array([words.left, words.top]), np.array([words.right, words.bottom])
            for left_top, right_bottom in rectangles:
                apart = (low >= right_bottom).any() or (high <= left_top).any()
                within = (low >= left_top).all() and (high <= right_bottom).all()
                assert apart or within, words


def test_where_nothing_is_bent_there_is_no_picture(blank_program: BendProgram) -> None:
    assert pictures(blank_program) == []


@pytest.mark.parametrize("height", [12.5, 17.0, 26.0, 34.0])
@given(wanted=wanted_tubes(most=8), springs=laws(), setting=settings_of_machines())
@settings(max_examples=8, deadline=None, derandomize=True, phases=[Phase.generate])
def test_lower_pictures_say_less_and_stay_legible(
    height: float, wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    profile = replace(profile_of(setting, springs), operator_stands="right")
    program = program_of(part_of(wanted, springs), profile)
    for number, drawn in enumerate(step_pictures(program, lying_before_bends(program), (88.0, height)), start=1):
        picture = read_drawing(drawn)
        assert numbers(picture.get("viewBox"))[2:] == pytest.approx([88.0, height], abs=0.01)
        assert overlapping_texts(picture) == []
        assert texts_outside(picture) == []
        said = {text.text for text in picture.iter("text")}
        assert ("from above" in said) == (height == 34.0)
        assert "1" in said or number > 1 > height - 17.0
        assert smallest_capitals(picture) >= 2.5
        assert [text.text for text in picture.iterfind(".//g[@fill='white']/text")] == [str(number)]
