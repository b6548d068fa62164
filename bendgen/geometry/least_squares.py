"""Linear least squares with the statistics of its answer."""

from dataclasses import dataclass

import numpy as np

from bendgen.geometry.vectors import Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LinearFit:
    """Coefficients of p columns fitted to n values.

    coefficients : (p,) array
    covariance : (p, p) array; NaN where no degree of freedom is left to see the scatter
    residuals : (n,) array, value less fitted
    leverages : (n,) array, how much of each value its own fitted value takes over, 0 to 1
    residual_sd : standard deviation of one value about the fit, NaN without degrees of freedom
    degrees_of_freedom : n - p
    """

    coefficients: Array
    covariance: Array
    residuals: Array
    leverages: Array
    residual_sd: float
    degrees_of_freedom: int


def linear_fit(columns: Array, values: Array) -> LinearFit:
    """Fit `values` by a sum of columns.

    Parameters
    ----------
    columns : (n, p) array of rank p, n >= p
    values : (n,) array

    Notes
    -----
    By an orthogonal factorisation: the normal equations would lose half of the digits.
    """
    orthogonal, triangle = np.linalg.qr(columns)
    coefficients = np.linalg.solve(triangle, orthogonal.T @ values)
    residuals = values - columns @ coefficients
    freedom = len(values) - columns.shape[1]
    sd = float(np.sqrt(residuals @ residuals / freedom)) if freedom else float("nan")
    inverse = np.linalg.inv(triangle)
    return LinearFit(
        coefficients=coefficients,
        covariance=sd**2 * (inverse @ inverse.T),
        residuals=residuals,
        leverages=np.sum(orthogonal**2, axis=1),
        residual_sd=sd,
        degrees_of_freedom=freedom,
    )


def powers(x: Array, degree: int) -> Array:
    """Columns 1, x, …, x ** degree of a polynomial, an (n, degree + 1) array."""
    return np.vander(x, degree + 1, increasing=True)
