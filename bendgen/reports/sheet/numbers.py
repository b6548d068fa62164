"""How one sheet writes its numbers: the machine's unit, and as many decimals as shop and machine can tell apart."""

import math
from dataclasses import dataclass

from bendgen.records.machine import MachineProfile
from bendgen.records.machine_cells import decimals_from_resolution
from bendgen.units import Units, format_inch_fraction, format_number, mm_from_units, units_from_mm

FEWEST_DECIMALS: dict[Units, int] = {"mm": 1, "in": 3}
WALL_DECIMALS: dict[Units, int] = {"mm": 2, "in": 4}
ANGLE_DECIMALS = (1, 2)  # fewest, most


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetNumbers:
    """Unit of all lengths on the operator's sheet, and decimals of lengths and angles."""

    units: Units
    length_decimals: int
    angle_decimals: int

    def bare(self, length: float) -> str:
        """Length [mm] in the sheet's unit, for a table whose head names it."""
        return format_number(units_from_mm(length, self.units), self.length_decimals)

    def finer(self, length: float) -> str:
        """Length [mm] with one decimal more."""
        return format_number(units_from_mm(length, self.units), self.length_decimals + 1)

    def length(self, length: float) -> str:
        """Length [mm] in the sheet's unit, with it."""
        return f"{self.bare(length)} {self.units}"

    def wall(self, wall: float) -> str:
        """Wall or hole [mm], finer than other lengths: walls differ by tenths."""
        return f"{format_number(units_from_mm(wall, self.units), WALL_DECIMALS[self.units])} {self.units}"

    def wall_needed(self, wall: float) -> str:
        """Smallest wall [mm] that will do, rounded up: what is printed must not be less than what is needed."""
        finest = 10.0 ** -WALL_DECIMALS[self.units]
        return self.wall(mm_from_units(math.ceil(units_from_mm(wall, self.units) / finest - 1e-6) * finest, self.units))

    def tape(self, length: float) -> str:
        """Length [mm] for a person with a tape: in an inch shop with the nearest fraction behind it."""
        return f"{self.length(length)} ({format_inch_fraction(length)})" if self.units == "in" else self.length(length)

    def tape_cells(self, length: float) -> list[str]:
        """The same as cells of a table: one, in an inch shop two."""
        return [self.length(length), *([format_inch_fraction(length)] if self.units == "in" else [])]

    def finer_angle(self, angle_deg: float) -> str:
        """Angle [deg] with one decimal more."""
        return format_number(angle_deg, self.angle_decimals + 1)

    def angle(self, angle_deg: float) -> str:
        """Angle [deg], for a table whose head names the unit."""
        return format_number(angle_deg, self.angle_decimals)


def numbers_of_machine(profile: MachineProfile) -> SheetNumbers:
    """Decimals that the machine's resolution is worth: at least 0.1 mm or 0.001 in, at most one place finer."""
    units = profile.output.units
    feed = decimals_from_resolution(units_from_mm(profile.feed.resolution, units))
    bend = decimals_from_resolution(profile.bend.resolution_deg)
    fewest, most = ANGLE_DECIMALS
    return SheetNumbers(
        units=units,
        length_decimals=min(max(feed, FEWEST_DECIMALS[units]), FEWEST_DECIMALS[units] + 1),
        angle_decimals=min(max(bend, fewest), most),
    )
