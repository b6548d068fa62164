"""Solids that are no tube which can be bent: each says why, none is read as a shorter one."""

import math
import re
from dataclasses import replace

import numpy as np
import pytest

from bendgen.errors import InputError
from tests.files.solids.reading import file_of, numbers_of, refusal_of, tube_of
from tests.solid_writer import REAR, START, TUBE, Section, TubeMaker, Writer, walk


def solid_text(writer: Writer, faces: list[str]) -> str:
    writer.representation([writer.solid(faces)], writer.context())
    return writer.text()


BESIDE = Section(START.at + 60.0 * START.along + 60.0 * START.side, START.along, START.side)
STANDING = Section(START.at + 60.0 * START.along + 19.0 * START.side, START.side, START.along)


def two_tubes(other: Section, radii: tuple[float, ...], length: float = 80.0) -> str:
    writer = Writer()
    faces = TubeMaker(writer).faces(*walk(TUBE, REAR, START))
    return solid_text(writer, faces + TubeMaker(writer, radii=radii).faces(*walk((), length, other)))


def test_a_second_tube_of_the_same_size_is_left_over() -> None:
    reason = refusal_of(two_tubes(BESIDE, (19.05, 17.55)))
    assert re.fullmatch(
        r"7 pieces end to end and, of the same radius, left over: a straight, 80 mm long, at \(.*\) mm \(face #\d+\)",
        reason,
    )


def test_a_branch_of_another_size_stands_out() -> None:
    reason = refusal_of(two_tubes(STANDING, (8.0, 7.0)))
    assert re.fullmatch(
        r"4 faces that are not in the tube's wall, near \(.*\) mm: #\d+ \(CYLINDRICAL_SURFACE\), .* and 1 more", reason
    )


def test_a_plug_in_the_bore_stands_out() -> None:
    reason = refusal_of(two_tubes(START, (10.0,), 5.0))
    assert re.match(r"a round of Ø 20 mm \(face #\d+\) within a straight, 120 mm long, at \(52, 33, 50\) mm", reason)


def test_a_tube_within_the_tube() -> None:
    """Both together would be a tube of three times the wall."""
    writer = Writer()
    sections, pieces = walk(TUBE, REAR, START)
    faces = [*TubeMaker(writer).faces(sections, pieces), *TubeMaker(writer, (12.0, 11.0)).faces(sections, pieces)]
    assert re.match(r"a round of Ø 24 mm \(face #\d+\) within a straight", refusal_of(solid_text(writer, faces)))


@pytest.mark.parametrize(("parts", "left", "open_deg"), [(2, 1, "180"), (4, 2, "180"), (4, 1, "270")])
def test_a_gutter_is_no_tube(parts: int, left: int, open_deg: str) -> None:
    """Half of a tube split along its length has every face of the radius in one chain."""
    writer = Writer()
    faces = TubeMaker(writer, parts=parts).faces(*walk(TUBE, REAR, START))[:-2]
    halves = [face for number, face in enumerate(faces) if number % parts < left]
    reason = refusal_of(solid_text(writer, halves))
    assert reason.startswith(f"faces that leave {open_deg}° of the way round open, in a straight, 120 mm long, at ")


def test_one_piece_that_is_a_gutter() -> None:
    writer = Writer()
    faces = TubeMaker(writer, parts=2).faces(*walk(TUBE, REAR, START))[:-2]
    kept = [face for number, face in enumerate(faces) if number not in (5, 19)]
    assert refusal_of(solid_text(writer, kept)).startswith(
        "faces that leave 180° of the way round open, in a straight, 85 mm long, at "
    )


def test_a_skew_cut_may_leave_little_of_the_last_straight() -> None:
    """Half of the way round, as a cut leaves it that reaches into the bend."""
    writer = Writer()
    faces = TubeMaker(writer, parts=2).faces(*walk(TUBE, REAR, START))[:-2]
    kept = [face for number, face in enumerate(faces) if number not in (13, 27)]
    assert numbers_of(tube_of(solid_text(writer, kept)))[1] == pytest.approx([90.0, 45.0, 60.5])


def test_a_tube_split_on_one_side_is_one() -> None:
    """Three quarters of the way round are left."""
    writer = Writer()
    faces = TubeMaker(writer, parts=4).faces(*walk(TUBE, REAR, START))[:-2]
    most = [face for number, face in enumerate(faces) if number % 4 < 3]
    assert numbers_of(tube_of(solid_text(writer, most)))[1] == pytest.approx([90.0, 45.0, 60.5])


