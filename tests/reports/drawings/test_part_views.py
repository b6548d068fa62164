"""The finished part, read back from its drawing."""

from dataclasses import replace
from xml.etree.ElementTree import Element

import htpy
import numpy as np
import pytest
from hypothesis import Phase, given, settings

from bendgen.records.bend_program import BendProgram
from bendgen.records.bent_tube import BentTube, Shape
from bendgen.reports.drawings.part_views import part_views
from tests.independent_bender import Array, SpringLaw
from tests.pages import large_bender, planned, sample_program, winding_part
from tests.random_jobs import (
    Setting,
    WantedTube,
    laws,
    part_of,
    placements,
    profile_of,
    program_of,
    settings_of_machines,
    step_part_of,
    vertices_of,
    wanted_tubes,
)
from tests.svg_reading import (
    numbers,
    overlapping_texts,
    path_places,
    read_drawing,
    smallest_capitals,
    text_boxes,
    texts_outside,
)

ON_PAPER = 0.1  # mm
TRUE_VIEWS = ("front-view", "view-a")


def view_of(drawing: Element, name: str) -> Element:
    found = drawing.find(f".//g[@class='{name}']")
    assert found is not None
    return found


def read_back(drawing: Element) -> dict[int, Array]:
    """Coordinates in space of every vertex that is drawn, from its places in the two true views [mm]."""
    equations: dict[int, list[tuple[list[float], float]]] = {}
    for name in TRUE_VIEWS:
        view = view_of(drawing, name)
        (scale,), (x, y) = numbers(view.get("data-scale")), numbers(view.get("data-origin"))
        right, up = numbers(view.get("data-right")), numbers(view.get("data-up"))
        for dot in view.iter("circle"):
            if dot.get("data-vertex"):
                rows = equations.setdefault(int(dot.get("data-vertex") or 0), [])
                rows.append((right, (float(dot.get("cx") or "nan") - x) / scale))
                rows.append((up, (y - float(dot.get("cy") or "nan")) / scale))
    return {
        number: np.linalg.lstsq(np.array([row for row, _ in rows]), np.array([v for _, v in rows]), rcond=None)[0]
        for number, rows in equations.items()
    }


def scale_of(drawing: Element) -> float:
    return numbers(view_of(drawing, "front-view").get("data-scale"))[0]


@given(wanted_tubes(most=6), laws(), settings_of_machines(), placements())
@settings(max_examples=40, deadline=None, derandomize=True, phases=[Phase.generate])
def test_vertices_read_back_are_the_predicted_ones(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting, placement: tuple[Array, Array]
) -> None:
    turn, shift = placement
    part = part_of(wanted, springs, vertices_of(wanted, springs) @ turn + shift)
    program = program_of(part, profile_of(setting, springs))
    assert program.predicted.vertices is not None
    drawing = read_drawing(part_views(program))
    drawn = read_back(drawing)
    assert sorted(drawn) == list(range(1, len(wanted.angles) + 3))
    for number, place in drawn.items():
        off = np.linalg.norm(place - program.predicted.vertices[number - 1])
        assert off * scale_of(drawing) < ON_PAPER


def test_a_bend_whose_vertex_lies_far_off_has_none(example_program: BendProgram) -> None:
    first, second = example_program.finished.bends
    hooked = replace(example_program.finished, bends=(replace(first, angle_deg=165.0), second))
    assert sorted(read_back(read_drawing(part_views(replace(example_program, finished=hooked))))) == [1, 3, 4]


@given(wanted_tubes(most=20), laws(), settings_of_machines())
@settings(max_examples=30, deadline=None, derandomize=True, phases=[Phase.generate])
def test_words_cover_no_other_words_and_are_whole_and_large(
    wanted: WantedTube, springs: tuple[SpringLaw, ...], setting: Setting
) -> None:
    drawing = read_drawing(part_views(program_of(step_part_of(wanted, springs), profile_of(setting, springs))))
    assert overlapping_texts(drawing) == []
    assert texts_outside(drawing) == []
    assert smallest_capitals(drawing) >= 2.5


@pytest.mark.parametrize("bends", range(8, 21, 2))
def test_numbers_of_a_flat_part_find_room_beside_it(bends: int) -> None:
    """From above a zigzag is a line: no number has room within it."""
    drawing = read_drawing(part_views(planned(winding_part(bends), large_bender())))
    assert overlapping_texts(drawing) == []
    assert texts_outside(drawing) == []


