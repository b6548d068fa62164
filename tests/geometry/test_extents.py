"""Overall size of a tube against a cloud of points on its skin."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.bending.shapes import bent_tube, box_of_solid, solid_of_tube
from bendgen.geometry.extents import ARC_SAMPLES, arc_points, overall_box
from tests.independent_bender import Array, IndependentBender, Keyed, SpringLaw

OD = 30.0


def cloud(straights: list[float], bends: list[tuple[float, float]], clr: float) -> Array:
    """Points on the skin: each bend cut into small ones, so that every straight's end has a ring of points."""
    walker = IndependentBender(
        side="left",
        feed="incremental",
        rotation="incremental",
        clockwise=True,
        grip=0.0,
        laws={"": SpringLaw(die_clr=clr)},
    )
    table, pieces = [], 90
    for straight, (rotation, angle) in zip(straights, bends, strict=False):
        table.append(Keyed(die="", feed=straight, rotation=rotation, bend=angle / pieces))
        table.extend([Keyed(die="", feed=0.0, rotation=0.0, bend=angle / pieces)] * (pieces - 1))
    length = sum(straights) + sum(clr * math.radians(angle) for _, angle in bends)
    made = walker.make(table, length)
    ring = []
    for i, point in enumerate(made.points):
        direction = made.directions[i // 2]
        across = np.cross(direction, np.eye(3)[int(np.argmin(np.abs(direction)))])
        across /= np.linalg.norm(across)
        other = np.cross(direction, across)
        turns = np.linspace(0.0, 2.0 * math.pi, 72, endpoint=False)
        ring.append(point + OD / 2.0 * (np.cos(turns)[:, None] * across + np.sin(turns)[:, None] * other))
    return np.vstack(ring)


@given(
    st.lists(st.floats(5.0, 200.0), min_size=4, max_size=4),
    st.lists(st.tuples(st.floats(-180.0, 180.0), st.floats(5.0, 179.0)), min_size=3, max_size=3),
)
@settings(max_examples=25, deadline=None, derandomize=True)
def test_box_of_a_bent_tube_is_that_of_its_skin(straights: list[float], bends: list[tuple[float, float]]) -> None:
    clr = 60.0
    angles, rotations = np.array([b[1] for b in bends]), np.array([0.0, *(b[0] for b in bends[1:])])
    low, high = box_of_solid(solid_of_tube(bent_tube(np.array(straights), angles, rotations, np.full(3, clr))), OD)
    skin = cloud(straights, [(0.0, bends[0][1]), *bends[1:]], clr)
    moved = laid_back(skin)
    np.testing.assert_allclose(low, moved.min(axis=0), atol=0.15)
    np.testing.assert_allclose(high, moved.max(axis=0), atol=0.15)


def laid_back(skin: Array) -> Array:
    """Skin in the machine's frame after the last bend: the tangent line at x = 0, the rear straight along -X."""
    *_, before, _, start, end = skin.reshape(-1, 72, 3).mean(axis=1)
    x = (start - end) / np.linalg.norm(start - end)
    inward = (before - start) - ((before - start) @ x) * x
    y = inward / np.linalg.norm(inward)
    moved: Array = (skin - start) @ np.column_stack((x, y, np.cross(x, y)))
    return moved


def test_arcs_go_from_start_to_end_round_their_centre() -> None:
    points = arc_points(
        np.array([(0.0, 0, 0)]),
        np.array([(10.0, 10.0, 0)]),
        np.array([(1.0, 0, 0)]),
        np.array([math.pi / 2]),
        np.array([10.0]),
    )
    assert points.shape == (1, ARC_SAMPLES, 3)
    np.testing.assert_allclose(points[0, [0, -1]], [(0, 0, 0), (10, 10, 0)], atol=1e-12)
    np.testing.assert_allclose(np.linalg.norm(points[0] - (0, 10, 0), axis=1), 10.0)


def test_half_a_turn_and_no_turn() -> None:
    half = arc_points(
        np.zeros((1, 3)), np.array([(0.0, 20.0, 0)]), np.array([(1.0, 0, 0)]), np.array([math.pi]), np.array([10.0])
    )
    assert half[0, :, 0].max() == pytest.approx(10.0, rel=1e-3)
    none = arc_points(np.zeros((1, 3)), np.zeros((1, 3)), np.array([(1.0, 0, 0)]), np.zeros(1), np.array([10.0]))
    np.testing.assert_array_equal(none, 0.0)


def test_a_straight_tube_is_as_wide_as_its_od_and_no_longer() -> None:
    points, directions = np.array([(0.0, 0, 0), (100, 0, 0)]), np.array([(1.0, 0, 0)])
    low, high = overall_box(points, directions, np.zeros(0), np.zeros(0), OD)
    assert (high - low).tolist() == [100.0, 30.0, 30.0]


def test_a_hoop_reaches_its_radius_and_half_the_tube_beyond_its_ends() -> None:
    # Half a turn of radius 100 from the origin along +x: the crown of the bend lies at x = 100, its outside at 115.
    points, directions = (
        np.array([(0.0, 0, 0), (0, 0, 0), (0, 200, 0), (0, 200, 0)]),
        np.array([(1.0, 0, 0), (-1, 0, 0)]),
    )
    low, high = overall_box(points, directions, np.array([math.pi]), np.array([100.0]), OD)
    np.testing.assert_allclose((low, high), [(0.0, -15.0, -15.0), (115.0, 215.0, 15.0)], atol=1e-12)
