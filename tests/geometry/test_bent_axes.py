"""Frames along one tube against the axes of many."""

import numpy as np
import pytest

from bendgen.geometry.bent_axes import bent_axes, frames_of_tube


@pytest.mark.parametrize("bends", [0, 1, 2, 7])
def test_frames_lie_along_the_axis(bends: int) -> None:
    rng = np.random.default_rng(bends)
    straights, clr = rng.uniform(0.0, 200.0, bends + 1), rng.uniform(20.0, 300.0, bends)
    rotations, angles = rng.uniform(-3.0, 3.0, bends), rng.uniform(0.01, 6.0, bends)
    starts, frames = frames_of_tube(straights, rotations, angles, clr)
    points, directions = bent_axes(straights[None], rotations[None], angles[None], clr[None])
    assert starts == pytest.approx(points[0], abs=1e-9)
    assert frames[::2, :, 0] == pytest.approx(directions[0], abs=1e-12)
    assert frames @ frames.swapaxes(1, 2) == pytest.approx(np.broadcast_to(np.eye(3), frames.shape), abs=1e-12)
    assert np.linalg.det(frames) == pytest.approx(1.0)


def test_the_second_column_of_an_arc_points_to_its_centre() -> None:
    clr = np.array([40.0, 60.0])
    starts, frames = frames_of_tube(np.array([30.0, 20.0, 10.0]), np.array([0.0, 1.0]), np.array([0.5, 4.0]), clr)
    centres = starts[1:-1:2] + clr[:, None] * frames[1:-1:2, :, 1]
    assert np.linalg.norm(starts[2::2] - centres, axis=1) == pytest.approx(clr)
