"""How far apart things in a file may lie and still be one: from its uncertainty and the digits it was written with."""

import re
from dataclasses import dataclass
from itertools import islice

from bendgen.files.solids.exchange import Exchange
from bendgen.files.solids.length_units import LengthUnit

COARSEST_DIGITS = 3  # files with fewer decimals have whole numbers, not rounded ones
MOST_DIGITS = 12
INSTANCES_LOOKED_AT = 500
EXACT_DIRECTION = 1e-7  # rad; 0.1 µm on a metre
JOIN_AT_TILT = 100.0  # mm; ends are refined, but what lies beside them is not
LARGEST_UNCERTAINTY = 0.01  # mm; a file that claims less says nothing about its tube
SMALLEST_JOIN = 1e-3  # mm; no tube has two places nearer to each other that are not meant to be one
MISFITS = 4.0  # chosen, not derived: a fitted face is known at some points, and may be off by more elsewhere
SLACK = 0.05  # mm; curves where holes meet the tube are approximations

_DECIMAL = re.compile(r"[0-9]\.([0-9]*)(E[-+]?[0-9]+)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tolerances:
    """Lengths in mm, angles in radians.

    join : two ends, axes or radii nearer than this are the same
    direction : two directions nearer than this are the same
    tilt : by how much a direction in the file may be off, being written with few decimals; 0 where it is exact
    slack : how far points of other faces may lie outside the wall
    """

    join: float
    direction: float = 3e-3
    tilt: float = 0.0
    slack: float = SLACK

    def join_fitted(self, *misfits: float) -> float:
        """How far apart faces that were fitted with those misfits [mm] may lie and still be one or meet [mm]."""
        return self.join + MISFITS * sum(misfits)


def tolerances(exchange: Exchange, unit: LengthUnit, scale: float = 1.0) -> Tolerances:
    """Tolerances that suit a file, and a solid of it that is placed so many times its size."""
    coarsest = max(min(unit.uncertainty, LARGEST_UNCERTAINTY), _half_digit(exchange, "CARTESIAN_POINT") * unit.mm)
    coarsest *= scale
    tilt = 2.0 * _half_digit(exchange, "DIRECTION")
    tilt = tilt if tilt > EXACT_DIRECTION else 0.0
    return Tolerances(
        join=max(SMALLEST_JOIN, 20.0 * coarsest, JOIN_AT_TILT * tilt), tilt=tilt, slack=max(SLACK, 40.0 * coarsest)
    )


def _half_digit(exchange: Exchange, kind: str) -> float:
    """Half of the last digit in which coordinates of a kind are written; 0 where all are whole numbers.

    The most decimals count, at least three; an exponent stands for many.
    """
    most = 0
    for number in islice(exchange.source.numbers_of(kind), INSTANCES_LOOKED_AT):
        for decimals, exponent in _DECIMAL.findall(exchange.source.body(number) or ""):
            most = max(most, MOST_DIGITS if exponent else len(decimals.rstrip("0")))
    return 0.5 * 10.0 ** -min(max(most, COARSEST_DIGITS), MOST_DIGITS) if most else 0.0
