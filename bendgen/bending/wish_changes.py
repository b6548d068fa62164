"""Changes to the offset or the route that a part asks for; written, as all, for the part as filed."""

import math
import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import numpy as np

from bendgen.bending.changed_part import ChangedPart, in_words, rounded_down, rounded_up
from bendgen.bending.hands import as_bent, part_as_filed
from bendgen.geometry.vectors import Array, lengths
from bendgen.records.findings import Change, Value
from bendgen.records.offset import EndOffCentre, OffsetWish
from bendgen.records.part import Part
from bendgen.records.route import RouteWish
from bendgen.units import RADIANS_PER_DEGREE, Units, units_from_mm


def other_offset(part: Part, key: str, value: float, text: str) -> ChangedPart:
    """Give one number of `[offset]` another value [mm, deg]; it must be one that is the same from either end."""
    assert part.offset is not None  # only an offset is changed here
    field = "angle_deg" if key == "angle" else key
    number: dict[str, Any] = {field: value}
    changed = replace(part, offset=replace(part.offset, **number))
    filed_value = value if key == "angle" else units_from_mm(value, part.units)
    return ChangedPart(part=changed, change=Change(key=f"offset.{key}", value=filed_value), text=text)


def other_route(part: Part, wish: RouteWish, key: str, text: str) -> ChangedPart:
    """Ask for another route, which differs in one key of `[route]`.

    key, text : as the part is bent; where that is from its other end, both name the other end of its file
    """
    changed = replace(part, route=wish)
    filed = part_as_filed(changed).route
    assert filed is not None  # the same part, the other way round
    key, text = (_of_other_end(key), _of_other_end(text)) if part.from_rear else (key, text)
    change = Change(key=f"route.{key}", value=_route_value(filed, key, part.units))
    return ChangedPart(part=changed, change=change, text=text)


def _of_other_end(words: str) -> str:
    return re.sub("front|rear", lambda end: "rear" if end[0] == "front" else "front", words)


def longer_route(part: Part, wish: RouteWish, shift: Array, text: str) -> ChangedPart:
    """Move the rear port, as the part is bent, by a shift of (3,) [mm], which changes one straight of its route."""
    x, y, z = (np.array(wish.rear.at) + shift).tolist()
    way = in_words(rounded_up(float(lengths(shift[None])[0]), part.units), part.units)
    moved = replace(wish, rear=replace(wish.rear, at=(x, y, z)))
    return other_route(part, moved, "rear.at", f"move the rear port by {way}{text}")


def _route_value(wish: RouteWish, key: str, units: Units) -> Value:
    """Value of a key of `[route]` in its file."""
    if key == "keep_out":
        corners = ((*box.corner, *box.opposite) for box in wish.keep_out)
        return tuple(tuple(units_from_mm(x, units) for x in row) for row in corners)
    if key in ("front.at", "rear.at"):
        place = wish.front.at if key == "front.at" else wish.rear.at
        return tuple(units_from_mm(x, units) for x in place)
    value: float = getattr(wish, key)
    return value if key == "bends" else units_from_mm(value, units)


def other_rise(part: Part, rise: float) -> Iterator[ChangedPart]:
    """Ask for another rise [mm]; where the ends are placed off a common axis, move the file's rear end in or out.

    The rise is one end of a range, so of a length rounded up and the same rounded down one lies inside.
    """
    wish = part_as_filed(part).offset
    assert wish is not None  # only an offset is changed here
    if wish.front is None or wish.rear is None:
        for length in _rounded_both_ways(rise, part.units):
            yield other_offset(part, "rise", length, f"rise of {in_words(length, part.units)}")
        return
    rear = wish.rear
    turn = (rear.clock_deg - wish.front.clock_deg) * RADIANS_PER_DEGREE
    across, beside = wish.front.out * math.sin(turn), wish.front.out * math.cos(turn)
    if abs(across) > rise:
        return
    aside = math.sqrt(rise**2 - across**2)
    for out in sorted((beside + aside, beside - aside), key=lambda out: abs(out - rear.out)):
        for length in _rounded_both_ways(out, part.units):
            if length >= 0.0:
                yield _other_rear(part, wish, replace(rear, out=length))


def _rounded_both_ways(length: float, units: Units) -> tuple[float, float]:
    return rounded_up(length, units), rounded_down(length, units)


def _other_rear(part: Part, wish: OffsetWish, rear: EndOffCentre) -> ChangedPart:
    """Part as planned, with another rear end in its file; wish: as filed."""
    out = rear.out
    filed = replace(part_as_filed(part), offset=replace(wish, rear=rear))
    return ChangedPart(
        part=as_bent(filed, mirrored=part.mirrored, from_rear=part.from_rear),
        change=Change(key="offset.rear.out", value=units_from_mm(out, part.units)),
        text=f"rear end {in_words(out, part.units)} off the common axis",
    )


def longer_offset(part: Part, wish: OffsetWish, number: int, grown: float) -> ChangedPart:
    """Change the length of a part with an offset: its ends share what is gained, so one end gains half."""
    ends = (1, 3)
    length = wish.length + (2.0 * grown if number in ends else grown)
    return other_offset(part, "length", length, f"make the part {in_words(length, part.units)} long")
