"""A tube as a file from elsewhere shows it, before anybody says what it is for."""

from dataclasses import dataclass
from typing import Literal

from bendgen.records.machine import FeedForm, RotationForm, RotationPositive
from bendgen.records.part import Centreline, WantedSteps
from bendgen.units import DrawnUnits, Units


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """What a file may leave open, as somebody has answered it; None: not answered. Each is an option of that name.

    units : of lengths that name none
    overrule_units : a drawing names another unit, and that one is wrong
    decimal : mark in numbers where the file's own could mean either
    columns : what each column holds, for a file whose head row does not say it
    points : whether points are vertices, or lie along the axis of the tube
    layer : which layer of a drawing, by its name
    solid : which solid of the file, by its number or name; several that meet, 1+2
    clr : of the bends that take the place of mitres [mm]
    within : how far points along an axis may lie off its straights and arcs [mm]
    leave_clr : leave the CLR to the die set, whatever the file shows
    feed, rotation, rotation_positive : what the numbers of a step list mean
    angles : what those of its bends mean; of legs, whether up and back are two views or two turns
    """

    units: DrawnUnits | None = None
    overrule_units: bool = False
    decimal: Literal["point", "comma"] | None = None
    columns: str | None = None
    points: Literal["vertices", "axis"] | None = None
    layer: str | None = None
    solid: str | None = None
    clr: float | None = None
    within: float | None = None
    leave_clr: bool = False
    feed: FeedForm | None = None
    rotation: RotationForm | None = None
    rotation_positive: RotationPositive | None = None
    angles: Literal["commanded", "finished", "views", "turns"] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundAxis:
    """A tube's axis in points or a drawing, front first; keys as those of a found tube."""

    wish: Centreline | WantedSteps
    understood: tuple[tuple[str, str], ...] = ()
    clr_within: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundTube:
    """A tube's axis, the end that comes first in the file being the front end, and how it was understood.

    kind : what the file was taken for
    units : a part that is made of it is written in these
    wish : the axis, as a part asks for it [mm, deg]
    clr_within : half width (k = 2) of every bend's fitted CLR [mm], infinite where nothing shows it; empty: the CLR are
        as the file says them
    od, wall : where the file shows them [mm]
    name, quantity : what the file calls the tube, and how often it holds it
    front : how the front end was chosen; empty: it is the one that comes first in the file
    understood : subject and sentence of each thing the reader made out: ("unit", "mm, from the head row")
    ignored : what was passed over, and why
    """

    kind: str
    units: Units
    wish: Centreline | WantedSteps
    clr_within: tuple[float, ...] = ()
    od: float | None = None
    wall: float | None = None
    name: str = ""
    quantity: int = 1
    front: str = ""
    understood: tuple[tuple[str, str], ...] = ()
    ignored: tuple[str, ...] = ()
