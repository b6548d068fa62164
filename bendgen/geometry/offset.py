"""Two equal and opposite bends between parallel axes: an offset.

Both bends have the angle A and the radius R; T = R tan(A / 2) is the tangent length and D the straight between the
bends. Seen along the end axes, the rise lies across them and the run along them, from the first bend's start to the
second one's end:

    rise = 2R (1 - cos A) + D sin A        run = 2R sin A + D cos A

With D taken from the rise, both become quotients of it, which stay accurate for small angles:

    D = rise / sin A - 2T                  run = rise / tan A + 2T

All functions take floats or (n,) arrays: angles in rad, 0 < A < π, lengths in mm.
"""

import math

import numpy as np

from bendgen.geometry.vectors import Array


def rise_of_bends(angles: Array, clr: Array, between: Array | float) -> Array:
    """Distance between the end axes."""
    half: Array = np.sin(0.5 * angles)
    return 4.0 * clr * half**2 + between * np.sin(angles)


def run_of_bends(angles: Array, clr: Array, between: Array | float) -> Array:
    """Length of both bends and the straight between, along the end axes."""
    return 2.0 * clr * np.sin(angles) + between * np.cos(angles)


def between_from_rise(rise: Array | float, angles: Array, clr: Array) -> Array:
    """Straight between the bends; negative where the bends alone rise more."""
    return rise / np.sin(angles) - 2.0 * clr * np.tan(0.5 * angles)


def run_from_rise(rise: Array | float, angles: Array, clr: Array) -> Array:
    """Run of the offset that has exactly that rise."""
    return rise / np.tan(angles) + 2.0 * clr * np.tan(0.5 * angles)


def rise_from_run(run: Array | float, angles: Array, clr: Array) -> Array:
    """Rise of the offset that has exactly that run."""
    return (run - 2.0 * clr * np.tan(0.5 * angles)) * np.tan(angles)


def rise_per_radian(angles: Array, clr: Array, between: Array | float) -> Array:
    """How fast the rise grows with the angle of both bends, R and D held: it is the run [mm per rad]."""
    return run_of_bends(angles, clr, between)


def clock_direction(clock: float) -> tuple[float, float]:
    """Unit vector (y, z) towards a clock position [rad], 0 being +z, clockwise for somebody who looks along -x."""
    return math.sin(clock), math.cos(clock)


def clock_from_direction(y: float, z: float) -> float:
    """Clock position [rad], (-π, π], of a direction across x that is not zero."""
    clock = math.atan2(y, z)
    return math.pi if clock == -math.pi else clock
