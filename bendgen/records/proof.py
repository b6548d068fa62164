"""What a proof piece looks like when the signs of a profile are right, and when they are not."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofShape:
    """The piece lies with its first bend flat, the end that went in first towards you, the bend to your left [mm].

    right, mirrored, unrotated : how far the axis at the rear end stands above the plane of the first bend
    first_angle_deg : finished angle of the first bend
    """

    right: float
    mirrored: float
    unrotated: float
    first_angle_deg: float
