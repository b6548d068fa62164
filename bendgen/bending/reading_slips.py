"""Readings far off that one slip of the pen explains.

A real miss may be of any size, so no reading is refused for it: a slip is only suspected, where the number put right
lies where the reading should be, and asked about. Until it is answered nothing is concluded from that reading.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise, starmap
from math import dist

from bendgen.records.comparison import Deviation, Slip, SlipKind
from bendgen.records.foretold import Foretold
from bendgen.records.measured import MeasuredPiece
from bendgen.units import MM_PER_INCH, RADIANS_PER_DEGREE

NEAR_TOLERANCES, NEAR_SHARE = 5.0, 0.02  # as near as this a reading is where it should be, in tolerance or not
CLEAR_TOLERANCES = 20.0  # what is wanted smaller than this looks like a tenth of many a miss
HALF_TURN_DEG = 180.0
POWERS_OF_TEN = (10.0, 0.1, 100.0, 0.01, 1000.0, 0.001)
NEAR_SHARE_OF_POINTS = 0.1  # the part may be bent badly, and points do not follow arcs
ALONG_POINTS = "length along the points"


def slips_of(deviations: Sequence[Deviation]) -> tuple[Slip, ...]:
    """The slip of each reading of one piece that has one, in their order."""
    return tuple(slip for deviation in deviations for slip in _slips(deviation)[:1])


def slip_of_points(foretold: Foretold, piece: MeasuredPiece) -> Slip | None:
    """Slip of all points of a piece at once, told by the length along them; None where they are as long as wanted."""
    points = piece.vertices or piece.axis
    if not points:
        return None
    measured = sum(starmap(dist, pairwise(points)))
    wanted = _length_along(foretold, by_vertices=bool(piece.vertices))
    for kind, meant in _lengths_put_right(measured):
        if abs(meant - wanted) <= NEAR_SHARE_OF_POINTS * wanted:
            return Slip(check=ALONG_POINTS, kind=kind, line=None, measured=measured, meant=meant, unit="mm")
    return None


def _length_along(foretold: Foretold, *, by_vertices: bool) -> float:
    """Length of the wanted path of vertices, or of the wanted axis [mm]."""
    if by_vertices and foretold.wanted.vertices is not None:
        return sum(starmap(dist, pairwise(foretold.wanted.vertices)))
    tube = foretold.wanted_tube
    return sum(tube.straights) + sum(bend.clr * bend.angle_deg * RADIANS_PER_DEGREE for bend in tube.bends)


def _slips(deviation: Deviation) -> list[Slip]:
    clear = abs(deviation.wanted) > CLEAR_TOLERANCES * deviation.tolerance
    if not clear or _near(deviation.measured, deviation):
        return []
    return [
        Slip(
            check=deviation.check,
            line=deviation.line,
            kind=kind,
            measured=deviation.measured,
            meant=meant,
            unit=deviation.unit,
        )
        for kind, meant in _put_right(deviation)
        if _near(meant, deviation)
    ]


def _put_right(deviation: Deviation) -> Iterator[tuple[SlipKind, float]]:
    if deviation.unit == "mm":
        yield from _lengths_put_right(deviation.measured)
        return
    if deviation.check.startswith("angle-"):
        yield "other side", HALF_TURN_DEG - deviation.measured
    yield from (("decimal point", deviation.measured * power) for power in POWERS_OF_TEN)


def _lengths_put_right(measured: float) -> Iterator[tuple[SlipKind, float]]:
    yield "unit", measured / MM_PER_INCH
    yield "unit", measured * MM_PER_INCH
    yield from (("decimal point", measured * power) for power in POWERS_OF_TEN)


def _near(value: float, deviation: Deviation) -> bool:
    """Whether a value could be a reading of that check on a part that came out more or less as wanted."""
    allowed = max(NEAR_TOLERANCES * deviation.tolerance, NEAR_SHARE * abs(deviation.wanted))
    return abs(value - deviation.wanted) <= allowed
