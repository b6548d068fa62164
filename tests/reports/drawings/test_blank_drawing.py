"""The blank, read back from its drawing."""

from dataclasses import replace
from xml.etree.ElementTree import Element

import htpy
import pytest
from hypothesis import Phase, given, settings

from bendgen.records.bend_program import BendProgram
from bendgen.reports.drawings.blank_drawing import blank_drawing
from tests.independent_bender import SpringLaw
from tests.random_jobs import (
    Setting,
    WantedTube,
    laws,
    part_of,
    profile_of,
    program_of,
    settings_of_machines,
    wanted_tubes,
)
from tests.svg_reading import overlapping_texts, path_places, read_drawing, smallest_capitals, text_boxes, texts_outside

ON_PAPER = 0.1  # mm


def distances(drawing: Element, attribute: str) -> dict[str, float]:
    """Distance from the front end of every line that carries an attribute [mm], by the blank's own outline."""
    blank = drawing.find(".//g[@class='blank']")
    assert blank is not None
    length = float(blank.get("data-length") or "nan")
    outline = next(path for path in blank.iter("path") if path.get("stroke-width") == "0.5")
    left, right = path_places(outline)[:, 0].min(), path_places(outline)[:, 0].max()
    return {
        path.get(attribute) or "": (path_places(path)[0, 0] - left) / (right - left) * length
        for path in blank.iter("path")
        if path.get(attribute)
    }


def words_of(drawing: htpy.Element) -> list[str]:
    return [text.text or "" for text in read_drawing(drawing).iter("text")]


@given(wanted_tubes(most=20), laws(), settings_of_machines())
@settings(max_examples=30, deadline=None, derandomize=True, phases=[Phase.generate])
def test_rings_stand_where_the_bends_start_and_words_cover_no_words(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    program = program_of(part_of(wanted, springs), profile_of(setting, springs))
    drawing = read_drawing(blank_drawing(program))
    rings = distances(drawing, "data-ring")
    within = ON_PAPER / 174.0 * program.blank.length
    assert rings == {str(s.number): pytest.approx(s.passed, abs=within) for s in program.steps}
    assert overlapping_texts(drawing) == []
    assert texts_outside(drawing) == []
    assert smallest_capitals(drawing) >= 2.5


def test_cuts_and_what_the_tape_reads(example_program: BendProgram) -> None:
    both = replace(example_program, blank=replace(example_program.blank, front_trim=41.0))
    drawing = blank_drawing(both)
    cuts = distances(read_drawing(drawing), "data-cut")
    length = both.blank.length
    assert cuts == {"front": pytest.approx(41.0, abs=0.6), "rear": pytest.approx(length - 143.0, abs=0.6)}
    said = words_of(drawing)
    assert {"CUT: 41.0", "1: 197.0", "0, front end", "rear end", f"blank {length:.1f}"} <= set(said)
    assert "trim 143.0; only a check: the cut is measured on the bent tube" in said


def test_the_die_s_sleeve_says_where_the_tape_goes(example_program: BendProgram) -> None:
    (die,) = example_program.dies
    drawn = blank_drawing(example_program)
    assert {"die set d50-r100, when a bend starts", "38.0", "edge you see"} <= set(words_of(drawn))
    assert texts_outside(read_drawing(drawn)) == []
    assert overlapping_texts(read_drawing(drawn)) == []
    unknown = replace(example_program, dies=(replace(die, sleeve=None),))
    assert "edge you see" not in words_of(blank_drawing(unknown))


def test_the_sleeve_goes_from_the_tangent_line_towards_the_carriage(example_program: BendProgram) -> None:
    """The blank lies with its front end at the left, and the sketch below it lies alike."""
    drawing = read_drawing(blank_drawing(example_program))
    assert place_of_words(drawing, "0, front end") < place_of_words(drawing, "rear end")
    sketch = drawing.find(".//g[@class='sleeve']")
    assert sketch is not None
    lines = {path.get("data-place"): path for path in sketch.iter("path") if path.get("data-place")}
    edge, tangent_line = (path_places(lines[place])[0, 0] for place in ("edge", "tangent-line"))
    assert place_of_words(sketch, "to the front end") < tangent_line < edge < place_of_words(sketch, "to the carriage")
    dash = lines["tangent-line"].get("stroke-dasharray")
    assert dash is not None, "it is hidden by the die"
    (dimension,) = [text for text in sketch.iter("text") if text.text == "38.0"]
    assert float(dimension.get("x") or "nan") == pytest.approx(0.5 * (edge + tangent_line), abs=ON_PAPER)
    tips = [
        path_places(path)[0, 0]
        for path in sketch.iter("path")
        if (path.get("d") or "").endswith("Z") and not path.get("fill")
    ]
    assert {round(tip, 1) for tip in tips} >= {round(edge, 1), round(tangent_line, 1)}


def place_of_words(drawing: Element, said: str) -> float:
    """How far from the left of the paper the middle of words is [mm]."""
    return next(0.5 * (box.left + box.right) for box in text_boxes(drawing, size=3.5) if box.words == said)


def test_a_die_set_s_name_is_text_whatever_it_says_and_is_shortened_rather_than_cut_off(
    example_program: BendProgram,
) -> None:
    hostile = '</text><script>alert("&amp;")</script>' * 3
    named = replace(example_program, dies=(replace(example_program.dies[0], id=hostile),))
    drawing = read_drawing(blank_drawing(named))
    assert [element.tag for element in drawing.iter() if element.tag == "script"] == []
    (shown,) = [text.text for text in drawing.iter("text") if (text.text or "").startswith("die set ")]
    assert shown is not None
    assert f"die set {hostile}, when".startswith(shown.removesuffix("…"))
    assert texts_outside(drawing) == []


def test_wide_letters_are_given_their_width(example_program: BendProgram) -> None:
    (die,) = example_program.dies
    wide = replace(example_program, dies=(replace(die, id="乾燥機" * 20), replace(die, id="b")))
    (shown,) = [text for text in words_of(blank_drawing(wide)) if "乾" in text]
    assert 3.5 * shown.count("乾") * 3 < 80.0, "a letter as wide as it is high"


def test_inches_are_fractions_with_what_is_left_over(inch_program: BendProgram) -> None:
    drawing = blank_drawing(inch_program)
    assert "1: 7 3/4 + 0.006" in words_of(drawing)  # 197 mm are 7.7559 in
    assert overlapping_texts(read_drawing(drawing)) == []


def test_a_part_without_bends_is_a_blank_to_saw(blank_program: BendProgram) -> None:
    said = words_of(blank_drawing(blank_program))
    assert said == [
        "0, front end",
        "rear end",
        "blank 450.0",
        "Diameters are not to scale; lengths in mm.",
    ]
