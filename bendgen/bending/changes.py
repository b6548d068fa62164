"""Changes to a part that a cure may ask for: each as the changed part and as the key and value in its file.

A part may be planned as its other hand or from its other end; a change is always written for the part as filed.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from bendgen.bending.hands import mirror_part, part_as_filed, reverse_part
from bendgen.bending.layout import Layout
from bendgen.geometry.vectors import lengths
from bendgen.records.findings import Change, Value
from bendgen.records.offset import EndOffCentre, OffsetWish
from bendgen.records.part import Centreline, Part, TrimEnds, Vertex, WantedSteps
from bendgen.units import RADIANS_PER_DEGREE, Units, format_number, mm_from_units, units_from_mm

GRAIN_DECIMALS = 3
GRAIN = 10.0**GRAIN_DECIMALS  # changed lengths and angles are whole thousandths of the file's unit
NOISE = 1e-5  # in thousandths: rounding noise that must not cost a whole one


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedPart:
    """A part with one change: as it will be planned, and what to write into its file; text: in a person's words."""

    part: Part
    change: Change
    text: str


def rounded_up(length: float, units: Units) -> float:
    """Length [mm], up to the next thousandth of the file's unit, so that a cure reaches its limit."""
    return mm_from_units(math.ceil(units_from_mm(length, units) * GRAIN - NOISE) / GRAIN, units)


def rounded_down(length: float, units: Units) -> float:
    """Length [mm], down to the next thousandth of the file's unit."""
    return mm_from_units(math.floor(units_from_mm(length, units) * GRAIN + NOISE) / GRAIN, units)


def in_words(length: float, units: Units) -> str:
    """Changed length [mm] to its last thousandth: a person who types it in gets what the change gives."""
    return f"{format_number(units_from_mm(length, units), GRAIN_DECIMALS).rstrip('0').rstrip('.')} {units}"


def from_other_end(part: Part) -> ChangedPart:
    """Bend the part from its other end."""
    reversed_part = reverse_part(part)
    change = Change(key="--from-rear", value=reversed_part.from_rear)
    return ChangedPart(part=reversed_part, change=change, text="bend it from the other end")


def other_die(part: Part, die_id: str) -> ChangedPart:
    """Name another die set for the whole part."""
    change = Change(key="part.die", value=die_id)
    return ChangedPart(part=replace(part, die=die_id), change=change, text=f"use die set '{die_id}'")


def other_clr(part: Part, layout: Layout, step: int, clr: float) -> ChangedPart:
    """Ask for another CLR at one bend."""
    text = f"bend {step} at CLR {in_words(clr, part.units)}"
    if part.steps is not None:
        return _changed_step(part, step, text, "clr", clr)
    assert part.centreline is not None  # a part has one wish
    index = layout.kept[step]
    vertices = list(part.centreline.vertices)
    vertices[index] = replace(vertices[index], clr=clr)
    return _changed_vertices(part, vertices, text)


def other_angle(part: Part, step: int, angle_deg: float) -> ChangedPart:
    """Ask for another finished angle at one bend of a part given as steps."""
    return _changed_step(part, step, f"bend {step} to a finished angle of {angle_deg:g}°", "angle_deg", angle_deg)


def can_be_written(part: Part) -> bool:
    """Whether no straight given in numbers has been shortened past nothing, which no file may say."""
    steps = part.steps
    return steps is None or min((*(bend.straight for bend in steps.bends), steps.rear)) >= 0.0


def longer_straight(part: Part, layout: Layout, number: int, extra: float) -> ChangedPart:
    """Make straight `number`, counted as bent, longer by `extra` [mm]; shorter where it is negative."""
    # Away from zero: a cure that shortens must take out as much as is too long, as one that lengthens must add enough.
    grown = rounded_up(extra, part.units) if extra > 0.0 else rounded_down(extra, part.units)
    word = "longer" if grown > 0.0 else "shorter"
    text = f"make straight {number} {in_words(abs(grown), part.units)} {word}"
    if part.steps is not None:
        return _longer_step(part, part.steps, number, grown, text)
    if part.offset is not None:
        return _longer_offset(part, part.offset, number, grown)
    assert part.centreline is not None and layout.vertices is not None  # noqa: PT018 - a part has one wish
    steps = layout.vertices[number] - layout.vertices[number - 1]
    x, y, z = (steps / lengths(steps[None, :])[0] * grown).tolist()
    first_moved = layout.kept[number]
    vertices = [
        replace(v, x=v.x + x, y=v.y + y, z=v.z + z) if index >= first_moved else v
        for index, v in enumerate(part.centreline.vertices)
    ]
    return _changed_vertices(part, vertices, text)


def longer_trim(part: Part, end: str, trim: float) -> ChangedPart:
    """Fix the trim at the front or rear end as bent [mm]."""
    length = rounded_up(trim, part.units)
    changed = replace(part, front_trim=length) if end == "front" else replace(part, rear_trim=length)
    filed = part_as_filed(changed)
    key = f"{end}_trim" if not part.from_rear else {"front": "rear_trim", "rear": "front_trim"}[end]
    value = units_from_mm(length, filed.units)
    text = f"{key.replace('_', ' ')} of {in_words(length, filed.units)}"
    return ChangedPart(part=changed, change=Change(key=f"part.{key}", value=value), text=text)


