"""Monotone cubic between rows, straight line beyond them.

The cubic is the monotone piecewise Hermite form of [FritschButland1984] with the three-point ends of [Moler2004];
several columns over the same rows are interpolated at once. Beyond the rows it would bend away, so there the curve
goes on along the line through the two nearest rows.
"""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def monotone_slopes(x: Array, y: Array) -> Array:
    """Slopes at the rows of the monotone cubic through them.

    Parameters
    ----------
    x : (m,) array, rising strictly, m >= 2
    y : (m, k) array, k columns

    Returns
    -------
    (m, k) array
        With two rows, the slope of the line through them.

    References
    ----------
    [FritschButland1984], [Moler2004] section 3.4
    """
    step = np.diff(x)[:, None]
    secant = np.diff(y, axis=0) / step
    if len(x) == 2:
        return np.repeat(secant, 2, axis=0)
    slopes = np.zeros_like(y)
    left, right = secant[:-1], secant[1:]
    weight_left = 2.0 * step[1:] + step[:-1]
    weight_right = step[1:] + 2.0 * step[:-1]
    same_sign = left * right > 0.0
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        harmonic = (weight_left + weight_right) / (weight_left / left + weight_right / right)
    slopes[1:-1] = np.where(same_sign, harmonic, 0.0)
    slopes[0] = _end_slope(step[0], step[1], secant[0], secant[1])
    slopes[-1] = _end_slope(step[-1], step[-2], secant[-1], secant[-2])
    return slopes


def _end_slope(step: Array, next_step: Array, secant: Array, next_secant: Array) -> Array:
    """Three-point slope at an end, limited so that the curve keeps the shape of the rows; all of shape (k,)."""
    slope = ((2.0 * step + next_step) * secant - step * next_secant) / (step + next_step)
    limited = np.where((secant * next_secant <= 0.0) & (np.abs(slope) > 3.0 * np.abs(secant)), 3.0 * secant, slope)
    return np.where(slope * secant <= 0.0, 0.0, limited)


def evaluate(x: Array, y: Array, slopes: Array, at: Array) -> tuple[Array, Array]:
    """Values and first derivatives at the places `at`.

    Parameters
    ----------
    x : (m,) array, rising strictly
    y, slopes : (m, k) arrays, slopes as from `monotone_slopes`
    at : (n,) array, anywhere

    Returns
    -------
    (n, k) array, (n, k) array
    """
    # The row before each place, first and last row apart: a search among the inner rows needs no clipping.
    row = x[1:-1].searchsorted(at, side="right")
    place, low, high = x[row], y[row], y[row + 1]
    width = (x[row + 1] - place)[:, None]
    t = (at - place)[:, None] / width
    rise = high - low
    start, end = slopes[row] * width, slopes[row + 1] * width
    square = start + end - 2.0 * rise
    linear = 3.0 * rise - 2.0 * start - end
    value = low + t * (start + t * (linear + t * square))
    derivative = (start + t * (2.0 * linear + 3.0 * t * square)) / width
    beyond = (t < 0.0) | (t > 1.0)
    if beyond.any():
        value = np.where(beyond, low + t * rise, value)
        derivative = np.where(beyond, rise / width, derivative)
    return value, derivative


def line_weights(x: Array, at: Array) -> Array:
    """Share of each row in the straight lines between rows, which go on beyond the first and the last.

    Parameters
    ----------
    x : (m,) array, rising strictly, m >= 2
    at : (n,) array, anywhere

    Returns
    -------
    (n, m) array
        Each row adds up to 1; times the values of the rows it is the polygon through them.
    """
    row = x[1:-1].searchsorted(at, side="right")
    t = (at - x[row]) / (x[row + 1] - x[row])
    weights = np.zeros((len(at), len(x)))
    places = np.arange(len(at))
    weights[places, row] = 1.0 - t
    weights[places, row + 1] = t
    return weights


def smallest_slopes(x: Array, y: Array, slopes: Array) -> Array:
    """Smallest first derivative of the cubic within each interval between rows.

    Parameters
    ----------
    x : (m,) array
    y, slopes : (m, k) arrays

    Returns
    -------
    (m - 1, k) array
    """
    width = np.diff(x)[:, None]
    secant = np.diff(y, axis=0) / width
    start, end = slopes[:-1], slopes[1:]
    # The derivative is start + 2 b t + 3 c t² over the interval; its vertex counts where it is a minimum inside.
    b = 3.0 * secant - 2.0 * start - end
    c = start + end - 2.0 * secant
    with np.errstate(divide="ignore", invalid="ignore"):
        t = -b / (3.0 * c)
    inside = (c > 0.0) & (t > 0.0) & (t < 1.0)
    turning = np.where(inside, start + b * t, np.inf)
    return np.minimum(np.minimum(start, end), turning)
