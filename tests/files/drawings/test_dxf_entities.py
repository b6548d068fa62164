"""What of a DXF drawing is a line or a curve that somebody sees: traps that drawings of others hold, made here."""

import math
from pathlib import Path

import pytest

from bendgen.bending.found_bends import bends_of_found
from bendgen.records.found_tube import Answers
from tests.drawn_files import Draw, Space, drawn, refusal

QUARTER = math.tan(math.pi / 8.0)  # bulge of a right angle
DECIMETRES = 14


def straight(space: Space) -> None:
    space.add_line((0, 0), (100, 0))


def bent_block(space: Space, name: str = "PIPE") -> None:
    block = space.doc.blocks.new(name)
    block.add_line((0, 0), (100, 0))
    block.add_arc((100, 50), 50, 270, 360)
    block.add_line((150, 50), (150, 150))


def test_a_block_is_taken_apart_and_lies_on_its_own_layer(tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        bent_block(space)
        space.add_blockref("PIPE", (10, 5), dxfattribs={"layer": "axis", "xscale": 2, "yscale": 2, "zscale": 2})

    found = drawn(tmp_path, draw)
    assert ("layer", "axis") in found.understood
    assert ("blocks", "taken apart: PIPE") in found.understood
    bends = bends_of_found(found)
    assert bends.straights == pytest.approx([200.0, 200.0])
    assert bends.clr == pytest.approx([100.0])


def test_a_block_that_holds_itself(tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        block = space.doc.blocks.new("PIPE")
        block.add_blockref("PIPE", (1, 0))
        space.add_blockref("PIPE", (0, 0))

    assert refusal(tmp_path, draw) == "expected blocks at most 16 deep within one another, found more"


def test_blocks_of_more_than_any_drawing_of_a_tube_holds(tmp_path: Path) -> None:
    """A thousand rows of a thousand: the file is small, what it draws is not."""

    def draw(space: Space) -> None:
        space.doc.blocks.new("POST").add_point((0, 0))
        many = {"row_count": 1000, "row_spacing": 1, "column_count": 1000, "column_spacing": 1}
        space.add_blockref("POST", (0, 0), dxfattribs=many)

    assert refusal(tmp_path, draw) == "expected at most 20,000 entities in blocks, found more"


def test_a_block_that_the_file_does_not_hold(tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        straight(space)
        space.add_blockref("NOWHERE", (0, 0))

    assert drawn(tmp_path, draw).ignored == ("INSERT: 1, no line or curve",)


def hidden_layer(space: Space) -> None:
    straight(space)
    space.doc.layers.add("OLD").freeze()
    space.doc.layers.add("TRIAL").off()
    space.add_line((0, 0), (0, 90), dxfattribs={"layer": "OLD"})
    space.add_line((0, 0), (0, 70), dxfattribs={"layer": "TRIAL"})


def test_layers_that_are_frozen_or_off_are_not_asked_about(tmp_path: Path) -> None:
    found = drawn(tmp_path, hidden_layer)
    assert bends_of_found(found).straights == (100.0,)
    assert found.ignored == ("lines and curves on layers that are frozen or off: 2",)


def test_such_a_layer_is_read_where_it_is_named_in_small_letters_or_capitals(tmp_path: Path) -> None:
    found = drawn(tmp_path, hidden_layer, Answers(layer="old"))
    assert bends_of_found(found).straights == (90.0,)
    assert ("layer", "OLD") in found.understood


def test_a_frozen_layer_hides_whole_blocks_and_one_that_is_off_only_its_own_lines(tmp_path: Path) -> None:
    def draw(space: Space, layer: str) -> None:
        hidden_layer(space)
        block = space.doc.blocks.new("PIPE")
        block.add_line((100, 0), (300, 0), dxfattribs={"layer": "axis"})
        space.add_blockref("PIPE", (0, 0), dxfattribs={"layer": layer})

    assert drawn(tmp_path, lambda space: draw(space, "OLD")).ignored == (
        "lines and curves on layers that are frozen or off: 3",
    )
    assert refusal(tmp_path, lambda space: draw(space, "TRIAL")) == (
        "expected one of the layers by --layer: 0, axis, found lines in all of them"
    )


def test_lines_that_are_hidden_one_by_one(tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        straight(space)
        space.add_line((0, 0), (0, 9), dxfattribs={"invisible": 1})

    found = drawn(tmp_path, draw)
    assert bends_of_found(found).straights == (100.0,)
    assert found.ignored == ("lines and curves that are hidden one by one: 1",)


def test_paper_space_is_told_of(tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        space.doc.paperspace().add_line((0, 0), (100, 0))

    assert refusal(tmp_path, draw) == (
        "expected 1 to 20,000 lines and curves, found 0; passed over: lines and curves in paper space: 1"
    )


def mesh(space: Space) -> None:
    space.add_polymesh((3, 3))


def faces(space: Space) -> None:
    space.add_polyface().append_face([(0, 0, 0), (1, 0, 0), (1, 1, 0)])


@pytest.mark.parametrize("draw_mesh", [mesh, faces])
def test_a_mesh_is_no_line_though_it_is_kept_as_a_polyline(draw_mesh: Draw, tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        straight(space)
        draw_mesh(space)

    assert drawn(tmp_path, draw).ignored == ("mesh: 1, no line or curve",)


@pytest.mark.parametrize("kind", ["add_polyline2d", "add_polyline3d"])
def test_points_that_steer_a_polyline_do_not_lie_on_it(kind: str, tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        polyline = getattr(space, kind)([(0, 0, 0), (100, 0, 0), (100, 100, 0)])
        polyline.dxf.flags |= 4  # made by fitting a spline
        polyline.append_vertices([(0, 0, 0), (130, -20, 0), (100, 100, 0)], dxfattribs={"flags": 16})

    assert bends_of_found(drawn(tmp_path, draw)).legs == pytest.approx([100.0, 100.0])


def test_a_bulge_that_is_nothing_but_rounding_is_a_line(tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        space.add_lwpolyline([(0, 0, 0, 0, 1e-9), (100, 0, 0, 0, 0), (100, 100, 0, 0, -1e-7), (200, 100, 0, 0, 0)])

    found = drawn(tmp_path, draw)
    assert ("drawn", "lines: 3, arcs: 0; put one behind the other") in found.understood
    assert bends_of_found(found).legs == pytest.approx([100.0, 100.0, 100.0], abs=1e-5)


def test_an_ellipse_with_equal_axes_is_an_arc(tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        space.add_line((-100, 50), (0, 50))
        space.add_ellipse((0, 0), (50, 0), 1.0, 0.0, 0.5 * math.pi)
        space.add_line((50, 0), (50, -80))

    bends = bends_of_found(drawn(tmp_path, draw))
    assert bends.straights == pytest.approx([80.0, 100.0])
    assert (*bends.angles_deg, *bends.clr) == pytest.approx((90.0, 50.0))


def test_arcs_without_length(tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        straight(space)
        space.add_arc((100, 50), 0.0, 0, 90)
        space.add_line((3, 3), (3, 3))

    assert bends_of_found(drawn(tmp_path, draw)).straights == (100.0,)


def test_a_coordinate_that_is_no_number(tmp_path: Path) -> None:
    assert refusal(tmp_path, lambda space: space.add_line((0, 0), (math.nan, 0))) == (
        "expected finite coordinates, found one that is not"
    )


def test_a_spline_with_too_few_knots_is_one_line(tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        spline = space.add_open_spline([(0, 0), (10, 0), (20, 5), (30, 9)])
        spline.knots = [0.0, 1.0]

    assert refusal(tmp_path, draw).startswith("expected a DXF file, found '")


def test_a_unit_that_no_drawing_of_a_tube_has(tmp_path: Path) -> None:
    assert refusal(tmp_path, straight, units=DECIMETRES) == (
        "expected a unit in the drawing, or mm, cm, m, in or ft by --units, "
        "found code 14 in $INSUNITS, which is none of these"
    )
    understood = dict(drawn(tmp_path, straight, Answers(units="mm"), units=DECIMETRES).understood)
    assert understood["unit"] == "mm, as --units says; the drawing has code 14 in $INSUNITS, which is none of these"


def test_a_coordinate_beyond_any_tube(tmp_path: Path) -> None:
    assert refusal(tmp_path, lambda space: space.add_line((0, 0), (2e6, 0))) == (
        "expected coordinates of at most 1,000,000 mm, found a larger one"
    )


def test_a_curve_of_endless_length_takes_no_endless_time(tmp_path: Path) -> None:
    """A wrong digit in a control point: chords as near as a tube asks for would be millions."""
    assert refusal(tmp_path, lambda space: space.add_open_spline([(0, 0), (1e12, 3), (20, 1e12), (30, 9)])) == (
        "expected a DXF file, found 'a curve of 100,000 chords and more'"
    )