def test_a_ring_that_is_one_face() -> None:
    writer = Writer()
    placement = writer.placement(START.at, START.along, START.side)
    edges = []
    for radius in (77.0, 20.0):
        at = START.at if radius == 77.0 else START.at + 57.0 * START.side
        z = START.along if radius == 77.0 else np.cross(START.along, START.side)
        corner = writer.vertex(START.at + 77.0 * START.side)
        edges.append(writer.edge(corner, corner, writer.circle(at, z, START.side, radius)))
    surface = writer.add(f"TOROIDAL_SURFACE('',{placement},57.,20.)")
    assert (
        refusal_of(solid_text(writer, [writer.face([edges], surface, outward=True)])) == "a ring, closed or nearly so"
    )


def test_an_end_turned_down_outside_and_another_bored_out() -> None:
    """18.2 mm is narrower than 18.4 mm, but they are not at the same end."""
    writer = Writer()
    sections, pieces = walk((), 100.0, START)
    faces = TubeMaker(writer).faces(sections, pieces)
    rear = replace(START, at=START.at + 90.0 * START.along)
    faces += TubeMaker(writer, (18.2,)).faces(*walk((), 10.0, START))[:1]
    faces += TubeMaker(writer, (30.0, 18.4)).faces(*walk((), 10.0, rear))[1:2]
    assert tube_of(solid_text(writer, faces)).wall == pytest.approx(1.5)


def test_a_tube_with_a_piece_missing() -> None:
    writer = Writer()
    sections, pieces = walk(TUBE, REAR, START)
    maker = TubeMaker(writer)
    whole = maker.faces(sections[:3], pieces[:2]) + maker.faces(sections[3:], pieces[3:])
    assert "4 pieces end to end and, of the same radius, left over: a straight, 120 mm long" in refusal_of(
        solid_text(writer, whole)
    )


def test_a_bore_that_stops() -> None:
    writer = Writer()
    sections, pieces = walk(((100.0, 0.0, 90.0, 57.0),), 50.0, START)
    faces = TubeMaker(writer, radii=(19.05,)).faces(sections, pieces)
    faces += TubeMaker(writer, radii=(30.0, 17.55)).faces(sections[:2], pieces[:1])[1:2]
    reason = refusal_of(solid_text(writer, faces))
    assert re.match(r"a bore of 35\.1 mm that is missing in a bend of CLR 57 mm, 89\.\d+ mm long", reason)


@pytest.mark.parametrize("where", [0, 2])
def test_a_bore_that_is_closed(where: int) -> None:
    """At the front end, or somewhere within."""
    writer = Writer()
    sections, pieces = walk(TUBE, REAR, START)
    faces = TubeMaker(writer).faces(sections, pieces)
    section = sections[where]
    corner = writer.vertex(section.rim(17.55, 0.0))
    rim = writer.edge(corner, corner, writer.circle(section.at, section.along, section.side, 17.55))
    plane = writer.add(f"PLANE('',{writer.placement(section.at, section.along, section.side)})")
    faces.append(writer.face([[rim]], plane, outward=True))
    assert re.match(r"a bore that is closed by #\d+ at \(", refusal_of(solid_text(writer, faces)))


def test_a_closed_ring() -> None:
    writer = Writer()
    sections, pieces = walk(((100.0, 0.0, 180.0, 57.0), (100.0, 0.0, 180.0, 57.0)), 0.0, START)
    assert (
        refusal_of(solid_text(writer, TubeMaker(writer).faces(sections, pieces))) == "a closed ring, which has no ends"
    )


@pytest.mark.parametrize("decimals", [12, 3])  # with few of them axes are refined by points, of which there are none
def test_round_faces_without_edges(decimals: int) -> None:
    writer = Writer(decimals=decimals, direction_decimals=decimals)
    surface = f"TOROIDAL_SURFACE('',{writer.placement(START.at, START.along, START.side)},57.,19.)"
    face = writer.face([], writer.add(surface), outward=True)
    assert refusal_of(solid_text(writer, [face])) == "round faces that have no edges"


def test_nothing_but_the_outside_of_a_straight() -> None:
    writer = Writer()
    faces = TubeMaker(writer, radii=(19.05,)).faces(*walk((), 80.0, START))[:1]
    assert numbers_of(tube_of(solid_text(writer, faces)))[0] == pytest.approx([80.0])


