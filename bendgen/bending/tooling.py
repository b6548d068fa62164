"""Which die set makes a bend, and which table or material data tells how it springs back."""

from bendgen.errors import ToolingError
from bendgen.records.allowances import AllowanceTable, MaterialData
from bendgen.records.machine import MachineProfile
from bendgen.records.tooling import DieSet
from bendgen.records.tube import Tube
from bendgen.units import Units, unit_question, units_from_mm

# Common practice, no source: a groove takes a tube this much off its size; a CLR is stamped no finer than this [mm].
OD_AGREES = 0.05
CLR_AGREES = 0.01
WALL_AGREES = 0.02  # share of the table's wall


def die_for_bend(tube: Tube, profile: MachineProfile, *, named: str | None, clr: float | None = None) -> DieSet:
    """Die set for one bend: the named one, else the only one for this OD (and CLR, where asked for).

    Raises
    ------
    ToolingError
        no die set serves, or more than one does; the message lists the choice
    """
    if named is not None:
        die = _named_die(named, profile)
        if clr is None or abs(die.clr - clr) <= CLR_AGREES:
            return die
    of_od = [die for die in profile.dies if abs(die.tube_od - tube.od) <= OD_AGREES]
    serving = [die for die in of_od if clr is None or abs(die.clr - clr) <= CLR_AGREES]
    if len(serving) == 1:
        return serving[0]
    units = profile.units
    wanted = f"tube OD {_shown(tube.od, units)} {units}"
    wanted += "" if clr is None else f" and CLR {_shown(clr, units)} {units}"
    if serving:
        choice = ", ".join(f"'{die.id}' (CLR {_shown(die.clr, units)} {units})" for die in serving)
        raise ToolingError(f"more than one die set of '{profile.name}' serves {wanted}: name the die, one of {choice}")
    question = unit_question(tube.od, [die.tube_od for die in profile.dies])
    if not question and clr is not None:
        question = unit_question(clr, [die.clr for die in of_od])
    stock = _stock(profile)
    raise ToolingError(f"no die set of '{profile.name}' serves {wanted}; it has {stock}{question and '; ' + question}")


def _stock(profile: MachineProfile) -> str:
    """Every die set of a machine by its sizes."""
    units = profile.units
    return ", ".join(
        f"'{die.id}' (OD {_shown(die.tube_od, units)}, CLR {_shown(die.clr, units)} {units})" for die in profile.dies
    )


def _shown(length: float, units: Units) -> str:
    return f"{units_from_mm(length, units):g}"


def _named_die(die_id: str, profile: MachineProfile) -> DieSet:
    try:
        return profile.die(die_id)
    except KeyError:
        known = ", ".join(f"'{die.id}'" for die in profile.dies)
        raise ToolingError(f"'{profile.name}' has no die set '{die_id}'; it has {known}") from None


def table_for_bend(tube: Tube, die: DieSet, profile: MachineProfile) -> AllowanceTable | None:
    """Table for this die, material, temper, wall and perforation: of the tube's lot, else the newest; None if none.

    Raises
    ------
    ToolingError
        two tables tie
    """
    fitting = [table for table in profile.tables if _fits(table, tube, die)]
    of_lot = [table for table in fitting if tube.lot is not None and table.lot == tube.lot]
    candidates = of_lot or fitting
    if not candidates:
        return None
    newest = max(table.issued for table in candidates)
    best = [table for table in candidates if table.issued == newest]
    if len(best) > 1:
        files = " and ".join(f"'{table.file}'" for table in best)
        raise ToolingError(f"tables {files} serve this tube equally, both issued {newest}: retire one or name a lot")
    return best[0]


def _fits(table: AllowanceTable, tube: Tube, die: DieSet) -> bool:
    return (
        table.die == die.id
        and table.material.casefold() == tube.material.casefold()
        and (table.temper or "").casefold() == (tube.temper or "").casefold()
        and table.perforated == tube.perforated
        and abs(table.wall - tube.wall) <= WALL_AGREES * table.wall
    )


def material_for_tube(tube: Tube, profile: MachineProfile) -> MaterialData | None:
    """Newest material data of that name, for an estimate; None if the profile has none."""
    fitting = [data for data in profile.materials if data.material.casefold() == tube.material.casefold()]
    return max(fitting, key=lambda data: (data.issued, data.file), default=None)


def no_table_message(tube: Tube, die: DieSet, profile: MachineProfile) -> str:
    """One line for a tube that neither a table nor material data serves."""
    wall = f"{_shown(tube.wall, profile.units)} {profile.units}"
    kind = "perforated" if tube.perforated else "plain"
    temper = f" {tube.temper}" if tube.temper else ""
    tables = ", ".join(f"'{table.file}'" for table in profile.tables if table.die == die.id) or "none for this die"
    question = unit_question(tube.wall, [table.wall for table in profile.tables if table.die == die.id])
    return (
        f"no springback table for die '{die.id}', {tube.material}{temper}, wall {wall}, {kind}, and no "
        f"material data for '{tube.material}' to estimate from; tables of this die: {tables}"
        f"{question and '; ' + question}"
    )
