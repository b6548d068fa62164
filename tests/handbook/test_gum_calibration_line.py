"""JCGM 100:2008, Evaluation of measurement data - Guide to the expression of uncertainty in measurement (GUM), H.3.

Calibration of a thermometer: correction b = y1 + y2 (t - t0) by a line through eleven readings. Numbers as repeated
in the documentation of a public uncertainty library. Tolerance: half a unit of the last printed digit.
"""

import numpy as np
import pytest

from bendgen.geometry.least_squares import linear_fit, powers

T = np.array([21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511])
B = np.array([-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160])


def test_h_3_line_uncertainties_and_prediction() -> None:
    fit = linear_fit(powers(T - 20.0, 1), B)
    intercept, slope = fit.coefficients
    u_intercept, u_slope = np.sqrt(np.diag(fit.covariance))
    assert intercept == pytest.approx(-0.1712, abs=0.5e-4)
    assert u_intercept == pytest.approx(0.0029, abs=0.5e-4)
    assert slope == pytest.approx(0.00218, abs=0.5e-5)
    assert u_slope == pytest.approx(0.00067, abs=0.5e-5)
    assert fit.covariance[0, 1] / (u_intercept * u_slope) == pytest.approx(-0.930, abs=0.5e-3)
    assert fit.residual_sd == pytest.approx(0.0035, abs=0.5e-4)
    at_30 = np.array([1.0, 10.0])
    assert at_30 @ fit.coefficients == pytest.approx(-0.1494, abs=0.5e-4)
    assert np.sqrt(at_30 @ fit.covariance @ at_30) == pytest.approx(0.0041, abs=0.5e-4)
