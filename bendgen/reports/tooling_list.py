"""Die sets, tables and materials of a machine as lists for people."""

from collections.abc import Sequence

from bendgen.records.allowances import AllowanceRow, AllowanceTable, MaterialData
from bendgen.records.machine import MachineProfile
from bendgen.records.tooling import ContourClamp, DieSet
from bendgen.reports.text_table import text_table
from bendgen.units import FINE_DECIMALS, Units, format_length, format_number, units_from_mm

NOT_GIVEN = "-"


def die_list(dies: Sequence[DieSet], units: Units) -> str:
    """Die sets in a table, lengths in `units`, and below it the set-up and contoured clamp of each that has one."""
    headings = [
        "die set",
        "OD",
        "CLR",
        "clamp",
        "bend",
        "pressure die",
        "follows",
        "mandrel",
        "wall",
        "sleeve",
        "stack",
    ]
    table = text_table(headings, [_die_cells(die, units) for die in dies], align="lrrrrrrrrrl")
    return "\n".join([table, *(line for die in dies for line in _die_notes(die, units))])


def _die_cells(die: DieSet, units: Units) -> list[str]:
    return [
        die.id,
        *(_length(length, units) for length in (die.tube_od, die.clr, die.clamp)),
        angle_range(die.smallest_bend_deg, die.largest_bend_deg),
        *(_length(length, units) for length in (die.pressure_die, die.pressure_travel, die.mandrel_ahead)),
        NOT_GIVEN if die.walls is None else f"{_length(die.walls[0], units)} to {_length(die.walls[1], units)}",
        _length(die.sleeve, units),
        die.stack or NOT_GIVEN,
    ]


def _die_notes(die: DieSet, units: Units) -> list[str]:
    notes = [] if die.set_up is None else [f"{die.id} set-up: {die.set_up}"]
    if die.contour is not None:
        notes.append(f"{die.id} contoured clamp: {_contour_words(die.contour, units)}")
    return notes


def _contour_words(contour: ContourClamp, units: Units) -> str:
    rotations = " or ".join(angle_text(rotation) for rotation in contour.rotation_deg)
    return (
        f"holds on a bend before of {angle_range(*contour.before_angle_deg)} (commanded), "
        f"{format_length(contour.shortest_between, units)} or more between the two, rotation {rotations}"
    )


def allowance_list(tables: Sequence[AllowanceTable], units: Units) -> str:
    """Tables of measured springback, numbered, and below them the file and source of each."""
    headings = ["", "die set", "material", "wall", "tube", "angles", "rows", "also measured", "issued", "lot", "temper"]
    rows = [[str(number), *_allowance_cells(table, units)] for number, table in enumerate(tables, 1)]
    files = [[str(number), table.file, table.source] for number, table in enumerate(tables, 1)]
    return text_table(headings, rows, align="rllrllrllll") + "\n" + text_table(["", "", ""], files, align="rll")


def _allowance_cells(table: AllowanceTable, units: Units) -> list[str]:
    proven = "" if table.proven_angle_deg is None else f" to {angle_text(table.proven_angle_deg)}"
    return [
        table.die,
        table.material,
        _length(table.wall, units),
        f"perforated{proven}" if table.perforated else "plain",
        angle_range(table.rows[0].angle_deg, table.rows[-1].angle_deg),
        str(len(table.rows)),
        _also_measured(table.rows[0]),
        table.issued.isoformat(),
        table.lot or NOT_GIVEN,
        table.temper or NOT_GIVEN,
    ]


def _also_measured(row: AllowanceRow) -> str:
    """What the rows hold besides springback."""
    columns = [("elongation", row.elongation), ("CLR", row.clr)]
    return ", ".join(name for name, value in columns if value is not None) or NOT_GIVEN


def dies_without_table(profile: MachineProfile) -> tuple[DieSet, ...]:
    """Die sets for which no trial bends were entered."""
    known = {table.die for table in profile.tables}
    return tuple(die for die in profile.dies if die.id not in known)


def material_list(materials: Sequence[MaterialData]) -> str:
    """Material data for estimates, one a line."""
    headings = ["material", "stiffness MPa", "strength MPa", "hardening", "issued", "file"]
    rows = [
        [
            data.material,
            format_number(data.youngs_modulus_mpa, 0),
            format_number(data.strength_coefficient_mpa, 0),
            format_number(data.hardening_exponent, 2),
            data.issued.isoformat(),
            data.file,
        ]
        for data in materials
    ]
    return text_table(headings, rows, align="lrrrll")


def angle_text(angle_deg: float) -> str:
    """Angle to 0.01° without trailing zeros, "92.5°"."""
    return f"{format_number(angle_deg, 2).rstrip('0').rstrip('.')}°"


def angle_range(smallest_deg: float | None, largest_deg: float) -> str:
    """Range of angles, "2° to 184°", or only its end."""
    return (
        f"to {angle_text(largest_deg)}"
        if smallest_deg is None
        else (f"{angle_text(smallest_deg)} to {angle_text(largest_deg)}")
    )


def _length(length: float | None, units: Units) -> str:
    """Length without its unit, which the list's own title names."""
    if length is None:
        return NOT_GIVEN
    return format_number(units_from_mm(length, units), FINE_DECIMALS[units]).rstrip("0").rstrip(".")
