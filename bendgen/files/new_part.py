"""A new part from what somebody typed."""

from collections.abc import Mapping

from bendgen.errors import InputError, Mistake
from bendgen.files.new_file import number_or_text
from bendgen.files.part_file import parse_part
from bendgen.records.part import Part
from bendgen.units import Units

Typed = str | float | bool | list[str | float]
PLACEHOLDERS = {"name": "Not named yet", "number": "NOT-NUMBERED", "revision": "0"}
TEXT_KEYS = frozenset(
    {"part.name", "part.number", "part.revision", "part.die", "tube.material", "tube.temper", "tube.lot"}
)


def part_data(typed: Mapping[str, Typed | None], units: Units) -> dict[str, object]:
    """Content of a part's file.

    Parameters
    ----------
    typed : by place in the file, "tube.od", "offset.front.out"; None where nothing was typed
    units : of lengths that name none
    """
    data: dict[str, object] = {"units": units, "part": {**PLACEHOLDERS, "quantity": 1}}
    for place, value in typed.items():
        if value is None:
            continue
        table = data
        *tables, key = place.split(".")
        for name in tables:
            inner = table.setdefault(name, {})
            assert isinstance(inner, dict)  # no place is both a value and a table
            table = inner
        table[key] = number_or_text(value) if isinstance(value, str) and place not in TEXT_KEYS else value
    return data


def parse_typed_part(data: Mapping[str, object], options: Mapping[str, str]) -> Part:
    """Part in the data; mistakes name the option of their place instead of a file: "--od: expected …"."""
    try:
        return parse_part(data, "options")
    except InputError as error:
        raise InputError([_of_option(mistake, options) for mistake in error.mistakes]) from None


def _of_option(mistake: Mistake, options: Mapping[str, str]) -> Mistake:
    option = options.get(mistake.place.partition("[")[0])  # a list is one option
    if option is None:
        return mistake
    return Mistake(file=option, place="", expected=mistake.expected, found=mistake.found)
