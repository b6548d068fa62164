"""Best fit of points: a printed worked fit, and the trap of the mirror image."""

import math

import numpy as np
import pytest

from bendgen.geometry.rigid_fit import rigid_fit


def test_biopython_worked_fit() -> None:
    """The four points of Biopython's SVDSuperimposer test (seen); x ≈ y @ rot + tran."""
    x = np.array([(51.65, -1.90, 50.07), (50.40, -1.23, 50.65), (50.68, -0.04, 51.54), (50.22, -0.02, 52.85)])
    y = np.array([(51.30, -2.99, 46.54), (51.09, -1.88, 47.58), (52.36, -1.20, 48.03), (52.71, -1.18, 49.38)])
    rotation, translation = rigid_fit(y, x)
    printed = (
        (0.68304983, 0.53664371, 0.49543563),
        (-0.52277295, 0.83293229, -0.18147242),
        (-0.51005037, -0.13504564, 0.84947707),
    )
    np.testing.assert_allclose(rotation, printed, atol=5e-9)
    np.testing.assert_allclose(translation[0], (38.78608157, -20.65451334, -15.42227366), atol=5e-9)
    left = y @ rotation + translation - x
    assert math.sqrt(float((left**2).sum()) / len(x)) == pytest.approx(0.00304266526014, abs=5e-15)


def test_reflection_trap() -> None:
    """[Umeyama1991] (result from memory, recomputed): the best proper rotation of a mirrored triangle in its plane.

    Printed for points of a plane. Our fit works in space, where a flat part may be turned over; a point above the first
    corner, far enough out to count, holds the triangle's face up.
    """
    a = np.array([(0.0, 0.0), (1.0, 0.0), (0.0, 2.0)])
    b = np.array([(0.0, 0.0), (-1.0, 0.0), (0.0, 2.0)])
    held = np.array([(0.0, 0.0, 1e4), (0.0, 0.0, -1e4)])
    lifted_a = np.vstack((np.column_stack((a - a.mean(axis=0), np.zeros(3))), held))
    lifted_b = np.vstack((np.column_stack((b - b.mean(axis=0), np.zeros(3))), held))
    rotation, _ = rigid_fit(lifted_a, lifted_b)
    printed = np.array([(0.832050, 0.554700), (-0.554700, 0.832050)])  # acts on columns; ours on rows
    np.testing.assert_allclose(rotation[:2, :2].T, printed, atol=5e-7)
    assert np.linalg.det(rotation) == pytest.approx(1.0)


def test_a_mirrored_part_is_never_a_perfect_match() -> None:
    """Invented nominal and measured points, recomputed elsewhere: proper fit RMS 0.6947710, mirror image 0.5193086."""
    nominal = np.array([(-1.0, 0, 0), (0, 2, 0), (0, 1, 0), (0, 1, 1)])
    measured = np.array([(0.0, -1, -1), (0, -1, 0), (0, 0, 0), (-1, 0, 0)])

    def rms(points: np.ndarray) -> float:
        rotation, shift = rigid_fit(points, nominal)
        return math.sqrt(float(((points @ rotation + shift - nominal) ** 2).sum()) / len(points))

    assert rms(measured) == pytest.approx(0.6947710, abs=5e-8)
    assert rms(measured * (1, 1, -1)) == pytest.approx(0.5193086, abs=5e-8)
