"""Pieces of a drawn axis: lines, arcs and other curves, which may be drawn in any order and direction."""

from dataclasses import dataclass, replace

import numpy as np

from bendgen.geometry.vectors import Array, cross, unit
from bendgen.units import MM_PER_DRAWN_UNIT, DrawnUnits

ARC_SAMPLES_A_TURN = 180  # points a full circle, where an arc is fitted together with other curves


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Arc:
    """Radius [mm], swept angle [rad], and the normal about which it is swept, a (3,) unit vector."""

    radius: float
    angle: float
    normal: Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Piece:
    """A line, an arc or another curve from its first to its last point.

    points : (k, 3) array [mm], two for a line
    into, out_of : (3,) unit vectors, directions at both ends, the way the piece runs
    arc : None for a line and for other curves
    """

    points: Array
    into: Array
    out_of: Array
    arc: Arc | None = None

    @property
    def is_line(self) -> bool:
        """Whether the piece is straight."""
        return self.arc is None and len(self.points) == 2

    def turned_round(self) -> "Piece":
        """The same piece from its other end."""
        return replace(
            self,
            points=self.points[::-1],
            into=-self.out_of,
            out_of=-self.into,
            arc=None if self.arc is None else replace(self.arc, normal=-self.arc.normal),
        )


def line(start: Array, end: Array) -> Piece:
    """Straight piece between two places that differ."""
    way = unit(end - start)
    return Piece(points=np.array([start, end]), into=way, out_of=way)


def arc(start: Array, centre: Array, normal: Array, angle: float) -> Piece:
    """Arc swept right-handed about a normal by an angle [rad], 0 < angle < 2π."""
    outward = start - centre
    radius = float(np.sqrt(outward @ outward))
    across = cross(normal, outward)
    samples = max(3, int(np.ceil(ARC_SAMPLES_A_TURN * angle / (2.0 * np.pi))) + 1)
    swept = np.linspace(0.0, angle, samples)[:, None]
    points = centre + np.cos(swept) * outward + np.sin(swept) * across
    along = across / radius
    return Piece(
        points=points,
        into=along,
        out_of=np.cos(angle) * along - np.sin(angle) * outward / radius,
        arc=Arc(radius=radius, angle=angle, normal=normal),
    )


def curve(points: Array) -> Piece:
    """Any other curve, given by points so close that it is not told from its chords; no two neighbours equal."""
    first, last = points[1] - points[0], points[-1] - points[-2]
    return Piece(points=points, into=unit(first), out_of=unit(last))


def place_text(place: Array, units: DrawnUnits) -> str:
    """Place [mm] as the drawing has it: "(10, 0, 2.5) in"."""
    x, y, z = (f"{round(coordinate / MM_PER_DRAWN_UNIT[units], 6) + 0.0:.6g}" for coordinate in place.tolist())
    return f"({x}, {y}, {z}) {units}"
