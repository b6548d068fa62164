"""Changes to a part that a cure may ask for: each as the changed part and as the key and value in its file.

A part may be planned as its other hand or from its other end; a change is always written for the part as filed.
"""

from dataclasses import replace

from bendgen.bending.changed_part import ChangedPart, in_words, rounded_down, rounded_up
from bendgen.bending.hands import part_as_filed, reverse_part
from bendgen.bending.layout import Layout
from bendgen.bending.wish_changes import longer_offset, longer_route
from bendgen.geometry.vectors import lengths
from bendgen.records.findings import Change, Value
from bendgen.records.part import Centreline, Part, TrimEnds, Vertex, WantedSteps
from bendgen.units import Units, units_from_mm


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


def can_be_written(changed: ChangedPart) -> bool:
    """Whether a file can say it: no straight shortened past nothing, no vertices where the file asks for a route."""
    if changed.part.route is not None and changed.change.key.startswith("centreline."):
        return False
    steps = changed.part.steps
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
        return longer_offset(part, part.offset, number, grown)
    assert layout.vertices is not None  # the one wish of a part is vertices here
    assert part.centreline is not None
    step = layout.vertices[number] - layout.vertices[number - 1]
    shift = step / lengths(step[None, :])[0] * grown
    if part.route is not None:
        return longer_route(part, part.route, shift, f" along straight {number}")
    x, y, z = shift.tolist()
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
