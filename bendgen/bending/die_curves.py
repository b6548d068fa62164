"""What the profile knows about one tube on one die set: its table, or an estimate from material data."""

from bendgen.bending.allowances import AllowanceCurves, curves_of_material, curves_of_table
from bendgen.bending.tooling import material_for_tube, no_table_message, table_for_bend
from bendgen.errors import ToolingError
from bendgen.records.allowances import AllowanceTable
from bendgen.records.machine import MachineProfile
from bendgen.records.tooling import DieSet
from bendgen.records.tube import Tube


def table_and_curves(tube: Tube, die: DieSet, profile: MachineProfile) -> tuple[AllowanceTable | None, AllowanceCurves]:
    """Table that serves and the curves through it, or None and estimated curves.

    Raises
    ------
    ToolingError
        neither a table nor material data serves, or two tables serve equally
    """
    table = table_for_bend(tube, die, profile)
    if table is not None:
        return table, curves_of_table(table, die.clr)
    data = material_for_tube(tube, profile)
    if data is None:
        raise ToolingError(no_table_message(tube, die, profile))
    return None, curves_of_material(data, tube, die)
