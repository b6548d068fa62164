"""Bends of a found tube as far as they are known before a die set is."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundBends:
    """Bends of a tube with n of them, front first.

    angles_deg, rotations_deg : finished angle, and rotation from the bend before
    clr : where the file shows it [mm]
    clr_within : half width (k = 2) of a fitted CLR, infinite where nothing shows it [mm]; empty: none is fitted
    legs : n + 1 distances between neighbouring vertices [mm]; None where bends have none
    straights : n + 1 lengths between bends [mm]; None where a CLR is missing
    merged : numbers of the vertices that do not turn
    largest_clr : the largest that all bends of vertices can have [mm]; None where any would do
    """

    angles_deg: tuple[float, ...]
    rotations_deg: tuple[float, ...]
    clr: tuple[float | None, ...]
    legs: tuple[float, ...] | None
    straights: tuple[float, ...] | None
    clr_within: tuple[float, ...] = ()
    merged: tuple[int, ...] = ()
    largest_clr: float | None = None
