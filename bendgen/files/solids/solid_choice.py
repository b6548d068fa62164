"""Which solid of a file is meant, and that tube as `bendgen read` and `[centreline] from` take it."""

import math
from pathlib import Path
from typing import NoReturn

from bendgen.errors import InputError, Mistake
from bendgen.files.solids.solid_file import SolidFile, read_solid_file
from bendgen.records.found_tube import Answers, FoundTube
from bendgen.records.part import Centreline
from bendgen.records.solid_tube import OtherSolid, SolidTube
from bendgen.units import INCHES_PER_FOOT, MM_PER_INCH, format_length

MOST_LISTED = 12
UNIT_NAMES = {1.0: "mm", 10.0: "cm", 1000.0: "m", MM_PER_INCH: "in", INCHES_PER_FOOT * MM_PER_INCH: "ft"}


def read_tube_of_solids(path: Path, answers: Answers) -> FoundTube:
    """Tube in a file of solids.

    Raises
    ------
    InputError
        a mistake of the file, why there is no tube, or what the file leaves open: which solid, the CLR of a mitre
    """
    file = read_solid_file(path)
    if answers.solid is not None:
        numbers = _numbers(file, answers.solid, str(path))
        found = file.tube(numbers, answers.clr)
        others: list[SolidTube | OtherSolid] = []
    else:
        all_solids = [file.tube([number], answers.clr) for number in range(1, len(file.solids) + 1)]
        found, others = _the_only_tube(all_solids, str(path))
    if isinstance(found, OtherSolid):
        _fail(str(path), f"solid {found.number}", "a tube, all of whose faces are used", found.reason)
    return _found_tube(found, others, file, str(path))


def read_all_tubes(path: Path, answers: Answers) -> tuple[FoundTube, ...]:
    """Every tube in a file of solids, each by itself; what is no tube is named in the first one's list."""
    file = read_solid_file(path)
    solids = [file.tube([number], answers.clr) for number in range(1, len(file.solids) + 1)]
    tubes = [solid for solid in solids if isinstance(solid, SolidTube)]
    if not tubes:
        _the_only_tube(solids, str(path))
    others = [solid for solid in solids if solid not in tubes]
    return tuple(_found_tube(tube, [] if index else others, file, str(path)) for index, tube in enumerate(tubes))


def _fail(file: str, place: str, expected: str, found: str) -> NoReturn:
    raise InputError([Mistake(file=file, place=place, expected=expected, found=found)])


def _numbers(file: SolidFile, wanted: str, path: str) -> list[int]:
    """Numbers of the solids that were named: `2`, `1+2`, or a name."""
    parts = [part.strip() for part in wanted.split("+")]
    if all(part.isdecimal() for part in parts):
        numbers = [int(part) for part in parts]
        if all(1 <= number <= len(file.solids) for number in numbers) and len(set(numbers)) == len(numbers):
            return numbers
    by_name = [number for number, solid in enumerate(file.solids, 1) if solid.name.casefold() == wanted.casefold()]
    if len(by_name) == 1:
        return by_name
    listed = "; ".join(f"{number} '{solid.name}'" for number, solid in enumerate(file.solids[:MOST_LISTED], 1))
    more = "; …" if len(file.solids) > MOST_LISTED else ""
    _fail(path, "", f"with --solid one of its solids, {listed}{more}", f"'{wanted}'")


def _the_only_tube(
    solids: list[SolidTube | OtherSolid], path: str
) -> tuple[SolidTube | OtherSolid, list[SolidTube | OtherSolid]]:
    """The one tube among solids, or the one solid; and the others."""
    if len(solids) == 1:
        return solids[0], []
    tubes = [solid for solid in solids if isinstance(solid, SolidTube)]
    if len(tubes) == 1:
        return tubes[0], [solid for solid in solids if solid is not tubes[0]]
    listed = "; ".join(_solid_text(solid) for solid in solids[:MOST_LISTED])
    more = "; …" if len(solids) > MOST_LISTED else ""
    kind = f"{len(tubes)} tubes" if tubes else "no solid that is a tube"
    _fail(
        path,
        "",
        "with --solid which of its solids is meant (1+2: those that meet end to end)",
        f"{kind}: {listed}{more}",
    )


def _solid_text(solid: SolidTube | OtherSolid) -> str:
    """Solid in a list."""
    if isinstance(solid, OtherSolid):
        return f"{solid.number} '{solid.name}', no tube"
    bends = "no bend" if solid.bends == 0 else f"{solid.bends} bend{'s' if solid.bends > 1 else ''}"
    return f"{solid.number} '{solid.name}', OD {format_length(solid.od, 'mm')}, {bends}"


def _found_tube(tube: SolidTube, others: list[SolidTube | OtherSolid], file: SolidFile, path: str) -> FoundTube:
    wish = Centreline(vertices=tube.vertices) if tube.vertices is not None else tube.steps
    if tube.steps is None:
        _fail(path, "", "with --clr the CLR of the bends that take the place of its mitres", "pipes cut to a mitre")
    assert wish is not None  # where there are no steps, bends are mitres, and those have vertices
    mm = file.solids[tube.number - 1].unit.mm
    unit = next((name for size, name in UNIT_NAMES.items() if math.isclose(size, mm, rel_tol=1e-9)), f"of {mm:g} mm")
    count = len(file.solids)
    which = f"{tube.number} of {count}, '{tube.name}'" if count > 1 else f"'{tube.name}'"
    placed = f", {tube.instances} times in the file" if tube.instances > 1 else ""
    return FoundTube(
        kind="a solid, ISO 10303-21",
        units="in" if unit in ("in", "ft") else "mm",
        wish=wish,
        od=tube.od,
        wall=tube.wall,
        name=tube.name,
        quantity=tube.instances,
        front="the end nearer the file's origin",
        understood=(("unit", f"{unit}, from the file"), ("solid", f"{which}{placed}"), *tube.understood),
        ignored=(*tube.ignored, *(_other_text(other) for other in others)),
    )


def _other_text(other: SolidTube | OtherSolid) -> str:
    reason = other.reason if isinstance(other, OtherSolid) else "another tube"
    return f"solid {other.number}, '{other.name}': {reason}"
