"""Which solid of a file is meant, and that tube as `bendgen read` and `[centreline] from` take it."""

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import islice
from pathlib import Path

from bendgen.errors import InputError, mistaken
from bendgen.files.needless_answers import refuse_needless
from bendgen.files.solids.solid_file import SolidFile, read_solid_file
from bendgen.records.found_tube import Answers, FoundTube
from bendgen.records.part import Centreline, WantedSteps
from bendgen.records.solid_tube import OtherSolid, SolidTube
from bendgen.units import INCHES_PER_FOOT, MM_PER_INCH, counted, format_length

Solid = SolidTube | OtherSolid

MOST_LISTED = 12
UNIT_NAMES = {1.0: "mm", 10.0: "cm", 1000.0: "m", MM_PER_INCH: "in", INCHES_PER_FOOT * MM_PER_INCH: "ft"}


def read_tube_of_solids(path: Path, answers: Answers) -> FoundTube:
    """Tube in a file of solids.

    Raises
    ------
    InputError
        a mistake of the file, why there is no tube, or what the file leaves open: which solid, the CLR of a mitre
    """
    file = _read(path, answers)
    if answers.solid is None:
        tube, others = _the_only_tube(file, answers)
    else:
        tube, others = _named_tube(file, answers.solid, answers), []
    return _found_tube(tube, others, file, answers)


def read_all_tubes(path: Path, answers: Answers) -> tuple[FoundTube, ...]:
    """Every tube in a file of solids, each by itself; what is no tube is passed over with the first one."""
    file = _read(path, answers)
    solids = _all_solids(file, answers)
    tubes = [solid for solid in solids if isinstance(solid, SolidTube)]
    if not tubes:
        raise _mistaken(file, "a tube among its solids", _listed(_other_text(solid) for solid in solids))
    others = [solid for solid in solids if isinstance(solid, OtherSolid)]
    return tuple(_found_tube(tube, [] if index else others, file, answers) for index, tube in enumerate(tubes))


def _read(path: Path, answers: Answers) -> SolidFile:
    refuse_needless(answers, "solids", str(path))
    return read_solid_file(path)


def _mistaken(file: SolidFile, expected: str, found: str, *, place: str = "") -> InputError:
    return mistaken(file.exchange.source.file, expected, found, place=place)


def _all_solids(file: SolidFile, answers: Answers) -> list[Solid]:
    return [file.tube([number], answers.clr) for number in range(1, len(file.solids) + 1)]


def _the_only_tube(file: SolidFile, answers: Answers) -> tuple[SolidTube, Sequence[Solid]]:
    """The one tube among the solids, and the other solids."""
    solids = _all_solids(file, answers)
    tubes = [solid for solid in solids if isinstance(solid, SolidTube)]
    if len(tubes) == 1:
        return tubes[0], [solid for solid in solids if solid is not tubes[0]]
    if len(solids) == 1:
        raise _no_tube(file, solids[0])
    expected = "with --solid which of its solids is meant (1+2: those that meet end to end)"
    kind = f"{len(tubes)} tubes among {len(solids)} solids" if tubes else "no solid that is a tube"
    raise _mistaken(file, expected, f"{kind}: {_listed(_solid_text(solid) for solid in tubes or solids)}")


def _no_tube(file: SolidFile, solid: Solid) -> InputError:
    reason = solid.reason if isinstance(solid, OtherSolid) else ""
    return _mistaken(file, "a tube, all of whose faces are used", reason, place=f"solid {solid.number}")


def _named_tube(file: SolidFile, wanted: str, answers: Answers) -> SolidTube:
    """Tube that was named."""
    numbers = _numbers_of_name(file, wanted) or _numbers_in(wanted)
    if not numbers or not set(numbers) <= set(range(1, len(file.solids) + 1)):
        listed = _listed(f"{number} '{solid.name}'" for number, solid in enumerate(file.solids, 1))
        raise _mistaken(file, f"with --solid one of its solids, {listed}", f"'{wanted}'")
    solid = file.tube(numbers, answers.clr)
    if isinstance(solid, OtherSolid):
        raise _no_tube(file, solid)
    return solid


def _numbers_of_name(file: SolidFile, wanted: str) -> list[int]:
    """Number of the only solid of that name."""
    numbers = [number for number, solid in enumerate(file.solids, 1) if solid.name.casefold() == wanted.casefold()]
    return numbers if len(numbers) == 1 else []


def _numbers_in(wanted: str) -> list[int]:
    """Numbers in `2` or `1+2`, none twice; none at all in any other text."""
    parts = [part.strip() for part in wanted.split("+")]
    sound = len(set(parts)) == len(parts) and all(re.fullmatch("[0-9]{1,6}", part) for part in parts)
    return [int(part) for part in parts] if sound else []


def _listed(texts: Iterable[str]) -> str:
    first = list(islice(texts, MOST_LISTED + 1))
    return "; ".join([*first[:MOST_LISTED], *(["…"] if len(first) > MOST_LISTED else [])])


def _solid_text(solid: Solid) -> str:
    """Solid in a list to choose from."""
    if isinstance(solid, OtherSolid):
        return f"{solid.number} '{solid.name}', no tube"
    bends = "no bend" if solid.bends == 0 else counted(solid.bends, "bend")
    size = f"{'bar, ' if solid.wall is None else ''}OD {format_length(solid.od, solid.units)}"
    return f"{solid.number} '{solid.name}', {size}, {bends}"


def _other_text(other: Solid) -> str:
    """Solid in a list of those passed over."""
    reason = other.reason if isinstance(other, OtherSolid) else "another tube"
    return f"solid {other.number}, '{other.name}': {reason}"


def _found_tube(tube: SolidTube, others: Sequence[Solid], file: SolidFile, answers: Answers) -> FoundTube:
    """Tube as read; raises InputError where the CLR of a mitre is asked for."""
    if tube.steps is None and not answers.leave_clr:
        expected = "with --clr the CLR of the bends that take the place of its mitres"
        raise _mistaken(file, expected, "pipes cut to a mitre")
    unit = _unit_name(file.solids[tube.number - 1].unit.mm)
    which = f"{tube.number} of {len(file.solids)}, '{tube.name}'" if len(file.solids) > 1 else f"'{tube.name}'"
    placed = f", {tube.instances} times in the file" if tube.instances > 1 else ""
    return FoundTube(
        kind="a solid, ISO 10303-21",
        units=tube.units,
        wish=_wish(tube, leave_clr=answers.leave_clr),
        od=tube.od,
        wall=tube.wall,
        name=tube.name,
        quantity=tube.instances,
        front="the end nearer the file's origin",
        understood=(("unit", f"{unit}, from the file"), ("solid", f"{which}{placed}"), *tube.understood),
        ignored=(*tube.ignored, *(_other_text(other) for other in others)),
    )


def _unit_name(mm: float) -> str:
    return next((name for size, name in UNIT_NAMES.items() if math.isclose(size, mm, rel_tol=1e-9)), f"of {mm:g} mm")


def _wish(tube: SolidTube, *, leave_clr: bool) -> Centreline | WantedSteps:
    """Vertices, or straights and bends where one turns too far for a vertex."""
    if tube.vertices is not None:
        vertices = (replace(vertex, clr=None) for vertex in tube.vertices) if leave_clr else tube.vertices
        return Centreline(vertices=tuple(vertices))
    assert tube.steps is not None  # only mitres have none, and those have vertices
    bends = (replace(bend, clr=None) for bend in tube.steps.bends) if leave_clr else tube.steps.bends
    return replace(tube.steps, bends=tuple(bends))
