"""What was understood of a file that shows a tube, as text."""

from collections.abc import Iterator

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
    yield "CLR", _clr(bends)
    if bends.straights is not None and (short := [s for s in bends.straights if s < -1e-6]):
        yield (
            "overlap",
            f"bends overlap by {format_length(-min(short), found.units)} at the worst: the CLR is too large",
        )
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


def _clr(bends: FoundBends) -> str:
    missing = sum(clr is None for clr in bends.clr)
    if not bends.clr:
        return "no bend needs one"
    if not missing:
        return "in the file for every bend"
    return (
        "not in the file: the die set decides" if missing == len(bends.clr) else f"not in the file for {missing} bends"
    )


def _bends_table(bends: FoundBends, units: Units) -> str:
    before = bends.legs if bends.straights is None else bends.straights
    assert before is not None  # steps have straights, vertices have legs
    name = "vertex to vertex" if bends.straights is None else "straight before"
    rows = [
        [
            str(number),
            _length(length, units),
            _rotation(rotation),
            _angle(angle),
            "" if clr is None else _length(clr, units),
        ]
        for number, (length, rotation, angle, clr) in enumerate(
            zip(before, bends.rotations_deg, bends.angles_deg, bends.clr, strict=False), start=1
        )
    ]
    rows.append(["rear", _length(before[-1], units), "", "", ""])
    headings = ["bend", f"{name} [{units}]", "rotation [°]", "angle [°]", f"CLR [{units}]"]
    return text_table(headings, rows, align="rrrrr", gap=3)


def _length(length: float, units: Units) -> str:
    return format_number(units_from_mm(length, units), FINE_DECIMALS[units])


def _angle(degrees: float) -> str:
    return format_number(degrees, ANGLE_DECIMALS)


def _rotation(degrees: float) -> str:
    """Half a turn has no sign, however it was rounded."""
    return _angle(degrees).removeprefix("-") if degrees < 0.5 * 10.0**-ANGLE_DECIMALS - 180.0 else _angle(degrees)
