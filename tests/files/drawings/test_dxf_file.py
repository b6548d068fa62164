"""DXF drawings of an axis, made here with a general library and held against its own geometry."""

import itertools
import math
import random
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from ezdxf.filemanagement import new
from ezdxf.math import Vec3

from bendgen.bending.found_bends import bends_of_found
from bendgen.errors import InputError
from bendgen.files.drawings.dxf_file import read_drawing
from bendgen.files.drawings.dxf_pieces import pieces_of_entity
from bendgen.records.found_tube import Answers
from bendgen.records.part import Centreline, WantedSteps
from bendgen.units import DrawnUnits
from tests.drawn_files import INCHES, NO_UNIT, Draw, Space, drawing, drawn, refusal
from tests.sampled_axis import sampled_axis

QUARTER = math.tan(math.pi / 8.0)  # bulge of a right angle: the tangent of a quarter of the angle


@pytest.mark.parametrize(
    ("bulge", "degrees"),
    [(0.41421356, 90.0), (0.5, 106.26020), (1.0, 180.0), (2.0, 253.73980), (-2.0, -253.73980)],
)
def test_a_bulge_is_the_tangent_of_a_quarter_of_the_angle(bulge: float, degrees: float) -> None:
    """Angle 4 arctan(bulge), counterclockwise where positive; by the DXF reference's definition, from memory."""
    polyline = new().modelspace().add_lwpolyline([(11, -4, 0, 0, bulge), (11, 4, 0, 0, 0)])
    (piece,) = pieces_of_entity(polyline, 1.0)
    assert piece.arc is not None
    ahead = piece.points[0, 1] < 0.0  # the library gives every arc counterclockwise
    signed = math.degrees(piece.arc.angle) * piece.arc.normal[2] * (1.0 if ahead else -1.0)
    assert signed == pytest.approx(degrees, abs=5e-6)


@pytest.mark.parametrize(("bulge", "middle"), [(1.0, 15.0), (2.0, 19.0), (-2.0, 3.0)])
def test_where_a_bulge_goes(bulge: float, middle: float) -> None:
    polyline = new().modelspace().add_lwpolyline([(11, -4, 0, 0, bulge), (11, 4, 0, 0, 0)])
    (piece,) = pieces_of_entity(polyline, 1.0)
    assert piece.arc is not None
    half = len(piece.points) // 2
    assert 0.5 * (piece.points[half] + piece.points[-1 - half]) == pytest.approx((middle, 0.0, 0.0), abs=1e-3)


def test_a_closed_slot_has_its_length_and_no_ends(tmp_path: Path) -> None:
    def slot(space: Space) -> object:
        return space.add_lwpolyline(
            [(-11, -4, 0, 0, 0), (11, -4, 0, 0, 1), (11, 4, 0, 0, 0), (-11, 4, 0, 0, 1)], close=True
        )

    pieces = list(pieces_of_entity(slot(new().modelspace()), 1.0))
    lengths = [
        piece.arc.radius * piece.arc.angle if piece.arc else float(np.linalg.norm(piece.points[-1] - piece.points[0]))
        for piece in pieces
    ]
    assert sum(lengths) == pytest.approx(69.13274, abs=5e-6)
    assert refusal(tmp_path, slot) == "expected a path with two ends, found a closed one"


@pytest.mark.parametrize("seed", range(6))
def test_arcs_in_any_plane_lie_where_the_library_has_them(seed: int) -> None:
    generator = random.Random(seed)  # noqa: S311 - no secret
    normal = Vec3(*(generator.gauss(0.0, 1.0) for _ in range(3))).normalize()
    entity = new().modelspace().add_arc(
        (generator.uniform(-50, 50), generator.uniform(-50, 50), generator.uniform(-50, 50)),
        generator.uniform(10, 80), generator.uniform(0, 360), generator.uniform(0, 360),
        dxfattribs={"extrusion": normal},
    )  # fmt: skip
    (piece,) = pieces_of_entity(entity, 1.0)
    assert piece.points[0] == pytest.approx(entity.start_point.xyz, abs=1e-9)
    assert piece.points[-1] == pytest.approx(entity.end_point.xyz, abs=1e-9)
    flat = np.array([place.xyz for place in entity.flattening(0.01)])
    nearest = np.linalg.norm(flat[:, None] - piece.points[None], axis=2).min(axis=1)
    assert nearest.max() < math.pi * entity.dxf.radius / 180.0


