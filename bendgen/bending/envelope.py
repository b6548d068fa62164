"""Room a step needs: how far the tube ahead of the die swings, hangs down and reaches."""

import numpy as np

from bendgen.bending.modelled_machine import Played
from bendgen.geometry.vectors import Array
from bendgen.records.bend_program import Swing
from bendgen.units import DEGREES_PER_RADIAN, RADIANS_PER_DEGREE


def swings(played: Played, turns_deg: Array, die_clr: Array, od: float, side: str) -> tuple[Swing, ...]:
    """Swing radius, lowest point and reach of every step, over the tube's outside; never too small.

    A ball of the tube's size goes round with each point of its axis, so a figure may be too large by up to half the
    outside diameter: on the safe side, and exact where the tube lies along the outline.

    Parameters
    ----------
    played : how the tube lay before each of n bends
    turns_deg : (n,) array, turn of the collet just before each bend, the way round it really goes
    die_clr : (n,) array [mm]; the die's axis stands that far to the side of the tangent line
    od : outside diameter of the tube [mm]
    side : "left" or "right"
    """
    x, y, z = np.moveaxis(played.before_bend, 2, 0)
    axis_y = (die_clr if side == "left" else -die_clr)[:, None]
    radius = np.sqrt(np.max(x * x + (y - axis_y) ** 2, axis=1)) + od / 2.0
    lowest = _lowest_while_turning(y, z, turns_deg[:, None]) - od / 2.0
    reach = np.max(x, axis=1) + od / 2.0
    reach[:1] -= od / 2.0  # before the first bend the front end is a flat disc across the feed
    return tuple(
        Swing(radius=float(r), lowest=float(low), reach=float(far))
        for r, low, far in zip(radius, lowest, reach, strict=True)
    )


def _lowest_while_turning(y: Array, z: Array, turns_deg: Array) -> Array:
    """Lowest z of points that arrive at (y, z) by a turn of `turns_deg` about the tube's axis."""
    distance = np.sqrt(y * y + z * z)
    end_deg = np.arctan2(z, y) * DEGREES_PER_RADIAN
    start_deg = end_deg - turns_deg
    from_deg, to_deg = np.minimum(start_deg, end_deg), np.maximum(start_deg, end_deg)
    # Straight down is -90° and every whole turn from there.
    passes_below = np.floor((to_deg + 90.0) / 360.0) > np.floor((from_deg + 90.0) / 360.0)
    start_z = distance * np.sin(start_deg * RADIANS_PER_DEGREE)
    lowest = np.where(passes_below, -distance, np.minimum(start_z, z))
    hanging: Array = np.min(lowest, axis=1)
    return hanging
