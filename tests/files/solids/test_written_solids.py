"""Tubes written by code that shares nothing with the reader, with the traps that real files hold."""

import math
import re
from dataclasses import replace
from functools import partial

import numpy as np
import pytest

from bendgen.errors import InputError
from tests.files.solids.reading import file_of, numbers_of, refusal_of, tube_of
from tests.solid_writer import (
    REAR,
    START,
    TUBE,
    UNITS,
    Arc,
    Bend,
    Section,
    TubeMaker,
    Writer,
    exact_surface,
    fitted_surface,
    spline_curve_text,
    tube_text,
    walk,
)

WITHIN = 1e-6  # mm and degrees


def check_reads(text: str, bends: tuple[Bend, ...] = TUBE, rear: float = REAR, *, within: float = WITHIN) -> None:
    straights, angles, rotations, clr = numbers_of(tube_of(text))
    assert straights == pytest.approx([*(bend[0] for bend in bends), rear], abs=within)
    assert angles == pytest.approx([bend[2] for bend in bends], abs=within)
    assert rotations == pytest.approx([bend[1] for bend in bends[1:]], abs=within)
    assert clr == pytest.approx([bend[3] for bend in bends], abs=within)


@pytest.mark.parametrize("parts", [0, 1, 2, 3, 4])
def test_faces_without_a_seam_whole_and_split(parts: int) -> None:
    check_reads(tube_text(maker=TubeMaker(Writer(), parts=parts)))


@pytest.mark.parametrize("unit", UNITS)
def test_units_through_the_whole_chain(unit: str) -> None:
    text = tube_text(maker=TubeMaker(Writer(unit=unit), parts=2))
    check_reads(text)
    assert (tube_of(text).od, tube_of(text).wall) == pytest.approx((38.1, 1.5), abs=WITHIN)


@pytest.mark.parametrize("parts", [1, 2])
def test_coordinates_rounded_to_three_decimals(parts: int) -> None:
    check_reads(tube_text(maker=TubeMaker(Writer(decimals=3), parts=parts)), within=2e-3)
    check_reads(tube_text(maker=TubeMaker(Writer(decimals=3, direction_decimals=6), parts=parts)), within=2e-3)
    check_reads(tube_text(maker=TubeMaker(Writer(decimals=3, direction_decimals=3), parts=parts)), within=2e-2)


@pytest.mark.parametrize("parts", [0, 1, 2])
@pytest.mark.parametrize(
    ("bends", "rear"),
    [
        (((100.0, 0.0, 180.0, 57.0),), 50.0),
        (((25.0, 0.0, 180.0, 57.0), (60.0, 90.0, 180.0, 57.0)), 50.0),
        (((20.0, 0.0, 270.0, 57.0),), 20.0),
        (((0.0, 0.0, 90.0, 57.0), (0.0, 90.0, 60.0, 57.0), (0.0, 180.0, 10.0, 57.0)), 0.0),
        (((10.0, 0.0, 90.0, 57.0), (0.0, 180.0, 90.0, 57.0)), 10.0),
        (((30.0, 0.0, 45.0, 40.0), (20.0, 180.0, 45.0, 90.0)), 30.0),
    ],
)
def test_half_turns_more_than_that_zero_straights_and_two_radii(
    bends: tuple[Bend, ...], rear: float, parts: int
) -> None:
    check_reads(tube_text(bends, rear, maker=TubeMaker(Writer(), parts=parts)), bends, rear)


def test_vertices_are_given_where_bends_have_them() -> None:
    text = tube_text(((100.0, 0.0, 90.0, 57.0),), 50.0)
    vertices = tube_of(text).vertices
    assert vertices is not None
    corner = START.at + 157.0 * START.along
    assert [vertex.clr for vertex in vertices] == [None, pytest.approx(57.0), None]
    assert (vertices[1].x, vertices[1].y, vertices[1].z) == pytest.approx(corner, abs=WITHIN)
    assert tube_of(tube_text(((100.0, 0.0, 180.0, 57.0),), 50.0)).vertices is None


def test_a_tube_without_a_bend_and_a_bar() -> None:
    assert numbers_of(tube_of(tube_text((), 500.0)))[0] == pytest.approx([500.0], abs=WITHIN)
    bar = tube_of(tube_text(maker=TubeMaker(Writer(), radii=(10.0,))))
    assert (bar.od, bar.wall) == (20.0, None)


def test_an_inside_at_a_distance_from_the_outside() -> None:
    """As a shell is written: the same surfaces once more, at a distance of minus the wall."""

    def surface(writer: Writer, one: Section, other: Section, arc: Arc | None, radius: float) -> str:
        outside = exact_surface(writer, one, other, arc, 19.05)
        at = writer.add(f"OFFSET_SURFACE('',{outside},{writer.length(radius - 19.05)},.F.)")
        return writer.add(f"RECTANGULAR_TRIMMED_SURFACE('',{at},0.,1.,0.,1.,.T.,.T.)")

    text = tube_text(maker=TubeMaker(Writer(unit="in"), parts=2, surface=surface))
    check_reads(text)
    assert tube_of(text).wall == pytest.approx(1.5, abs=WITHIN)