S_BEND = [(0, 0, 0, 0, 0), (100, 0, 0, 0, QUARTER), (150, 50, 0, 0, 0), (150, 150, 0, 0, -QUARTER),
          (200, 200, 0, 0, 0), (300, 200, 0, 0, 0)]  # fmt: skip


@pytest.mark.parametrize("extrusion", [(0, 0, 1), (0, 0, -1), (0, 1, 0), (0.3, -0.5, 0.8)])
def test_a_polyline_with_bulges_in_any_plane(extrusion: tuple[float, float, float], tmp_path: Path) -> None:
    found = drawn(
        tmp_path,
        lambda space: space.add_lwpolyline(S_BEND, dxfattribs={"extrusion": extrusion, "elevation": 7}),
    )
    bends = bends_of_found(found)
    assert bends.straights == pytest.approx([100.0, 100.0, 100.0])
    assert bends.angles_deg == pytest.approx([90.0, 90.0])
    assert bends.rotations_deg == pytest.approx([0.0, 180.0])
    assert bends.clr == pytest.approx([50.0, 50.0])
    assert ("drawn", "lines: 3, arcs: 2; put one behind the other") in found.understood


PIECES: list[Draw] = [
    lambda space: space.add_line((0, 0, 0), (100, 0, 0)),
    lambda space: space.add_arc((100, 50, 0), 50, 270, 360),
    lambda space: space.add_line((150, 150, 0), (150, 50, 0)),
    # In the plane x = 150, whose own x axis is y and whose y axis is z.
    lambda space: space.add_arc((150, 40, 150), 40, 270, 360, dxfattribs={"extrusion": (1, 0, 0)}),
    lambda space: space.add_line((150, 190, 40), (150, 190, 300)),
]


