"""Axes of pieces of tube, and how they are found in grids of points."""

import numpy as np
import pytest
from numpy.typing import NDArray

from bendgen.geometry.tube_axes import ArcAxis, LineAxis, arc_axis, distances_from, surface_of_grid

Array = NDArray[np.float64]
U, V = np.meshgrid(np.linspace(0.0, 2.0 * np.pi, 13), np.linspace(0.0, 1.0, 17), indexing="ij")
LINE = LineAxis(point=np.array([1.0, 2.0, 3.0]), direction=np.array([0.6, 0.8, 0.0]))
ARC = ArcAxis(centre=np.zeros(3), normal=np.array([0.0, 0.0, 1.0]), clr=50.0, start=np.array([1.0, 0.0, 0.0]))


def grid(x: Array, y: Array, z: Array) -> Array:
    return np.stack((x, y, z), axis=2)


def cylinder(radius: float = 20.0, length: float = 100.0) -> Array:
    return grid(radius * np.cos(U), radius * np.sin(U), length * V)


def torus(clr: float = 57.0, radius: float = 20.0, turn: float = np.pi / 2.0) -> Array:
    out = clr + radius * np.cos(U)
    return grid(out * np.cos(turn * V), out * np.sin(turn * V), radius * np.sin(U))


def test_positions_and_feet_on_a_line() -> None:
    points = np.array([[1.0, 2.0, 3.0], [1.6, 2.8, 7.0], [0.4, 1.2, 3.0]])
    assert LINE.positions(points) == pytest.approx([0.0, 1.0, -1.0])
    assert distances_from(LINE, points) == pytest.approx([0.0, 4.0, 0.0], abs=1e-12)
    assert LINE.at(1.0) == pytest.approx([1.6, 2.8, 3.0])


def test_angles_and_feet_on_a_circle() -> None:
    points = np.array([[50.0, 0.0, 5.0], [0.0, 47.0, 4.0], [0.0, -60.0, 0.0]])
    assert ARC.angles(points) == pytest.approx([0.0, np.pi / 2.0, 1.5 * np.pi])
    assert distances_from(ARC, points) == pytest.approx([5.0, 5.0, 10.0])
    assert ARC.at(np.pi / 2.0) == pytest.approx([0.0, 50.0, 0.0], abs=1e-12)
    assert ARC.tangent(np.pi / 2.0) == pytest.approx([-1.0, 0.0, 0.0], abs=1e-12)


def test_the_centre_of_a_circle_is_as_far_from_all_of_it() -> None:
    assert distances_from(ARC, np.zeros((1, 3))) == pytest.approx([50.0])


def test_any_normal_has_a_start_square_to_it() -> None:
    axis = arc_axis(np.zeros(3), np.array([0.0, 0.0, 1.0]), 5.0)
    assert axis.start @ axis.normal == pytest.approx(0.0, abs=1e-15)


@pytest.mark.parametrize("turned", [False, True])
def test_a_cylinder_is_a_straight(turned: bool) -> None:  # noqa: FBT001 - a parameter of the case
    points = cylinder()
    found = surface_of_grid(points.swapaxes(0, 1) if turned else points, 0.01)
    assert found is not None
    assert isinstance(found.axis, LineAxis)
    assert found.radius == pytest.approx(20.0, abs=1e-12)
    assert np.abs(found.axis.direction) == pytest.approx([0.0, 0.0, 1.0], abs=1e-12)
    assert found.misfit < 1e-12


@pytest.mark.parametrize("turn", [0.05, np.pi / 2.0, 1.5 * np.pi])
def test_a_torus_is_a_bend(turn: float) -> None:
    found = surface_of_grid(torus(turn=turn), 0.01)
    assert found is not None
    assert isinstance(found.axis, ArcAxis)
    assert (found.radius, found.axis.clr) == pytest.approx((20.0, 57.0), abs=1e-7)


def test_a_fitted_straight_is_not_a_bend_of_large_radius() -> None:
    wavy = cylinder() + 0.004 * np.sin(3.0 * np.pi * V)[:, :, None] * np.array([1.0, 0.0, 0.0])
    wavy = wavy + 0.004 * np.cos(7.0 * U)[:, :, None] * np.array([0.0, 1.0, 0.0])
    found = surface_of_grid(wavy, 0.01)
    assert found is not None
    assert isinstance(found.axis, LineAxis)


@pytest.mark.parametrize(
    "other",
    [
        grid(100.0 * U, 100.0 * V, 0.0 * U),  # a plane
        grid((20.0 + V) * np.cos(U), (20.0 + V) * np.sin(U), V),  # a cone
        grid(20.0 * np.sin(V) * np.cos(U), 20.0 * np.sin(V) * np.sin(U), 20.0 * np.cos(V)),  # a sphere
        grid(20.0 * np.cos(U), 19.0 * np.sin(U), 100.0 * V),  # an oval tube
    ],
)
def test_other_surfaces_are_no_tube(other: Array) -> None:
    assert surface_of_grid(other, 0.01) is None