@pytest.mark.parametrize("kind", ["OFFSET_SURFACE('',{0},0.1,.F.)", "RECTANGULAR_TRIMMED_SURFACE('',{0},0.,1.,0.,1.)"])
def test_a_surface_within_itself(kind: str) -> None:
    text = re.sub(
        r"(#\d+)=CYLINDRICAL_SURFACE\([^;]*;", lambda found: f"{found[1]}={kind.format(found[1])};", tube_text()
    )
    with pytest.raises(InputError, match="expected a surface, found surfaces within surfaces without end"):
        tube_of(text)


class TurnedDown(TubeMaker):
    """Tube whose ends are turned down to 37 mm over `rounded`."""

    def _round(self, faces: list[str], end: Section, inner: Section, rim: list[str]) -> list[str]:
        shoulder, edges = (self._rim(place, 18.5, self._corners(place, 18.5)) for place in (inner, end))
        placement = self.writer.placement(inner.at, inner.along, inner.side)
        plane, cylinder = (self.writer.add(f"{kind}('',{placement}{size})") for kind, size in ROUND_END)
        faces.append(self.writer.face([rim, shoulder], plane, outward=True))
        faces.append(self.writer.face([shoulder, edges], cylinder, outward=True))
        return edges


ROUND_END = (("PLANE", ""), ("CYLINDRICAL_SURFACE", ",18.5"))


def test_ends_turned_down_over_a_length() -> None:
    text = tube_text(maker=TurnedDown(Writer(), rounded=15.0))
    check_reads(text)
    over = "narrower over 15.00 mm, which the straight includes"
    assert tube_of(text).understood == (("front edge", over), ("rear edge", over))


@pytest.mark.parametrize(("around", "along", "within"), [(13, 8, 0.01), (21, 12, 0.001)])
@pytest.mark.parametrize("parts", [1, 2])
def test_faces_fitted_by_splines(around: int, along: int, within: float, parts: int) -> None:
    surface = partial(fitted_surface, around=around, along=along)
    text = tube_text(maker=TubeMaker(Writer(), surface=surface, parts=parts))
    check_reads(text, within=within)
    ((subject, sentence),) = tube_of(text).understood
    assert subject == "surfaces"
    assert re.fullmatch(r"approximated, up to 0\.00\d\d mm off the tube", sentence)


def test_faces_fitted_too_roughly_are_refused() -> None:
    reason = refusal_of(tube_text(maker=TubeMaker(Writer(), surface=partial(fitted_surface, around=9, along=5))))
    assert reason == "no face that is a cylinder or a bend, and 14 approximated ones that are near to neither"


@pytest.mark.parametrize("parts", [1, 2])
def test_rounds_at_the_ends_are_no_bends(parts: int) -> None:
    text = tube_text(maker=TubeMaker(Writer(), parts=parts, rounded=0.7))
    check_reads(text)
    over = "chamfered or rounded over 0.70 mm, which the straight includes"
    assert tube_of(text).understood == (("front edge", over), ("rear edge", over))


def test_a_hole_of_exactly_the_bore() -> None:
    writer = Writer()
    faces = TubeMaker(writer).faces(*walk(TUBE, REAR, START))
    middle = START.at + 60.0 * START.along
    up, across = START.side, np.cross(START.along, START.side)
    surface = f"CYLINDRICAL_SURFACE('',{writer.placement(middle, up, START.along)},{writer.length(17.55)})"
    angles = np.linspace(0.0, 2.0 * np.pi, 61)
    x, y = 17.55 * np.cos(angles)[:, None], 17.55 * np.sin(angles)[:, None]
    rim = middle + x * START.along + y * across + np.sqrt(19.05**2 - y**2) * up
    corner = writer.vertex(rim[0])
    edge = writer.edge(corner, corner, spline_curve_text(writer, rim))
    faces.append(writer.face([[edge]], writer.add(surface), outward=False))
    writer.representation([writer.solid(faces)], writer.context())
    check_reads(writer.text())
    assert tube_of(writer.text()).ignored == ("round holes and cuts, Ø 35.1 mm",)


