"""What a program foretells of its part: as much of it as its JSON file holds, and a measured part is held against."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bendgen.records.bend_program import Blank, Check
from bendgen.records.bent_tube import BentTube, Shape
from bendgen.records.machine import FeedForm, RotationForm
from bendgen.records.part import Tolerance
from bendgen.records.tube import Tube
from bendgen.units import Units

if TYPE_CHECKING:
    from bendgen.records.correction import BendCorrection


@dataclass(frozen=True, slots=True, kw_only=True)
class ForetoldStep:
    """One step: neutral commands, what the bend gains, and degrees commanded for each degree finished.

    straights_held : the straights beside the bend were asked for, not where its legs meet
    """

    number: int
    die: str
    feed: float
    rotation_deg: float
    bend_deg: float
    elongation: float
    slope: float
    straights_held: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Foretold:
    """A program without its machine and its wish.

    program_id, issue : of the sheet
    machine : name of the one it was made for
    units : in which the sheet writes lengths, those of the machine
    mirrored, from_rear : made as the opposite hand, bent from the other end
    corrections : of each bend, where the program corrects an earlier issue; else none
    feed, rotation : form in which the machine was given them
    wanted, wanted_tube : what was aimed at; predicted, finished: what the rounded commands will make, laid on it
    """

    program_id: str
    issue: int
    name: str
    number: str
    revision: str
    machine: str
    units: Units
    mirrored: bool
    from_rear: bool
    tube: Tube
    feed: FeedForm
    rotation: RotationForm
    blank: Blank
    steps: tuple[ForetoldStep, ...]
    wanted: Shape
    wanted_tube: BentTube
    predicted: Shape
    finished: BentTube
    tolerance: Tolerance
    checks: tuple[Check, ...]
    corrections: "tuple[BendCorrection, ...]" = ()
