"""Distances from the axis of a bent tube, against the nearest of many points along it."""

import numpy as np
import pytest
from numpy.typing import NDArray

from bendgen.geometry.spine_distances import Spine, spine_distances

# Along x for 100, a quarter turn to the left at radius 40, along y for 60 (invented).
SPINE = Spine(
    starts=np.array([[0.0, 0.0, 0.0], [140.0, 40.0, 0.0]]),
    ends=np.array([[100.0, 0.0, 0.0], [140.0, 100.0, 0.0]]),
    centres=np.array([[100.0, 40.0, 0.0]]),
    radial=np.array([[0.0, -1.0, 0.0]]),
    tangential=np.array([[1.0, 0.0, 0.0]]),
    clr=np.array([40.0]),
    angles=np.array([np.pi / 2.0]),
)


def along(count: int) -> NDArray[np.float64]:
    """Points along that axis."""
    share = np.linspace(0.0, 1.0, count)[:, None]
    angles = np.pi / 2.0 * share
    arc = SPINE.centres[0] + 40.0 * np.hstack((np.sin(angles), -np.cos(angles), 0.0 * angles))
    first, last = (SPINE.starts[i] + share * (SPINE.ends[i] - SPINE.starts[i]) for i in (0, 1))
    return np.vstack((first, arc, last))


def test_random_points_against_many_places_of_the_axis() -> None:
    points = np.random.default_rng(3).uniform(-80.0, 220.0, (200, 3))
    places = along(4000)
    brute = np.array([np.linalg.norm(places - point, axis=1).min() for point in points])
    assert spine_distances(points, SPINE) == pytest.approx(brute, abs=1e-3)


def test_a_straight_of_no_length_is_a_point() -> None:
    spot = np.array([[5.0, 0.0, 0.0]])
    none = np.empty((0, 3))
    spine = Spine(starts=spot, ends=spot, centres=none, radial=none, tangential=none, clr=none[:, 0], angles=none[:, 0])
    assert spine_distances(np.array([[5.0, 3.0, 4.0]]), spine) == pytest.approx([5.0])