def test_a_hole_in_a_bend_on_the_axis_of_the_straight_before_it() -> None:
    """It shares that straight's axis as a bore does, and is smaller than the bore."""
    writer = Writer()
    sections, pieces = walk(TUBE, REAR, START)
    faces = TubeMaker(writer).faces(sections, pieces)
    bend = pieces[1]
    assert bend is not None
    edges = []
    for radius in (19.05, 17.55):
        turns = np.linspace(0.0, 2.0 * np.pi, 61)
        rim = np.array([outer_wall(sections[1].rim(4.0, turn), bend, radius) for turn in turns])
        corner = writer.vertex(rim[0])
        edges.append([writer.edge(corner, corner, spline_curve_text(writer, rim))])
    surface = f"CYLINDRICAL_SURFACE('',{writer.placement(START.at, START.along, START.side)},{writer.length(4.0)})"
    faces.append(writer.face(edges, writer.add(surface), outward=False))
    writer.representation([writer.solid(faces)], writer.context())
    check_reads(writer.text())
    assert tube_of(writer.text()).wall == pytest.approx(1.5)
    assert tube_of(writer.text()).ignored == ("round holes and cuts, Ø 8 mm",)


def outer_wall(start: np.ndarray, bend: Arc, radius: float) -> np.ndarray:
    """Where a line in the direction of START leaves a bend, by halving."""
    near, far = 0.0, 100.0
    while far - near > 1e-10:
        ahead = 0.5 * (near + far)
        offset = start + ahead * START.along - bend.centre
        out_of_plane = float(offset @ bend.axis)
        in_plane = math.sqrt(float(offset @ offset) - out_of_plane**2)
        inside = math.hypot(in_plane - bend.clr, out_of_plane) < radius
        near, far = (ahead, far) if inside else (near, ahead)
    return start + near * START.along


def test_pieces_with_faces_between_them() -> None:
    """Rings across the wall, where a tube was put together from straights and bends; no holes."""
    writer = Writer()
    sections, pieces = walk(TUBE, REAR, START)
    faces = TubeMaker(writer, parts=2).faces(sections, pieces)
    for section in sections[1:3]:
        edges = []
        for radius in (19.05, 17.55):
            corner = writer.vertex(section.rim(radius, 0.0))
            curve = writer.circle(section.at, section.along, section.side, radius)
            edges.append([writer.edge(corner, corner, curve)])
        plane = writer.add(f"PLANE('',{writer.placement(section.at, section.along, section.side)})")
        faces.append(writer.face(edges, plane, outward=True))
    writer.representation([writer.solid(faces)], writer.context())
    check_reads(writer.text())
    assert tube_of(writer.text()).ignored == ("faces across the tube, between its ends: 2",)


def test_a_skew_cut_that_ends_in_a_bend() -> None:
    """Half of the outside goes on for 20° more than the other half; how far the bend goes is a matter of definition."""
    writer = Writer()
    faces = TubeMaker(writer, parts=2).faces(*walk(((50.0, 0.0, 40.0, 57.0),), 0.0, START))[:-2]
    longer = TubeMaker(writer, parts=2).faces(*walk(((50.0, 0.0, 60.0, 57.0),), 0.0, START))[:-2]
    faces[3], faces[7] = longer[3], longer[7]
    writer.representation([writer.solid(faces)], writer.context())
    tube = tube_of(writer.text())
    assert numbers_of(tube)[1] == pytest.approx([60.0])
    ((subject, sentence),) = tube.understood
    assert subject == "rear cut"
    assert re.fullmatch(r"not square, .* mm from .*: the bend there goes to the farthest", sentence)


def test_forty_bends() -> None:
    zigzag = tuple((30.0, 180.0 if number else 0.0, 20.0, 60.0) for number in range(40))
    check_reads(tube_text(zigzag, 30.0), zigzag, 30.0)


def test_the_front_end_is_the_one_nearer_the_origin() -> None:
    far = Section(START.at + 900.0 * START.along, -START.along, START.side)
    tube = tube_of(tube_text(((500.0, 0.0, 30.0, 57.0),), 100.0, start=far))
    assert numbers_of(tube)[0] == pytest.approx([100.0, 500.0], abs=WITHIN)
    assert math.dist(tube.ends[0], (0.0, 0.0, 0.0)) < math.dist(tube.ends[1], (0.0, 0.0, 0.0))
    assert tube.ends[1] == pytest.approx(far.at, abs=WITHIN)


def test_several_solids_each_a_part() -> None:
    writer = Writer()
    maker = TubeMaker(writer)
    long = maker.solid((), 300.0, name="long")
    aside = replace(START, at=START.at + np.array([0.0, 0.0, 500.0]))
    bent = TubeMaker(writer, radii=(12.0, 11.0)).solid(((50.0, 0.0, 45.0, 30.0),), 60.0, start=aside, name="bent")
    writer.product(writer.representation([long, bent], writer.context()), "Frame (invented)")
    file = file_of(writer.text())
    assert [solid.name for solid in file.solids] == ["Frame (invented) / long", "Frame (invented) / bent"]
    assert numbers_of(tube_of(writer.text(), 2))[0] == pytest.approx([50.0, 60.0], abs=WITHIN)
    assert refusal_of(writer.text(), 1, 2).startswith("8 faces that are not in the tube's wall, near ")
