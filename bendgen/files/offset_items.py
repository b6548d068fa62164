"""A solved offset in the JSON files that leave the tool: lengths in mm, angles in degrees."""

from typing import Final, Literal

from typing_extensions import TypedDict  # as in `output_items`

from bendgen.files.output_items import FindingItem, MachineItem, TableItem, TubeItem
from bendgen.records.bend_program import BasisWord

OFFSET_FORMAT: Final = "bendgen-offset"
OFFSET_VERSION: Final = 1


class OffsetAnswerItem(TypedDict):
    """Two equal and opposite bends: finished angle, straight between, straight left at either end, run."""

    angle: float
    between: float
    front_straight: float
    rear_straight: float
    run: float


class OffsetItem(TypedDict):
    """An offset on one die set: the chosen answer, and both ends of the range that fits.

    rise_per_tenth_degree is what 0.1 degrees at both bends does to the rise. The turns are clock positions, 0 up and
    clockwise seen from the rear end along the tube, as from the carriage: where the tube leaves the axis of either end.
    """

    die: str
    rise: float
    answer: OffsetAnswerItem
    gentlest: OffsetAnswerItem
    tightest: OffsetAnswerItem
    rise_per_tenth_degree: float
    front_turns_to: float
    rear_turns_to: float


class OffsetFile(TypedDict):
    """An offset explored without a part; basis tells where the springback stands, null for a straight tube."""

    format: Literal["bendgen-offset"]
    version: Literal[1]
    tube: TubeItem
    machine: MachineItem
    tables: list[TableItem]
    basis: BasisWord | None
    offset: OffsetItem
    findings: list[FindingItem]