def trim_allowed(part: Part, trim: TrimEnds) -> ChangedPart:
    """Allow trim at those ends as bent."""
    changed = replace(part, trim=trim)
    allowed = part_as_filed(changed).trim
    ends = "both ends" if allowed == "both" else f"the {allowed} end"
    return ChangedPart(part=changed, change=Change(key="part.trim", value=allowed), text=f"allow trim at {ends}")


def other_blank(part: Part, length: float) -> ChangedPart:
    """Fix another blank length [mm]."""
    changed = replace(part, blank=length)
    value = units_from_mm(length, part.units)
    text = f"blank of {in_words(length, part.units)}"
    return ChangedPart(part=changed, change=Change(key="part.blank", value=value), text=text)


def other_wall(part: Part, wall: float) -> ChangedPart:
    """Ask for another wall [mm]."""
    value = units_from_mm(wall, part.units)
    changed = replace(part, tube=replace(part.tube, wall=wall))
    text = f"tube of wall {in_words(wall, part.units)}"
    return ChangedPart(part=changed, change=Change(key="tube.wall", value=value), text=text)


def merged_vertices(part: Part, below_deg: float) -> ChangedPart:
    """Leave out vertices that turn less than that."""
    assert part.centreline is not None  # only vertices can be merged
    changed = replace(part, centreline=replace(part.centreline, merge_below_deg=below_deg))
    change = Change(key="centreline.merge_below", value=below_deg)
    return ChangedPart(part=changed, change=change, text=f"leave out vertices that turn less than {below_deg:g}°")


def _changed_vertices(part: Part, vertices: list[Vertex], text: str) -> ChangedPart:
    assert part.centreline is not None  # only a centreline has vertices
    changed = replace(part, centreline=replace(part.centreline, vertices=tuple(vertices)))
    filed = part_as_filed(changed).centreline
    assert filed is not None  # the same part, the other way round
    return ChangedPart(
        part=changed, change=Change(key="centreline.vertices", value=_rows(filed, part.units)), text=text
    )


def _rows(centreline: Centreline, units: Units) -> Value:
    return tuple(
        tuple(units_from_mm(x, units) for x in (v.x, v.y, v.z, *(() if v.clr is None else (v.clr,))))
        for v in centreline.vertices
    )


def _changed_step(part: Part, step: int, text: str, field: str, value: float) -> ChangedPart:
    assert part.steps is not None  # only steps are changed here
    bends = list(part.steps.bends)
    bends[step - 1] = replace(bends[step - 1], **{field: value})
    changed = replace(part, steps=WantedSteps(bends=tuple(bends), rear=part.steps.rear))
    filed_step = len(bends) + 1 - step if part.from_rear else step
    key = f"steps.bend[{filed_step}].{field.removesuffix('_deg')}"
    filed_value = value if field.endswith("_deg") else units_from_mm(value, part.units)
    return ChangedPart(part=changed, change=Change(key=key, value=filed_value), text=text)


def _longer_step(part: Part, steps: WantedSteps, number: int, extra: float, text: str) -> ChangedPart:
    straights = [bend.straight for bend in steps.bends] + [steps.rear]
    straights[number - 1] += extra
    bends = tuple(replace(b, straight=s) for b, s in zip(steps.bends, straights[:-1], strict=True))
    changed = replace(part, steps=WantedSteps(bends=bends, rear=straights[-1]))
    filed_number = len(straights) + 1 - number if part.from_rear else number
    key = "steps.rear" if filed_number == len(straights) else f"steps.bend[{filed_number}].straight"
    value = units_from_mm(straights[number - 1], part.units)
    return ChangedPart(part=changed, change=Change(key=key, value=value), text=text)


def other_offset(part: Part, key: str, value: float, text: str) -> ChangedPart:
    """Give one number of `[offset]` another value [mm, deg]; it must be one that is the same from either end."""
    assert part.offset is not None  # only an offset is changed here
    field = "angle_deg" if key == "angle" else key
    number: dict[str, Any] = {field: value}
    changed = replace(part, offset=replace(part.offset, **number))
    filed_value = value if key == "angle" else units_from_mm(value, part.units)
    return ChangedPart(part=changed, change=Change(key=f"offset.{key}", value=filed_value), text=text)


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
    handed = mirror_part(filed) if part.mirrored else filed
    return ChangedPart(
        part=reverse_part(handed) if part.from_rear else handed,
        change=Change(key="offset.rear.out", value=units_from_mm(out, part.units)),
        text=f"rear end {in_words(out, part.units)} off the common axis",
    )


def _longer_offset(part: Part, wish: OffsetWish, number: int, grown: float) -> ChangedPart:
    """Change the part's length: its ends share what is gained, so one end gains half."""
    ends = (1, 3)
    length = wish.length + (2.0 * grown if number in ends else grown)
    return other_offset(part, "length", length, f"make the part {in_words(length, part.units)} long")
