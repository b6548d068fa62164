"""Readings from the end of a tube to its nearest bend; single values or arrays, angles in radians."""

from typing import TypeVar

import numpy as np

from bendgen.geometry.vectors import Array

Values = TypeVar("Values", float, Array)


def apex_leg(straight: Values, clr: Values, angle: Values) -> Values:
    """End to vertex: the straight and the tangent length [mm]."""
    leg: Values = straight + clr * np.tan(0.5 * angle)
    return leg


def outer_apex_leg(straight: Values, clr: Values, angle: Values, od: float) -> Values:
    """End to where straightedges on the outside of both legs cross [mm]."""
    return apex_leg(straight, clr + 0.5 * od, angle)


def crown_leg(straight: Values, clr: Values, od: float) -> Values:
    """End to the crown of the bend, tape over the outside; close to a right angle only [mm]."""
    return straight + clr + 0.5 * od
