"""What a proof piece looks like when a profile is right, and when it is not."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofLook:
    """The piece lies with its first bend flat, the end that went in first towards you, the bend to your left [mm].

    height : of the axis at the other end above the plane of the first bend; negative is below
    apart : the axis from end to end, in a straight line
    """

    height: float
    apart: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofPiece:
    """The piece as it should be and with each fault that it is to show.

    mirrored : the machine turns the other way than the profile says
    unturned : the machine leaves the rotations out
    other_form : the machine counts rotations absolutely where the profile says incrementally, or the other way round
    straights, angles_deg : finished, front first [mm, deg]
    """

    right: ProofLook
    mirrored: ProofLook
    unturned: ProofLook
    other_form: ProofLook
    straights: tuple[float, ...]
    angles_deg: tuple[float, ...]
