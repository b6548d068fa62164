"""CLR that were fitted to points, taken from a machine's die sets where those lie within what the points leave open."""

from dataclasses import replace

from bendgen.bending.tooling import CLR_AGREES, OD_AGREES
from bendgen.records.found_tube import FoundTube
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Centreline, WantedSteps
from bendgen.records.tooling import DieSet
from bendgen.units import Units, format_length

NEAR = 2.0  # half widths: of the bends of a few tubes, one in twenty lies farther off than one


def on_die_sets(found: FoundTube, od: float, profile: MachineProfile, *, named: str | None) -> FoundTube:
    """Found tube with the CLR of a die set at every bend for which just one comes near the fit, and what was done.

    Where several do, the CLR is left open until somebody names the die set. A CLR that the file itself says is left
    alone, however near a die set comes to it.

    named : the one die set that may be taken; None: any for that OD
    """
    if not found.clr_within:
        return found
    dies = [die for die in profile.dies if abs(die.tube_od - od) <= OD_AGREES and named in (None, die.id)]
    clr, words = _clr_of_wish(found.wish), []
    for index, (fitted, within) in enumerate(zip(clr, found.clr_within, strict=True)):
        if fitted is None:
            continue
        near = [die for die in dies if abs(die.clr - fitted) <= max(NEAR * within, CLR_AGREES)]
        if near:
            clr[index] = near[0].clr if len(near) == 1 else None
            words.append(("die set", f"bend {index + 1}: {_words(near, fitted, within, found.units)}"))
    return replace(found, wish=_with_clr(found.wish, clr), understood=(*found.understood, *words))


def _words(near: list[DieSet], fitted: float, within: float, units: Units) -> str:
    fit = f"the fitted CLR of {format_length(fitted, units)} ± {format_length(within, units)}"
    if len(near) == 1:
        return f"'{near[0].id}', CLR {format_length(near[0].clr, units)}, in place of {fit}"
    names = " and ".join(f"'{die.id}'" for die in near)
    return f"left open, {names} come near {fit}: name the one meant"


def _clr_of_wish(wish: Centreline | WantedSteps) -> list[float | None]:
    if isinstance(wish, Centreline):
        return [vertex.clr for vertex in wish.vertices[1:-1]]
    return [bend.clr for bend in wish.bends]


def _with_clr(wish: Centreline | WantedSteps, clr: list[float | None]) -> Centreline | WantedSteps:
    if isinstance(wish, WantedSteps):
        return replace(wish, bends=tuple(replace(b, clr=r) for b, r in zip(wish.bends, clr, strict=True)))
    ends = [None, *clr, None]
    return replace(wish, vertices=tuple(replace(v, clr=r) for v, r in zip(wish.vertices, ends, strict=True)))
