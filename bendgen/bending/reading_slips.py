"""Readings far off that one slip of the pen explains.

A real miss may be of any size, so no reading is refused for it: a slip is only suspected, where the number put right
lies where the reading should be, and asked about. Until it is answered nothing is concluded from that reading.
"""

from collections.abc import Iterator, Sequence

from bendgen.records.comparison import Deviation, Slip, SlipKind
from bendgen.units import MM_PER_INCH

NEAR_TOLERANCES, NEAR_SHARE = 5.0, 0.02  # as near as this a reading is where it should be, in tolerance or not
CLEAR_TOLERANCES = 20.0  # what is wanted smaller than this looks like a tenth of many a miss
HALF_TURN_DEG = 180.0
POWERS_OF_TEN = (10.0, 0.1, 100.0, 0.01)


def slips_of(deviations: Sequence[Deviation]) -> tuple[Slip, ...]:
    """The slip of each reading of one piece that has one, in their order."""
    return tuple(slip for deviation in deviations for slip in _slips(deviation)[:1])


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
    measured = deviation.measured
    if deviation.unit == "mm":
        yield "unit", measured / MM_PER_INCH
        yield "unit", measured * MM_PER_INCH
    elif deviation.check.startswith("angle-"):
        yield "other side", HALF_TURN_DEG - measured
    yield from (("decimal point", measured * power) for power in POWERS_OF_TEN)


def _near(value: float, deviation: Deviation) -> bool:
    """Whether a value could be a reading of that check on a part that came out more or less as wanted."""
    allowed = max(NEAR_TOLERANCES * deviation.tolerance, NEAR_SHARE * abs(deviation.wanted))
    return abs(value - deviation.wanted) <= allowed