@pytest.mark.parametrize("order", list(itertools.permutations(range(5)))[::17])
def test_lines_and_arcs_in_any_order_and_direction(order: tuple[int, ...], tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        for index in order:
            PIECES[index](space)

    bends = bends_of_found(drawn(tmp_path, draw))
    assert bends.straights == pytest.approx([100.0, 100.0, 260.0])
    assert bends.angles_deg == pytest.approx([90.0, 90.0])
    assert [abs(rotation) for rotation in bends.rotations_deg] == pytest.approx([0.0, 90.0])
    assert bends.clr == pytest.approx([50.0, 40.0])


def test_a_three_dimensional_polyline_of_few_lines_has_vertices(tmp_path: Path) -> None:
    found = drawn(
        tmp_path,
        lambda space: space.add_polyline3d([(0, 0, 0), (10, 0, 0), (10, 10, 0), (10, 10, 20)]),
        units=INCHES,
    )
    assert found.units == "in"
    assert isinstance(found.wish, Centreline)
    assert [(v.x, v.clr) for v in found.wish.vertices] == [(0.0, None), (254.0, None), (254.0, None), (254.0, None)]


SAMPLED = sampled_axis([300.0, 150.0, 200.0], [(0.0, 90.0, 100.0), (90.0, 60.0, 100.0)], 5.0)


def test_a_spline_is_fitted(tmp_path: Path) -> None:
    found = drawn(tmp_path, lambda space: space.add_spline(fit_points=[tuple(point) for point in SAMPLED]))
    bends = bends_of_found(found)
    assert bends.straights == pytest.approx([300.0, 150.0, 200.0], abs=0.2)
    assert bends.angles_deg == pytest.approx([90.0, 60.0], abs=0.02)
    assert dict(found.understood)["points"].endswith("along the axis, fitted with straights and arcs")


def test_many_small_lines_are_asked_about_and_fitted(tmp_path: Path) -> None:
    def draw(space: Space) -> object:
        return space.add_polyline3d([tuple(point) for point in SAMPLED])

    assert refusal(tmp_path, draw) == (
        "expected vertices or axis by --points: they turn so slowly that they could be either, "
        f"found {len(SAMPLED) - 1} lines"
    )
    bends = bends_of_found(drawn(tmp_path, draw, Answers(points="axis")))
    assert bends.clr == pytest.approx([100.0, 100.0], abs=1e-3)


def test_more_lines_than_a_part_has_vertices_are_fitted(tmp_path: Path) -> None:
    points = sampled_axis([600.0, 500.0], [(0.0, 60.0, 80.0)], 1.0)
    bends = bends_of_found(drawn(tmp_path, lambda space: space.add_polyline3d([tuple(point) for point in points])))
    assert bends.straights == pytest.approx([600.0, 500.0], abs=1e-3)


def test_half_a_turn_makes_steps(tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        space.add_line((0, 0), (100, 0))
        space.add_arc((100, 60), 60, 270, 360)
        space.add_arc((100, 60), 60, 0, 90)  # a second half of the same bend
        space.add_line((100, 120), (0, 120))

    found = drawn(tmp_path, draw)
    assert isinstance(found.wish, WantedSteps)
    (bend,) = found.wish.bends
    assert (bend.straight, bend.angle_deg, bend.clr) == pytest.approx((100.0, 180.0, 60.0))
    assert found.wish.rear == pytest.approx(100.0)


def test_what_is_no_line_and_what_is_drawn_twice_is_told(tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        space.add_line((0, 0), (100, 0))
        space.add_line((100, 0), (0, 0))
        space.add_text("invented")
        space.add_point((1, 2))

    assert drawn(tmp_path, draw).ignored == (
        "POINT: 1, no line or curve",
        "TEXT: 1, no line or curve",
        "lines and curves drawn twice: 1",
    )


def two_layers(space: Space) -> None:
    space.add_line((0, 0), (100, 0), dxfattribs={"layer": "axis"})
    space.add_line((0, 9), (100, 9), dxfattribs={"layer": "outline"})


def test_the_layer_is_asked_for(tmp_path: Path) -> None:
    assert refusal(tmp_path, two_layers) == (
        "expected one of the layers by --layer: axis, outline, found lines in all of them"
    )
    assert refusal(tmp_path, two_layers, Answers(layer="axes")) == (
        "expected a layer with lines: axis, outline, found 'axes'"
    )
    found = drawn(tmp_path, two_layers, Answers(layer="axis"))
    assert ("layer", "axis") in found.understood


def corner(space: Space) -> object:
    return space.add_lwpolyline([(0, 0), (10, 0), (10, 20)])


def test_no_unit_means_ask(tmp_path: Path) -> None:
    assert refusal(tmp_path, corner, units=NO_UNIT) == (
        "expected a unit in the drawing, or mm, cm, m, in or ft by --units, found nothing"
    )
    found = drawn(tmp_path, corner, Answers(units="cm"), units=NO_UNIT)
    assert isinstance(found.wish, Centreline)
    assert found.wish.vertices[-1].y == 200.0


def test_a_unit_that_the_drawing_contradicts(tmp_path: Path) -> None:
    assert refusal(tmp_path, corner, Answers(units="in")) == (
        "expected --units mm, which the drawing names; or, where the drawing is known to be wrong, --overrule-units, "
        "too, found --units in"
    )


def test_a_wrong_unit_in_the_drawing_is_overruled_knowingly(tmp_path: Path) -> None:
    found = drawn(tmp_path, corner, Answers(units="in", overrule_units=True))
    assert isinstance(found.wish, Centreline)
    assert found.wish.vertices[-1].y == pytest.approx(508.0)
    assert found.units == "in"
    assert ("unit", "in, as --units says; it overrules mm, which the drawing names") in found.understood


@pytest.mark.parametrize("units", [None, "mm"])
def test_nothing_is_overruled_without_another_unit(tmp_path: Path, units: DrawnUnits | None) -> None:
    assert refusal(tmp_path, corner, Answers(units=units, overrule_units=True)) == (
        "expected another unit than mm, which the drawing names, by --units, found --overrule-units without one"
    )
    assert refusal(tmp_path, corner, Answers(units=units, overrule_units=True), units=NO_UNIT) == (
        "expected no --overrule-units, as there is nothing to overrule, found a drawing that names no unit"
    )


def test_branches_and_gaps_are_named_with_their_place(tmp_path: Path) -> None:
    def branched(space: Space) -> None:
        for end in ((10, 5, 5), (10, 5, -5), (0, 0, 0)):
            space.add_line((10, 0, 0), end)

    def broken(space: Space) -> None:
        space.add_line((0, 0), (10, 0))
        space.add_line((10.5, 20), (10.5, 0))
        space.add_line((10.5, 20.7), (10.5, 40))

    assert refusal(tmp_path, branched, units=INCHES) == (
        "expected two ends, at most, to meet anywhere, found branches at (10, 0, 0) in"
    )
    assert refusal(tmp_path, broken) == (
        "expected one path with two ends, found a gap of 0.5 mm at (10, 0, 0) mm; a gap of 0.7 mm at (10.5, 20, 0) mm"
    )


def test_an_arc_that_does_not_run_on_is_named(tmp_path: Path) -> None:
    def draw(space: Space) -> None:
        space.add_line((0, 0), (100, 0))
        space.add_arc((150, 0), 50, 90, 180)

    assert refusal(tmp_path, draw) == (
        "at (100, 0, 0) mm: expected an arc that runs on in the direction of its neighbour, found a kink of 90.00°"
    )


def test_a_drawing_without_lines(tmp_path: Path) -> None:
    assert refusal(tmp_path, lambda space: space.add_text("invented")) == (
        "expected 1 to 20,000 lines and curves, found 0; passed over: TEXT: 1, no line or curve"
    )


@pytest.mark.parametrize(
    "content",
    [b"", b"0\nSECTION\n", b"\x00\xff" * 500, b"PK\x03\x04 no drawing", "0\nSECTION\n2\nENTITIES\n".encode("utf-16")],
    ids=["empty", "truncated", "bytes", "a zip renamed", "utf-16"],
)
def test_what_is_no_drawing_is_one_line(content: bytes, tmp_path: Path) -> None:
    path = tmp_path / "a.dxf"
    path.write_bytes(content)
    with pytest.raises(InputError) as caught:
        read_drawing(path, Answers(units="mm"))
    assert len(str(caught.value).splitlines()) == 1


def test_a_huge_drawing_is_one_line(tmp_path: Path) -> None:
    path = tmp_path / "a.dxf"
    path.write_bytes(b"0\nSECTION\n" * 3_000_000)
    with pytest.raises(InputError, match="expected at most 20 MB, found a larger file"):
        read_drawing(path, Answers())


def test_without_the_extra_one_line_names_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = drawing(tmp_path / "a.dxf", corner)
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    with pytest.raises(InputError) as caught:
        read_drawing(path, Answers())
    assert str(caught.value) == (
        f"{path}: expected the extra for drawings, pip install 'bendgen[dxf]', found a DXF file without it"
    )


def test_what_the_library_thinks_of_a_damaged_drawing_is_not_printed(tmp_path: Path) -> None:
    """In a process of its own: under pytest nothing that is logged reaches stderr by itself."""
    path = drawing(tmp_path / "a.dxf", corner)
    path.write_text(path.read_text().replace("\nCLASS\n", "\nCLA0.0\n", 1))
    command = [sys.executable, "-m", "bendgen", "read", str(path)]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stderr == ""