@pytest.mark.parametrize("times", [10.0 / 900.0, 6000.0 / 360.0])
def test_parts_of_10_mm_and_of_6_m(example_program: BendProgram, times: float) -> None:
    drawing = read_drawing(part_views(enlarged(example_program, times)))
    assert overlapping_texts(drawing) == []
    assert texts_outside(drawing) == []
    vertices = np.array(example_program.predicted.vertices) * times
    for number, place in read_back(drawing).items():
        assert np.linalg.norm(place - vertices[number - 1]) * scale_of(drawing) < ON_PAPER


def enlarged(program: BendProgram, times: float) -> BendProgram:
    """The same part, so many times as large."""
    shape = program.predicted
    assert shape.vertices is not None
    tube = program.finished
    return replace(
        program,
        part=replace(program.part, tube=replace(program.part.tube, od=program.part.tube.od * times)),
        predicted=Shape(
            points=tuple((x * times, y * times, z * times) for x, y, z in shape.points),
            vertices=tuple((x * times, y * times, z * times) for x, y, z in shape.vertices),
        ),
        finished=BentTube(
            straights=tuple(straight * times for straight in tube.straights),
            bends=tuple(replace(bend, clr=bend.clr * times) for bend in tube.bends),
        ),
    )


def test_values_stand_in_the_picture_and_the_box_is_dimensioned_over_the_outside(example_program: BendProgram) -> None:
    said = words_of(part_views(example_program))
    for value in ("197.0", "154.0", "157.0", "90.0°", "front", "rear"):
        assert value in said
    # The box by hand: 300 + 25, 360 + 50 and 260 + 25 over an OD of 50; the ends are flat.
    assert {"325.0", "410.0", "285.0"} <= set(said)


def test_inches_are_fractions_with_what_is_left_over(inch_program: BendProgram) -> None:
    said = words_of(part_views(inch_program))
    assert "7 3/4 + 0.006" in said  # 197 mm are 7.7559 in
    assert any("inches" in text for text in said)


def test_many_bends_have_their_values_in_a_list() -> None:
    springs = (SpringLaw(die_clr=60.0), SpringLaw(die_clr=90.0))
    nine = WantedTube(
        straights=tuple(100.0 + i for i in range(10)), angles=(30.0,) * 9, rotations=(0.0,) * 9, dies=(0,) * 9
    )
    said = words_of(part_views(program_of(step_part_of(nine, springs), profile_of(Setting(resolution=0.1), springs))))
    listed = said[said.index("bend") :]
    assert listed[:6] == ["bend", "angle", "before it", "1", "30.00°", "100.0"]
    assert listed[27:33] == ["9", "30.00°", "108.0", "rear", "", "109.0"]


def test_the_scale_is_one_of_a_drawing_and_is_stated(example_program: BendProgram) -> None:
    drawing = part_views(example_program)
    (scale,) = numbers(view_of(read_drawing(drawing), "view-a").get("data-scale"))
    stated = next(text for text in words_of(drawing) if text.startswith("true views 1:"))
    assert f"1:{1.0 / scale:g} " in stated


def test_a_straight_tube_has_a_drawing_too(blank_program: BendProgram) -> None:
    assert {"450.0", "front", "rear"} <= set(words_of(part_views(blank_program)))


def words_of(drawing: htpy.Element) -> list[str]:
    return [text.text or "" for text in read_drawing(drawing).iter("text")]


@pytest.mark.parametrize("sample", ["bearing_jog", "dryer_inlet", "six_bend_duct", "guard_hoop"])
def test_no_line_is_drawn_through_the_figures_of_a_height(sample: str) -> None:
    drawing = read_drawing(part_views(sample_program(sample)))
    level_lines = [
        places
        for places in (path_places(path) for path in drawing.iter("path") if "A" not in path.get("d", ""))
        if len(places) == 2 and places[0, 1] == places[1, 1]
    ]
    turned = Element("g", {"font-size": drawing.get("font-size", "")})
    turned.extend(text for text in drawing.iter("text") if (text.get("transform") or "").startswith("rotate(-90"))
    assert len(turned)
    for figures in text_boxes(turned):
        for (left, y), (right, _) in (np.sort(places, axis=0).tolist() for places in level_lines):
            assert not (figures.top < y < figures.bottom and left < figures.right and right > figures.left), figures
