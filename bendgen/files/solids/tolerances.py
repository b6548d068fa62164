"""How far apart things in a file may lie and still be one: from its uncertainty and the digits it was written with."""

import re
from dataclasses import dataclass

from bendgen.files.solids.exchange import Exchange
from bendgen.files.solids.length_units import LengthUnit

COARSEST_DIGITS = 3  # files with fewer decimals have whole numbers, not rounded ones
POINTS_LOOKED_AT = 500
LARGEST_UNCERTAINTY = 0.01  # mm; a file that claims less says nothing about its tube
SMALLEST_JOIN = 1e-3  # mm; no tube has two places nearer to each other that are not meant to be one
SLACK = 0.05  # mm; curves where holes meet the tube are approximations

_DECIMALS = re.compile(r"[0-9]\.([0-9]*)(E[-+]?[0-9]+)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tolerances:
    """Lengths [mm].

    join : two ends, axes or radii nearer than this are the same
    direction : [rad], two directions nearer than this are the same
    slack : how far points of other faces may lie outside the wall
    """

    join: float
    direction: float = 3e-3
    slack: float = SLACK


def tolerances(exchange: Exchange, unit: LengthUnit) -> Tolerances:
    """Tolerances that suit a file."""
    written = 0.5 * 10.0 ** -_decimals(exchange) * unit.mm
    coarsest = max(min(unit.uncertainty, LARGEST_UNCERTAINTY), written)
    return Tolerances(join=max(SMALLEST_JOIN, 20.0 * coarsest), slack=max(SLACK, 40.0 * coarsest))


def _decimals(exchange: Exchange) -> int:
    """Most decimals that a coordinate is written with, at least three; an exponent stands for many."""
    most = COARSEST_DIGITS
    for number in exchange.numbers_of("CARTESIAN_POINT")[:POINTS_LOOKED_AT]:
        for decimals, exponent in _DECIMALS.findall(exchange.source.body(number) or ""):
            most = max(most, len(decimals) if not exponent else most)
    return min(most, 12)
