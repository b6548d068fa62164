"""NIST Statistical Reference Datasets, linear regression: Norris and NoInt1.

www.itl.nist.gov/div898/strd/lls, data and certified values as repeated in the test suites of the GNU Scientific
Library and Apache Commons Math. Tolerance: nine digits, of the fifteen that are certified.
"""

import numpy as np
import pytest

from bendgen.geometry.least_squares import linear_fit, powers

NINE_DIGITS = 1e-9

NORRIS_X = """0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6 775.5 666.9 338.0 447.5 11.6 556.0
228.1 995.8 887.6 120.2 0.3 0.3 556.8 339.1 887.2 999.0 779.0 11.1 118.3 229.2 669.1 448.9 0.5"""
NORRIS_Y = """0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1 778.1 668.8 339.3 448.9 10.8 557.7
228.3 998.0 888.8 119.6 0.3 0.6 557.6 339.3 888.0 998.5 778.9 10.2 117.6 228.9 668.4 449.2 0.2"""


def test_norris_a_line() -> None:
    x, y = np.array(NORRIS_X.split(), dtype=float), np.array(NORRIS_Y.split(), dtype=float)
    fit = linear_fit(powers(x, 1), y)
    assert fit.degrees_of_freedom == 34
    assert fit.coefficients == pytest.approx([-0.262323073774029, 1.00211681802045], rel=NINE_DIGITS)
    assert np.sqrt(np.diag(fit.covariance)) == pytest.approx([0.232818234301152, 0.429796848199937e-3], rel=NINE_DIGITS)
    assert fit.residual_sd == pytest.approx(0.884796396144373, rel=NINE_DIGITS)


def test_noint1_a_line_through_the_origin() -> None:
    x, y = np.arange(60.0, 71.0), np.arange(130.0, 141.0)
    fit = linear_fit(x[:, None], y)
    assert fit.degrees_of_freedom == 10
    assert fit.coefficients == pytest.approx([2.07438016528926], rel=NINE_DIGITS)
    assert np.sqrt(fit.covariance[0, 0]) == pytest.approx(0.0165289256198347, rel=NINE_DIGITS)
    assert fit.residual_sd == pytest.approx(3.56753034006338, rel=NINE_DIGITS)
