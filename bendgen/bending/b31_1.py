"""Thickness before bending after ASME B31.1 [B311], table 102.4.5, and its bend factors; no other rule is mixed in."""

from itertools import pairwise

RADIUS_IN_DIAMETERS = (3.0, 4.0, 5.0, 6.0)
THICKNESS_FACTORS = (1.25, 1.14, 1.08, 1.06)  # of the minimum wall tm
NOISE = 1e-9  # a CLR of exactly 3 D must not fall off the table by the rounding of a quotient


def thickness_factor(clr: float, od: float) -> float | None:
    """Wall needed before bending over the minimum wall [-]; None for a bend tighter than 3 D, which the table omits."""
    ratio = clr / od
    if ratio < RADIUS_IN_DIAMETERS[0] - NOISE:
        return None
    rows = zip(RADIUS_IN_DIAMETERS, THICKNESS_FACTORS, strict=True)
    for (low, factor), (high, next_factor) in pairwise(rows):
        if ratio <= high:
            return factor + (next_factor - factor) * (ratio - low) / (high - low)
    return THICKNESS_FACTORS[-1]


def intrados_factor(clr: float, od: float) -> float:
    """Share of the straight pipe's wall that the inside of a bend needs [-]."""
    return (4.0 * clr / od - 1.0) / (4.0 * clr / od - 2.0)


def extrados_factor(clr: float, od: float) -> float:
    """Share of the straight pipe's wall that the outside of a bend needs [-]."""
    return (4.0 * clr / od + 1.0) / (4.0 * clr / od + 2.0)
