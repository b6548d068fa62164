"""Bending moment of a round tube whose material hardens by a power law."""

import math


def power_law_moment(strength: float, exponent: float, outer_radius: float, inner_radius: float, clr: float) -> float:
    """Moment that bends a tube to the radius `clr`: exact annulus, plane sections, no axial force.

    Parameters
    ----------
    strength, exponent : K and n of stress = K · strain ** n [MPa], [-]
    outer_radius, inner_radius : of the tube [mm]
    clr : centreline radius under load [mm]

    Returns
    -------
    float
        [N mm]

    References
    ----------
    Integral of y · K (y / clr) ** n over the annulus; B is Euler's beta function.
    """
    beta = math.exp(math.lgamma(exponent / 2.0 + 1.0) + math.lgamma(1.5) - math.lgamma(exponent / 2.0 + 2.5))
    power = exponent + 3.0
    return (
        2.0
        * strength
        / math.pow(clr, exponent)
        * beta
        * (math.pow(outer_radius, power) - math.pow(inner_radius, power))
    )


def second_moment(outer_radius: float, inner_radius: float) -> float:
    """Second moment of area of an annulus about a diameter [mm⁴]."""
    return math.pi / 4.0 * (outer_radius**4 - inner_radius**4)
