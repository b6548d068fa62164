"""Tubes whose outside is one B-spline face from end to end, with a knot wherever a straight meets a bend."""

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.interpolate import make_interp_spline

from tests.files.solids.reading import numbers_of, refusal_of, tube_of
from tests.solid_writer import (
    REAR,
    START,
    TUBE,
    Arc,
    Section,
    TubeMaker,
    Writer,
    between,
    spline_surface_of_control,
    walk,
)

AROUND, ALONG = 21, 12
Array = NDArray[np.float64]


def swept_surface(writer: Writer, sections: list[Section], pieces: list[Arc | None], radius: float) -> str:
    """Cubic surface through points of every piece, those of neighbours joined with three knots at one place."""
    turns = np.linspace(0.0, 2.0 * np.pi, AROUND)
    rows: list[Array] = []
    knots: list[float] = []
    for index, arc in enumerate(pieces):
        places = [between(sections[index], sections[index + 1], arc, s) for s in np.linspace(0.0, 1.0, ALONG)]
        points = np.array([[place.rim(radius, turn) for turn in turns] for place in places])
        spline = make_interp_spline(np.linspace(0.0, 1.0, ALONG), points, k=3)
        rows.extend(spline.c if index == 0 else spline.c[1:])
        knots.extend(index + (spline.t[:-1] if index == 0 else spline.t[4:-1]))
    knots.append(float(len(pieces)))
    around = make_interp_spline(turns, np.array(rows).swapaxes(0, 1), k=3)
    return spline_surface_of_control(writer, around.c.swapaxes(0, 1), (np.array(knots), around.t))


def swept_text(*, cut_short: float = 0.0) -> str:
    """Tube of two swept faces; cut_short: its front end stands that far within them."""
    writer = Writer()
    maker = TubeMaker(writer)
    sections, pieces = walk(TUBE, REAR, START)
    ends = [Section(START.at + cut_short * START.along, START.along, START.side), sections[-1]]
    faces, rims = [], []
    for radius in maker.radii:
        corners = [writer.vertex(end.rim(radius, 0.0)) for end in ends]
        circles = [writer.circle(end.at, end.along, end.side, radius) for end in ends]
        edges = [writer.edge(corner, corner, circle) for corner, circle in zip(corners, circles, strict=True)]
        surface = swept_surface(writer, sections, pieces, radius)
        # Rows run along the tube and columns round it, so that the surface's own normal points to the axis.
        faces.append(writer.face([[edge] for edge in edges], surface, outward=radius != maker.radii[0]))
        rims.append(edges)
    for end, loops in zip(ends, zip(*rims, strict=True), strict=True):
        plane = writer.add(f"PLANE('',{writer.placement(end.at, end.along, end.side)})")
        faces.append(writer.face([[edge] for edge in loops], plane, outward=True))
    writer.representation([writer.solid(faces)], writer.context())
    return writer.text()


def test_every_straight_and_bend_is_found_in_one_face() -> None:
    straights, angles, rotations, clr = numbers_of(tube_of(swept_text()))
    assert straights == pytest.approx([120.0, 85.0, 150.0, 100.0], abs=0.005)
    assert angles == pytest.approx([90.0, 45.0, 60.5], abs=0.005)
    assert rotations == pytest.approx([90.0, -37.0], abs=0.005)
    assert clr == pytest.approx([57.0] * 3, abs=0.005)
    assert tube_of(swept_text()).wall == pytest.approx(1.5, abs=0.001)


def test_a_face_that_is_shorter_than_its_surface_is_not_taken_for_all_of_it() -> None:
    assert refusal_of(swept_text(cut_short=5.0)) == (
        "no face that is a cylinder or a bend, and 2 approximated ones that are near to neither"
    )
