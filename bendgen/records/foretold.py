"""What a program foretells of its part: as much of it as its JSON file holds, and a measured part is held against."""

from dataclasses import dataclass

from bendgen.records.bend_program import BendStep, Blank, Check
from bendgen.records.bent_tube import BentTube, Shape
from bendgen.records.machine import FeedForm, RotationForm
from bendgen.units import Units


@dataclass(frozen=True, slots=True, kw_only=True)
class Foretold:
    """A program without its machine and its wish.

    program_id, issue : of the sheet
    units : in which the shop reads lengths
    tube_od : [mm]
    feed, rotation : form in which the machine was given them
    wanted, wanted_tube : what was aimed at; predicted, finished: what the rounded commands will make, laid on it
    """

    program_id: str
    issue: int
    name: str
    number: str
    revision: str
    units: Units
    tube_od: float
    feed: FeedForm
    rotation: RotationForm
    blank: Blank
    steps: tuple[BendStep, ...]
    wanted: Shape
    wanted_tube: BentTube
    predicted: Shape
    finished: BentTube
    checks: tuple[Check, ...]
