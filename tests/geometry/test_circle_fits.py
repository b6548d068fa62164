"""Circles through points: exact ones, lines, noise."""

import numpy as np
import pytest
from numpy.typing import NDArray

from bendgen.geometry.circle_fits import fit_circles

TILT = np.linalg.qr(np.array([[1.0, 2.0, 0.5], [0.3, -1.0, 2.0], [1.5, 0.2, -0.7]]))[0]
CENTRE = np.array([300.0, -20.0, 75.0])


def arc(radius: float, degrees: float, count: int = 12) -> NDArray[np.float64]:
    """Points of an arc in a tilted plane."""
    angles = np.radians(np.linspace(10.0, 10.0 + degrees, count))
    flat = radius * np.stack((np.cos(angles), np.sin(angles), np.zeros(count)), axis=1)
    placed: NDArray[np.float64] = flat @ TILT.T + CENTRE
    return placed


@pytest.mark.parametrize(("degrees", "allowed"), [(360.0, 1e-11), (90.0, 1e-11), (10.0, 1e-8)])
def test_an_exact_arc_gives_its_circle(degrees: float, allowed: float) -> None:
    fit = fit_circles(np.stack((arc(57.0, degrees), arc(19.05, degrees))))
    assert np.allclose(fit.radii, [57.0, 19.05], atol=allowed)
    assert np.allclose(fit.centres, CENTRE, atol=allowed)
    assert np.all(fit.misfits < 1e-11)
    assert np.allclose(np.abs(fit.normals @ TILT[:, 2]), 1.0, atol=1e-12)


def test_points_on_a_line_are_on_no_circle() -> None:
    line = CENTRE + np.linspace(0.0, 50.0, 9)[:, None] * TILT[:, 0]
    fit = fit_circles(np.stack((line, arc(57.0, 90.0, 9))))
    assert np.isinf(fit.radii[0])
    assert np.isinf(fit.misfits[0])
    assert fit.radii[1] == pytest.approx(57.0, abs=1e-9)


def test_a_noisy_short_arc_is_not_read_too_tight() -> None:
    """The linear fit alone has a known bias towards small circles, which the steps on distances take out."""
    rng = np.random.default_rng(1)
    sets = np.stack([arc(57.0, 40.0, 30) + rng.normal(0.0, 0.2, (30, 3)) for _ in range(400)])
    assert float(np.median(fit_circles(sets).radii)) == pytest.approx(57.0, rel=0.01)


def test_the_misfit_is_the_farthest_point() -> None:
    points = arc(57.0, 360.0, 13)[:-1]
    points[3] += 0.01 * TILT[:, 2]
    assert fit_circles(points[None]).misfits[0] == pytest.approx(0.01, rel=0.35)
