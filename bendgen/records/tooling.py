"""Die sets: what a programmer adds to a profile, one file each."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ContourClamp:
    """A clamp cut to hold on the bend before: it fits only the bend it was cut for.

    shortest_between : straight it needs between the two bends [mm]
    before_angle_deg : smallest and largest commanded angle of the bend before [deg]
    rotation_deg : rotations it fits [deg]
    """

    shortest_between: float
    before_angle_deg: tuple[float, float]
    rotation_deg: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DieSet:
    """Bend die, clamp, pressure die and mandrel for one CLR and one tube OD; lengths in mm, None: not checked.

    clr : centreline radius of the die
    clamp : straight the clamp die holds ahead of a bend
    largest_bend_deg, smallest_bend_deg : limits of the commanded bend [deg]
    pressure_die : carriage position the pressure die needs before a bend
    pressure_travel : longest arc, wound on the die, that the pressure die can follow
    mandrel_ahead : straight ahead of a bend that the mandrel needs
    walls : smallest and largest wall the mandrel takes
    stack : dies of one stack change without a stop
    sleeve : from the tangent line back, towards the carriage, to the edge of the die that an operator can see; a mark
        is hidden for that much of its way, and lies on the tangent line when its bend starts
    set_up : free text for the sheet
    """

    id: str
    tube_od: float
    clr: float
    clamp: float
    largest_bend_deg: float
    smallest_bend_deg: float | None = None
    pressure_die: float | None = None
    pressure_travel: float | None = None
    mandrel_ahead: float | None = None
    walls: tuple[float, float] | None = None
    stack: str | None = None
    sleeve: float | None = None
    set_up: str | None = None
    contour: ContourClamp | None = None

    def shares_stack(self, other: "DieSet") -> bool:
        """Whether the machine changes from the one to the other without a stop."""
        return self.stack is not None and self.stack == other.stack
