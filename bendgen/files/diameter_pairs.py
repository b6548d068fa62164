"""Diameters across a bend that were entered the wrong way round."""

from collections.abc import Iterator, Mapping

from bendgen.errors import Mistake
from bendgen.records.measured import DIAMETER, Reading, diameter_names
from bendgen.units import format_length


def exchanged_diameters(readings: Mapping[str, Reading], file: str) -> Iterator[Mistake]:
    """Bends of one piece whose smallest diameter is above its largest: no bend is less than round."""
    for name, smallest in readings.items():
        named = DIAMETER.fullmatch(name)
        if named is None or named[1] != "smallest":
            continue
        largest = readings.get(diameter_names(int(named[2]))[0])
        if largest is not None and largest.value < smallest.value:
            yield Mistake(
                file=file,
                place=f"line {smallest.line}, column value",
                expected=f"at most the largest diameter of bend {named[2]}, {_text(largest)} in line {largest.line}",
                found=_text(smallest),
            )


def _text(reading: Reading) -> str:
    return format_length(reading.value, "mm")
