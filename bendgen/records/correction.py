"""What a measured piece taught about a program: what each bend does beyond its table, and why that is believed."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bendgen.records.comparison import Cause


@dataclass(frozen=True, slots=True, kw_only=True)
class BendCorrection:
    """What one bend does beyond what table and machine promise; commands allow for it from now on.

    springback_deg : more springback than the table's at this angle [deg]
    lost_motion_deg : commanded, but never wound on the die [deg]
    elongation : more length gained [mm]
    rotation_deg, feed : how far the machine turns and feeds beyond what it is told, clockwise and forward [deg, mm]
    """

    springback_deg: float = 0.0
    lost_motion_deg: float = 0.0
    elongation: float = 0.0
    rotation_deg: float = 0.0
    feed: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CommandsBefore:
    """Commands of one step as the corrected issue gave them, in neutral form [mm, deg]."""

    feed: float
    rotation_deg: float
    bend_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """A program issued anew because of a measured piece.

    replaces_id, replaces_issue : the sheet to destroy
    piece : that was measured; causes: what its miss came from
    bends : of each bend; before: the commands that it was made with
    """

    replaces_id: str
    replaces_issue: int
    piece: str
    causes: "tuple[Cause, ...]"
    bends: tuple[BendCorrection, ...]
    before: tuple[CommandsBefore, ...]
