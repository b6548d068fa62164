"""Axes tilted by a little, put right by points on the tube about them."""

import numpy as np
import pytest

from bendgen.geometry.axis_refinement import refined_axis
from bendgen.geometry.tube_axes import ArcAxis, LineAxis, arc_axis
from bendgen.geometry.vectors import Array, unit

TURNS = np.linspace(0.0, 2.0 * np.pi, 25)
RADIUS = 19.05


def ring(middle: Array, along: Array) -> Array:
    """Points of a section of the tube."""
    side = unit(np.cross(along, np.array([0.3, 0.1, 0.9])))
    out = np.cos(TURNS)[:, None] * side + np.sin(TURNS)[:, None] * np.cross(along, side)
    return middle + RADIUS * out


def test_a_tilted_line() -> None:
    start, along = np.array([5.0, 6.0, 7.0]), np.array([0.6, 0.0, 0.8])
    points = np.vstack([ring(start + position * along, along) for position in (0.0, 40.0, 100.0)])
    rough = LineAxis(point=start + 0.004, direction=unit(along + np.array([5e-4, -3e-4, 2e-4])))
    found = refined_axis(rough, points, RADIUS)
    assert isinstance(found, LineAxis)
    assert found.direction == pytest.approx(along, abs=1e-12)
    assert found.nearest(start[None])[0] == pytest.approx(start, abs=1e-10)


def test_a_tilted_circle() -> None:
    true = arc_axis(np.array([1.0, 2.0, 3.0]), unit(np.array([1.0, 2.0, 2.0])), 57.0)
    points = np.vstack([ring(true.at(angle), true.tangent(angle)) for angle in (0.2, 0.9, 1.7)])
    rough = arc_axis(true.centre, unit(true.normal + np.array([4e-4, 1e-4, -5e-4])), 57.0)
    found = refined_axis(rough, points, RADIUS)
    assert isinstance(found, ArcAxis)
    assert found.normal == pytest.approx(true.normal, abs=1e-12)
    assert found.start @ found.normal == pytest.approx(0.0, abs=1e-14)


def test_one_section_says_nothing_about_the_direction_beyond_what_it_shows() -> None:
    along = np.array([0.0, 0.0, 1.0])
    found = refined_axis(LineAxis(point=np.zeros(3), direction=along), ring(np.zeros(3), along), RADIUS)
    assert isinstance(found, LineAxis)
    assert found.direction == pytest.approx(along, abs=1e-12)
