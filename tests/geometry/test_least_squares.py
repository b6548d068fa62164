import math

import numpy as np
import pytest

from bendgen.geometry.least_squares import linear_fit, powers


def test_a_parabola_comes_back() -> None:
    x = np.array([15.0, 30.0, 60.0, 90.0, 120.0])
    fit = linear_fit(powers(x, 2), 0.5 + 0.03 * x - 4e-5 * x**2)
    assert fit.coefficients == pytest.approx([0.5, 0.03, -4e-5])
    assert fit.residuals == pytest.approx(np.zeros(5), abs=1e-12)
    assert fit.leverages.sum() == pytest.approx(3.0)


def test_as_many_values_as_coefficients_show_no_scatter() -> None:
    fit = linear_fit(powers(np.array([30.0, 90.0]), 1), np.array([1.0, 2.0]))
    assert (fit.degrees_of_freedom, math.isnan(fit.residual_sd)) == (0, True)
    assert np.isnan(fit.covariance).all()
    assert fit.leverages == pytest.approx([1.0, 1.0])


def test_leverage_is_what_a_value_does_to_its_own_fit() -> None:
    x, y = np.array([20.0, 45.0, 70.0, 130.0]), np.array([1.0, 1.4, 2.1, 2.9])
    fit = linear_fit(powers(x, 1), y)
    for index in range(4):
        moved = linear_fit(powers(x, 1), y + np.eye(4)[index])
        change = (y + np.eye(4)[index] - moved.residuals) - (y - fit.residuals)
        assert change[index] == pytest.approx(fit.leverages[index])
