"""A list of steps as read back from a file: what is played forward to see the part it would make."""

from dataclasses import dataclass
from typing import Literal

from bendgen.records.machine import FeedForm, RotationForm, RotationPositive
from bendgen.records.tube import Tube
from bendgen.units import Units


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedStep:
    """One step in neutral form: incremental feed [mm], rotation clockwise seen from the carriage [deg]; die: its id."""

    number: int
    feed: float
    rotation_deg: float
    bend_deg: float
    die: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StepList:
    """Steps and as much of their job as the file tells; lengths in mm, None: not in the file.

    angles : whether bend_deg is what the machine is told or what the finished part has
    blank, front_trim, rear_trim : length sawn, and what of it is cut off
    id : of the program the steps were written for
    """

    steps: tuple[ListedStep, ...]
    angles: Literal["commanded", "finished"] | None = None
    blank: float | None = None
    front_trim: float | None = None
    rear_trim: float | None = None
    tube: Tube | None = None
    id: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ForeignSteps:
    """Steps of somebody else's, in their own form.

    steps : numbers as the file has them [mm, deg], angles said, tube and blank not
    feed, rotation, rotation_positive : what those numbers mean
    clr : CLR of each step, where the file has a column of it [mm]
    units : a part that is made of them is written in these
    understood : subject and sentence of each thing the reader made out; ignored : what was passed over, and why
    """

    steps: StepList
    feed: FeedForm
    rotation: RotationForm
    rotation_positive: RotationPositive
    clr: tuple[float | None, ...]
    units: Units
    understood: tuple[tuple[str, str], ...]
    ignored: tuple[str, ...]
