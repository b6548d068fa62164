"""The weld seam: where it lies at every bend, and the first rotation that keeps it out of harm's way."""

import cmath
from collections.abc import Sequence

from bendgen.geometry.vectors import Array
from bendgen.units import DEGREES_PER_RADIAN, RADIANS_PER_DEGREE, within_half_turn


def first_rotation(angles_deg: Array, rotations_deg: Array, seam_deg: float) -> float:
    """Rotation before the first bend that keeps the seam farthest from the inside and outside of all bends.

    The bend die stands at clock position 90 or 270, so a seam at 0 or 180 lies where the wall keeps its length. The
    sum over all bends of angle · sin²(position), which a fibre's strain squared follows, is made smallest.

    Parameters
    ----------
    angles_deg, rotations_deg : (n,) arrays; the first rotation is not looked at
    seam_deg : clock position of the seam in the loaded tube

    Returns
    -------
    float
        [deg], in (-90, 90]; 0 where every rotation is as good as any other.
    """
    turned = seam_deg
    pull = 0j
    for i, (angle, rotation) in enumerate(zip(angles_deg.tolist(), rotations_deg.tolist(), strict=True)):
        turned += rotation if i else 0.0
        pull += angle * cmath.exp(2j * turned * RADIANS_PER_DEGREE)
    if abs(pull) <= 1e-9 * float(angles_deg.sum()):
        return 0.0
    best = -0.5 * cmath.phase(pull) * DEGREES_PER_RADIAN
    return best if best > -90.0 + 1e-9 else 90.0


def seam_positions(seam_deg: float, rotations_deg: Sequence[float]) -> tuple[float, ...]:
    """Clock position of the seam at every bend [deg], in (-180, 180]."""
    positions = []
    turned = seam_deg
    for rotation in rotations_deg:
        turned += rotation
        positions.append(within_half_turn(turned))
    return tuple(positions)
