"""Diameters across a bend that no tube can have, so that somebody must have read or typed them wrong.

A bend makes a tube oval, it hardly changes how far it is around. A closed curve of given length is on average as wide
as a circle of that length (Cauchy), so the largest diameter stays near the OD at least and the smallest at most.
Squashed flat, the tube is half its circumference wide and two walls high. In between a bend may be as bad as it likes.
"""

import math
from collections.abc import Iterator, Mapping

from bendgen.errors import Mistake
from bendgen.records.foretold import Foretold
from bendgen.records.measured import DIAMETER, Reading, diameter_names
from bendgen.units import format_length

# Common practice, no source: what drawing and upsetting do to circumference and wall is far less.
SPARE_SHARE = 0.2


def check_diameters(readings: Mapping[str, Reading], file: str, foretold: Foretold) -> Iterator[Mistake]:
    """Diameters of one piece that a tube of that OD cannot have, alone or two of one bend together."""
    for name, reading in readings.items():
        named = DIAMETER.fullmatch(name)
        if named is None:
            continue
        expected = _impossible_alone(reading, named[1], foretold) or _impossible_as_smallest(
            reading, readings.get(diameter_names(int(named[2]))[0]), foretold
        )
        if expected:
            found = format_length(reading.value, foretold.units)
            yield Mistake(file=file, place=f"line {reading.line}, column value", expected=expected, found=found)


def _impossible_alone(reading: Reading, which: str, foretold: Foretold) -> str:
    """What a largest or a smallest diameter must be; empty text where it is."""
    od, flat = foretold.tube.od, 2.0 * foretold.tube.wall
    low, high = (od, math.pi / 2.0 * od) if which == "largest" else (flat, od)
    low, high = (1.0 - SPARE_SHARE) * low, (1.0 + SPARE_SHARE) * high
    if low <= reading.value <= high:
        return ""
    limits = f"{format_length(low, foretold.units)} to {format_length(high, foretold.units)}"
    return f"a {which} diameter that an OD of {format_length(od, foretold.units)} can have, {limits}"


def _impossible_as_smallest(smallest: Reading, largest: Reading | None, foretold: Foretold) -> str:
    """What the smallest diameter must be beside the largest of the same bend; empty text where it is."""
    if largest is None or largest is smallest or _impossible_alone(largest, "largest", foretold):
        return ""
    beside = f"the largest diameter of its bend, {format_length(largest.value, foretold.units)} in line {largest.line}"
    if smallest.value > largest.value:
        return f"at most {beside}"
    # A shape within a box is no farther around than the box.
    least = (1.0 - SPARE_SHARE) * math.pi * foretold.tube.od / 2.0 - largest.value
    if smallest.value < least:
        return f"at least {format_length(least, foretold.units)}, or the tube is not far enough around, beside {beside}"
    return ""
