"""Trial bends sorted by the table they belong to, and held against mixing what no table may mix."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from bendgen.bending.tooling import WALL_AGREES
from bendgen.errors import InputError, Mistake
from bendgen.records.trials import TrialBend, TubeKind
from bendgen.units import FINE_DECIMALS, Units, format_number, units_from_mm

Group = tuple[TrialBend, ...]


def grouped_trials(bends: Sequence[TrialBend], file: str, units: Units) -> tuple[Group, ...]:
    """Trial bends of one table each, in the order of their first lines.

    Parameters
    ----------
    bends : of one file, which mistakes call `file` and whose walls they give in `units`

    Raises
    ------
    InputError
        lots are mixed in one table, or walls so near each other that their tables would stand for the same tube
    """
    groups: defaultdict[TubeKind, list[TrialBend]] = defaultdict(list)
    for bend in bends:
        groups[_apart_from_case(bend.kind)].append(bend)
    mistakes = [*_near_walls(list(groups), groups, file, units)]
    mistakes += [mistake for group in groups.values() for mistake in _mixed_lots(group, file)]
    if mistakes:
        raise InputError(mistakes)
    return tuple(tuple(group) for group in groups.values())


def same_but_for_wall(one: TubeKind, other: TubeKind) -> bool:
    """Whether die, material, temper and perforation agree, upper and lower case being one."""
    return _facts(one) == _facts(other)


def walls_agree(one: float, other: float) -> bool:
    """Whether a table for the wall `one` [mm] serves a tube with the wall `other`."""
    return abs(one - other) <= WALL_AGREES * one


def _facts(kind: TubeKind) -> tuple[str, str, str, bool]:
    return kind.die, kind.material.casefold(), (kind.temper or "").casefold(), kind.perforated


def _apart_from_case(kind: TubeKind) -> TubeKind:
    die, material, temper, perforated = _facts(kind)
    return TubeKind(die=die, material=material, wall=kind.wall, perforated=perforated, temper=temper or None)


def _near_walls(
    kinds: Sequence[TubeKind], groups: defaultdict[TubeKind, list[TrialBend]], file: str, units: Units
) -> Iterator[Mistake]:
    for index, kind in enumerate(kinds):
        for before in kinds[:index]:
            if same_but_for_wall(before, kind) and walls_agree(before.wall, kind.wall):
                expected = f"{_wall(before, units)}, as in line {groups[before][0].line}: one table takes both"
                line = groups[kind][0].line
                yield Mistake(file=file, place=f"line {line}, column wall", expected=expected, found=_wall(kind, units))


def _wall(kind: TubeKind, units: Units) -> str:
    return f"{format_number(units_from_mm(kind.wall, units), FINE_DECIMALS[units] + 1).rstrip('0')} {units}"


def _mixed_lots(group: Sequence[TrialBend], file: str) -> Iterator[Mistake]:
    first = group[0]
    other = next((bend for bend in group if bend.lot != first.lot), None)
    if other is None:
        return
    lots = dict.fromkeys(f"lot '{bend.lot}'" if bend.lot else "no lot" for bend in group)
    yield Mistake(
        file=file,
        place=f"line {other.line}, column lot",
        expected=f"the lot of line {first.line}, one lot to a table (give each lot a file of its own, or leave the "
        "column empty for a table that stands for all lots)",
        found=" and ".join(lots),
    )
