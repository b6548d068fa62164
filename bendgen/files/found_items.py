"""A tube read from a file of others in the JSON that leaves the tool: lengths in mm, angles in degrees."""

from typing import Final, Literal

from typing_extensions import TypedDict  # as in `output_items`

from bendgen.units import Units

TUBE_FORMAT: Final = "bendgen-tube"
TUBE_VERSION: Final = 1


class UnderstoodItem(TypedDict):
    """One thing the reader made out of the file: what about, and what."""

    subject: str
    text: str


class FoundBendItem(TypedDict):
    """A bend of it; clr is null where the die set decides, clr_within where the CLR was not fitted or nothing shows it.

    clr_within is the half width, k = 2.
    """

    angle: float
    rotation: float
    clr: float | None
    clr_within: float | None


class TubeFile(TypedDict):
    """A tube as it was understood; units are those of a part that is made of it.

    turned says that its ends were swapped. vertices are null for a tube given as steps, legs with them; straights where
    a CLR is missing. marks are numbers of vertices that do not turn. remarks are about the machine, where one is named.
    """

    format: Literal["bendgen-tube"]
    version: Literal[1]
    file: str
    kind: str
    units: Units
    name: str | None
    quantity: int
    od: float | None
    wall: float | None
    turned: bool
    front: str | None
    vertices: list[list[float]] | None
    legs: list[float] | None
    straights: list[float] | None
    bends: list[FoundBendItem]
    marks: list[int]
    understood: list[UnderstoodItem]
    ignored: list[str]
    remarks: list[str]
