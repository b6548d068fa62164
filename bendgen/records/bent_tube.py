"""A bent tube as alternating straights and bends, and its shape in space."""

from dataclasses import dataclass

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bend:
    """One finished bend: angle and rotation from the bend before [deg], formed CLR [mm]."""

    angle_deg: float
    rotation_deg: float
    clr: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BentTube:
    """Straights [mm], front first, one more than bends."""

    straights: tuple[float, ...]
    bends: tuple[Bend, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """The axis in space [mm]: `points` are both ends and every tangent point; vertices is None with a bend of 180°."""

    points: tuple[Point, ...]
    vertices: tuple[Point, ...] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A place the part asks to be marked: on which straight (from 1), how far along the finished axis [mm]."""

    straight: int
    from_front: float
