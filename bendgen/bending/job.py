"""One part on one machine while it is planned: everything the limits are held against."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bendgen.bending.blank import BlankPlan
from bendgen.bending.commands import Commands, Positions
from bendgen.bending.compensation import Bends
from bendgen.bending.layout import Layout
from bendgen.bending.modelled_machine import Played
from bendgen.geometry.vectors import Array
from bendgen.records.allowances import AllowanceTable
from bendgen.records.bend_program import Swing
from bendgen.records.findings import Finding, Level
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part
from bendgen.units import Units, format_length

if TYPE_CHECKING:
    from bendgen.records.offset import OffsetSolution

SPARE = 1e-6  # a value this little short of its limit [mm, deg] is rounding, not a broken rule


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Made:
    """Feeds [mm] and rotations [deg] as the machine really makes them, (n,) arrays: commanded, and what it adds.

    rear : straight behind the last bend, once cut [mm]
    """

    feeds: Array
    rotations_deg: Array
    rear: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Job:
    """A part laid out on a machine, before rounding.

    tables : of each bend, None where material data serve instead
    positions : exact, not yet those of the rounded commands
    made : what the machine makes of the rounded commands
    played, swings : of the rounded commands, as the machine will really move
    offset : the solved offset that the layout comes from, where the part asks for one
    """

    part: Part
    profile: MachineProfile
    layout: Layout
    bends: Bends
    tables: tuple[AllowanceTable | None, ...]
    blank: BlankPlan
    positions: Positions
    commands: Commands
    made: Made
    played: Played
    swings: tuple[Swing, ...]
    offset: "OffsetSolution | None" = None

    @property
    def units(self) -> Units:
        """Unit in which the shop reads lengths: that of the part's file."""
        return self.part.units

    def length(self, length: float) -> str:
        """Length [mm] as text in the shop's unit."""
        return format_length(length, self.units)


def limit_in_mm(rule: str, step: int | None, value: float, limit: float, text: str) -> Finding:
    """Broken rule about a length."""
    return Finding(rule=rule, level="limit", step=step, value=float(value), limit=float(limit), unit="mm", text=text)


def limit_in_deg(rule: str, step: int | None, value: float, limit: float, text: str) -> Finding:
    """Broken rule about an angle."""
    return Finding(rule=rule, level="limit", step=step, value=float(value), limit=float(limit), unit="deg", text=text)


def remark(rule: str, level: Level, step: int | None, text: str) -> Finding:
    """Finding without a number to hold against a limit."""
    return Finding(rule=rule, level=level, step=step, value=None, limit=None, unit="", text=text)
