"""What the die sets of a machine would do to the straights of a part that asks for a CLR none of them makes."""

from typing import TYPE_CHECKING

import numpy as np

from bendgen.bending.layout import Layout, layout_of_centreline
from bendgen.bending.tooling import CLR_AGREES, OD_AGREES
from bendgen.geometry.fillets import straights_between, tangent_lengths
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Centreline
from bendgen.records.tooling import DieSet
from bendgen.units import RADIANS_PER_DEGREE, Units, format_length, format_number, units_from_mm

if TYPE_CHECKING:
    from bendgen.records.found_tube import FoundTube

NEAREST = 3  # die sets told of


def other_dies_text(layout: Layout, clr: float, od: float, profile: MachineProfile, units: Units) -> str:
    """Lines on the nearest die sets for a tube of that OD: its straights if bends of that CLR were made on each.

    units : of the part; the text is empty for a part given as steps, whose straights hang on no CLR
    """
    if layout.segment_lengths is None:
        return ""
    dies = sorted(
        (die for die in profile.dies if abs(die.tube_od - od) <= OD_AGREES), key=lambda die: abs(die.clr - clr)
    )
    if not dies:
        return ""
    hint = (
        "  to bend it on one of them, leave out the CLR and name the die set; if none was asked for, look for a "
        "decimal comma in the vertices"
    )
    return "\n".join([*(_line(layout, clr, die, units) for die in dies[:NEAREST]), hint])


def misfit_clr_text(found: "FoundTube", od: float, profile: MachineProfile) -> str:
    """Lines on every CLR of a found tube that no die set of the machine for that OD makes; empty where each is made."""
    if not isinstance(found.wish, Centreline):
        return ""
    layout = layout_of_centreline(found.wish)
    made = [die.clr for die in profile.dies if abs(die.tube_od - od) <= OD_AGREES]
    texts = []
    for clr in dict.fromkeys(clr for clr in layout.clr if clr is not None):
        if not any(abs(radius - clr) <= CLR_AGREES for radius in made):
            wanted = f"OD {format_length(od, found.units)} and CLR {format_length(clr, found.units)}"
            others = other_dies_text(layout, clr, od, profile, found.units)
            texts.append(f"No die set of '{profile.name}' makes {wanted}\n{others}".rstrip())
    return "\n".join(texts)


def _line(layout: Layout, clr: float, die: DieSet, units: Units) -> str:
    assert layout.segment_lengths is not None  # the caller has looked
    radii = np.array([die.clr if asked is None or abs(asked - clr) <= CLR_AGREES else asked for asked in layout.clr])
    straights = straights_between(
        layout.segment_lengths, tangent_lengths(layout.angles_deg * RADIANS_PER_DEGREE, radii)
    )
    texts = [format_number(units_from_mm(straight, units), 2) for straight in straights.tolist()]
    overlap = ": bends overlap" if straights.min() < 0.0 else ""
    radius = format_length(die.clr, units)
    return f"  on '{die.id}', CLR {radius}, the straights would be {', '.join(texts)} {units}{overlap}"
