"""The tube as it comes from the rack."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class Perforation:
    """Round holes in a regular pattern; lengths in mm.

    pattern : "60" for rows staggered by 60°, "square" for a square grid
    plain_front, plain_rear : length without holes at either end
    """

    hole: float
    pitch: float
    pattern: Literal["60", "square"]
    plain_front: float = 0.0
    plain_rear: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Tube:
    """Round tube; od and wall in mm, seam_deg as a clock position (0 is up, clockwise seen from the carriage)."""

    od: float
    wall: float
    material: str
    perforated: bool = False
    temper: str | None = None
    lot: str | None = None
    seam_deg: float | None = None
    perforation: Perforation | None = None