def test_pins_without_number_are_soon_found_to_be_no_tube(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("bendgen.files.solids.pieces.MOST_PIECES", 50)
    writer = Writer()
    maker = TubeMaker(writer, radii=(3.0,), parts=0)
    pins = (Section(START.at + 10.0 * number * START.side, START.along, START.side) for number in range(51))
    faces = [face for pin in pins for face in maker.faces(*walk((), 5.0, pin))[:1]]
    assert refusal_of(solid_text(writer, faces)) == "more than 50 straights and bends"


def test_nothing_round() -> None:
    writer = Writer()
    plane = writer.add(f"PLANE('',{writer.placement(START.at, START.along, START.side)})")
    assert refusal_of(solid_text(writer, [writer.face([], plane, outward=True)])) == (
        "no face that is a cylinder or a bend"
    )


def test_a_mitre_asks_for_its_clr() -> None:
    text = mitred_text(50.0)
    tube = tube_of(text)
    assert tube.steps is None
    assert tube.vertices is not None
    assert [vertex.clr for vertex in tube.vertices] == [None, None, None]
    straights, angles, _, clr = numbers_of(tube_of(text, mitre_clr=100.0))
    tangent = 100.0 * math.tan(math.radians(25.0))
    assert straights == pytest.approx([200.0 - tangent, 150.0 - tangent], abs=1e-6)
    assert angles == pytest.approx([50.0])
    assert clr == [100.0]


def mitred_faces(writer: Writer, turn_deg: float, radius: float, *, outward: bool = True) -> list[str]:
    """Faces at one radius of pipes of 200 and 150 mm on their axes, cut on the plane that halves the angle between."""
    sections, _ = walk(((200.0, 0.0, turn_deg, 1e-9),), 150.0, START)
    faces = []
    normal = sections[1].along + sections[2].along
    for inner, outer in ((sections[1], sections[0]), (sections[2], sections[3])):
        surface = writer.add(
            f"CYLINDRICAL_SURFACE('',{writer.placement(outer.at, outer.along, outer.side)},{writer.length(radius)})"
        )
        corner = writer.vertex(outer.rim(radius, 0.0))
        rim = writer.edge(corner, corner, writer.circle(outer.at, outer.along, outer.side, radius))
        long = cut_axis(inner, normal)
        squeeze = radius / float(np.cos(np.radians(turn_deg) / 2.0))
        oval = writer.add(
            f"ELLIPSE('',{writer.placement(inner.at, normal / np.linalg.norm(normal), long)},"
            f"{writer.length(squeeze)},{writer.length(radius)})"
        )
        tip = writer.vertex(inner.at + squeeze * long)
        faces.append(writer.face([[rim], [writer.edge(tip, tip, oval)]], surface, outward=outward))
    return faces


def mitred_text(turn_deg: float) -> str:
    """Two bars that meet at a mitre."""
    writer = Writer()
    return solid_text(writer, mitred_faces(writer, turn_deg, 20.0))


def test_the_bore_of_mitred_pipes_and_what_stands_in_it() -> None:
    writer = Writer()
    faces = mitred_faces(writer, 50.0, 20.0) + mitred_faces(writer, 50.0, 17.0, outward=False)
    assert tube_of(solid_text(writer, faces)).wall == pytest.approx(3.0)
    writer = Writer()
    faces = mitred_faces(writer, 50.0, 20.0) + mitred_faces(writer, 50.0, 17.0, outward=False)
    faces += TubeMaker(writer, radii=(10.0,)).faces(*walk((), 5.0, START))
    assert refusal_of(solid_text(writer, faces)).startswith("a round of Ø 20 mm")


def cut_axis(section: Section, normal: np.ndarray) -> np.ndarray:
    """Long axis of the oval in which a plane cuts a tube."""
    unit = normal / np.linalg.norm(normal)
    along = section.along - (section.along @ unit) * unit
    axis: np.ndarray = along / np.linalg.norm(along)
    return axis


def test_tubes_that_cross_are_no_mitre() -> None:
    writer = Writer()
    crossing = replace(STANDING, at=START.at + 60.0 * START.along - 40.0 * START.side)
    faces = TubeMaker(writer).faces(*walk((), 120.0, START)) + TubeMaker(writer).faces(*walk((), 80.0, crossing))
    assert "left over" in refusal_of(solid_text(writer, faces))


def test_an_instance_too_long_to_be_one() -> None:
    text = f"#1=SHAPE_REPRESENTATION('',({'1.,' * 700_000}1.),#2);"
    with pytest.raises(InputError) as caught:
        file_of(f"ISO-10303-21;HEADER;FILE_SCHEMA(('AUTOMOTIVE_DESIGN'));ENDSEC;DATA;{text}ENDSEC;END-ISO-10303-21;")
    assert str(caught.value) == "f.step: #1: expected at most 2 MB, found a longer instance"


@pytest.mark.parametrize(
    ("data", "found"),
    [
        ("#1=CLOSED_SHELL('',());", "none"),
        ("#1=SHELL_BASED_SURFACE_MODEL('',(#2));#2=OPEN_SHELL('',());", "only SHELL_BASED_SURFACE_MODEL, OPEN_SHELL"),
        ("#1=FACETED_BREP('',#2);", "only FACETED_BREP"),
    ],
)
def test_files_without_a_solid(data: str, found: str) -> None:
    header = "ISO-10303-21;HEADER;FILE_SCHEMA(('AUTOMOTIVE_DESIGN'));ENDSEC;DATA;"
    with pytest.raises(InputError) as caught:
        file_of(f"{header}{data}ENDSEC;END-ISO-10303-21;")
    assert str(caught.value) == f"f.step: expected a solid with exact faces, found {found}"
