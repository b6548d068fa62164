"""Many pieces of one program, check by check."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class Capability:
    """How a process fits a tolerance; each with the bounds that a sample of its size leaves, 95 % [-].

    cp : tolerance over what the process spreads; cpk: the same on the side where it lies nearer to its limit
    """

    cp: float
    cp_bounds: tuple[float, float]
    cpk: float
    cpk_bounds: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckSeries:
    """Deviations of one check from what was wanted, in the order in which the pieces were made [mm, deg].

    pieces : their names; deviations: of each
    mean, spread : spread is the standard deviation, None for a single piece
    mean_bounds : 95 % bounds of the mean
    capability : None with too few pieces, or where they do not differ
    drift : from one piece to the next; drift_shown: whether it is more than chance
    """

    check: str
    unit: Literal["mm", "deg"]
    tolerance: float
    pieces: tuple[str, ...]
    deviations: tuple[float, ...]
    mean: float
    spread: float | None
    mean_bounds: tuple[float, float] | None
    capability: Capability | None
    drift: float | None
    drift_shown: bool
