"""Points of B-spline curves and surfaces, rational or not."""

import numpy as np

from bendgen.geometry.vectors import Array


def basis_functions(knots: Array, degree: int, parameters: Array) -> Array:
    """Value of every basis function at every parameter.

    Parameters
    ----------
    knots : (n + degree + 1,) array, ascending, repeated as often as they count
    parameters : (m,) array within knots[degree] to knots[n]

    Returns
    -------
    (m, n) array
        Rows sum to 1.

    References
    ----------
    [PieglTiller1997], section 2.2
    """
    last = len(knots) - degree - 2
    span = np.clip(np.searchsorted(knots, parameters, side="right") - 1, degree, last)
    values = np.zeros((len(parameters), len(knots) - 1))
    values[np.arange(len(parameters)), span] = 1.0
    for order in range(1, degree + 1):
        rise = knots[order:] - knots[:-order]
        scale = np.divide(1.0, rise, out=np.zeros_like(rise), where=rise > 0.0)
        up = (parameters[:, None] - knots[: -order - 1]) * scale[:-1]
        down = (knots[order + 1 :] - parameters[:, None]) * scale[1:]
        values = up * values[:, :-1] + down * values[:, 1:]
    return values


def parameter_range(knots: Array, degree: int) -> tuple[float, float]:
    """First and last parameter at which the basis functions sum to 1."""
    return float(knots[degree]), float(knots[len(knots) - degree - 1])


def curve_points(control: Array, weights: Array, basis: Array) -> Array:
    """Points of a curve, (m, 3), from (n, 3) control points, (n,) weights and the (m, n) basis at its parameters."""
    weighted: Array = basis * weights
    points: Array = weighted @ control / weighted.sum(axis=1, keepdims=True)
    return points


def surface_points(control: Array, weights: Array, basis_u: Array, basis_v: Array) -> Array:
    """Points of a surface, (m, k, 3), from (a, b, 3) control points, (a, b) weights, (m, a) and (k, b) bases."""
    numerator = np.einsum("ma,abc,kb->mkc", basis_u, control * weights[:, :, None], basis_v, optimize=True)
    denominator: Array = basis_u @ weights @ basis_v.T
    result: Array = numerator / denominator[:, :, None]
    return result
