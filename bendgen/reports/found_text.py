"""What was understood of a file that shows a tube, as text."""

import math
from collections.abc import Iterator, Sequence

from bendgen.records.found_bends import FoundBends
from bendgen.records.found_tube import FoundTube
from bendgen.records.part import Centreline
from bendgen.reports.text_table import text_table
from bendgen.units import FINE_DECIMALS, Units, format_length, format_number, units_from_mm

ANGLE_DECIMALS = 3


def found_text(file: str, found: FoundTube, bends: FoundBends, *, turned: bool) -> str:
    """What a reader made of a file: unit, tube, ends, straights and bends, what was passed over.

    turned : the tube's ends were swapped, so that the file's last point is its front end
    """
    sections = [
        f"{file}: {found.kind}",
        text_table(["", ""], list(_facts(found, bends, turned=turned)), align="ll", gap=2),
        _bends_table(bends, found.units),
    ]
    if found.ignored:
        sections.append("Passed over\n" + "\n".join(f"  - {what}" for what in found.ignored))
    return "\n\n".join(sections) + "\n"


def _facts(found: FoundTube, bends: FoundBends, *, turned: bool) -> Iterator[tuple[str, str]]:
    yield from found.understood
    yield "tube OD", "not in the file" if found.od is None else format_length(found.od, found.units)
    yield "wall", "not in the file" if found.wall is None else format_length(found.wall, found.units)
    yield "front end", _front_end(found, turned=turned)
    yield "CLR", _clr(bends, found.units)
    if bends.straights is not None and (short := [s for s in bends.straights if s < -1e-6]):
        overlap = f"bends overlap by {format_length(-min(short), found.units)} at the worst: the CLR is too large"
        yield "overlap", overlap + _largest_clr(bends, found.units)
    if bends.merged:
        numbers = ", ".join(str(number) for number in bends.merged)
        yield "no bend", f"at vertex {numbers}: the path goes straight on there; it stays as a mark"


def _front_end(found: FoundTube, *, turned: bool) -> str:
    which, option = ("last", "without --from-rear") if turned else ("first", "with --from-rear")
    if found.front:
        return f"{'not ' if turned else ''}{found.front}; {option} the other one"
    if isinstance(found.wish, Centreline):
        front = found.wish.vertices[0]
        place = ", ".join(_length(value, found.units) for value in (front.x, front.y, front.z))
        return f"the file's {which} point, ({place}); {option} the other one"
    return f"the file's {which} straight; {option} the other one"


def _clr(bends: FoundBends, units: Units) -> str:
    if not bends.clr:
        return "no bend needs one"
    missing = [number for number, clr in enumerate(bends.clr, start=1) if clr is None]
    if bends.clr_within:
        return f"fitted to the points; ± holds 95 of 100 such fits{_not_shown(bends, missing, units)}"
    if not missing:
        return "in the file for every bend"
    if len(missing) == len(bends.clr):
        return "not in the file: the die set decides"
    return f"not in the file for bend {', '.join(map(str, missing))}: the die set decides"


def _largest_clr(bends: FoundBends, units: Units) -> str:
    return f"; all could have {format_length(bends.largest_clr, units)}" if bends.largest_clr is not None else ""


def _not_shown(bends: FoundBends, missing: Sequence[int], units: Units) -> str:
    """Bends whose arcs are too short for the scatter of the points, and how far each leaves its CLR open."""
    if not missing:
        return ""
    each = ", ".join(f"{number}{_left_open(bends.clr_within[number - 1], units)}" for number in missing)
    return f"; too small to show through the scatter at bend {each}: the die set decides"


def _left_open(within: float, units: Units) -> str:
    return f" (± {format_length(within, units)})" if math.isfinite(within) else ""


def _bends_table(bends: FoundBends, units: Units) -> str:
    before = bends.legs if bends.straights is None else bends.straights
    assert before is not None  # steps have straights, vertices have legs
    name = "vertex to vertex" if bends.straights is None else "straight before"
    rows = [
        [str(number), _length(length, units), _rotation(rotation), _angle(angle), *_radius(bends, number, units)]
        for number, (length, rotation, angle) in enumerate(
            zip(before, bends.rotations_deg, bends.angles_deg, strict=False), start=1
        )
    ]
    rows.append(["rear", _length(before[-1], units), "", "", *[""] * (len(rows[0]) - 4 if rows else 1)])
    headings = ["bend", f"{name} [{units}]", "rotation [°]", "angle [°]", f"CLR [{units}]"]
    return text_table([*headings, *["±"] * (len(rows[0]) - 5)], rows, align="r" * len(rows[0]), gap=3)


def _radius(bends: FoundBends, number: int, units: Units) -> list[str]:
    """CLR of a bend, and how well it is known where it was fitted."""
    clr = bends.clr[number - 1]
    shown = "" if clr is None else _length(clr, units)
    if not bends.clr_within:
        return [shown]
    return [shown, "" if clr is None else _length(bends.clr_within[number - 1], units)]


def _length(length: float, units: Units) -> str:
    return format_number(units_from_mm(length, units), FINE_DECIMALS[units])


def _angle(degrees: float) -> str:
    return format_number(degrees, ANGLE_DECIMALS)


def _rotation(degrees: float) -> str:
    """Half a turn has no sign, however it was rounded."""
    return _angle(degrees).removeprefix("-") if degrees < 0.5 * 10.0**-ANGLE_DECIMALS - 180.0 else _angle(degrees)
