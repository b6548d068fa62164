"""A bender that shares nothing with the planner, so that playing a program on it is proof.

The tube lies still and the machine travels along it: a feed of the tube is a step of the machine towards the rear, a
rotation of the tube is the opposite turn of the machine about the tube, a bend is the machine going round the die.
Orientations are quaternions. The blank is a ruler: each bend takes a piece of it, which release leaves as an arc.

How a bend springs back is a law of its own, a straight line solved in closed form. Its numbers are invented.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Quaternion = tuple[float, float, float, float]


@dataclass(frozen=True, kw_only=True)
class SpringLaw:
    """What a released bend is like, for a finished angle of t degrees.

    lost, lost_per_degree : springback is lost + lost_per_degree · t [deg]
    arc, arc_per_degree : developed length is arc + arc_per_degree · t [mm]; None: the wound arc keeps its length
    gained, gained_per_degree : elongation is gained + gained_per_degree · t [mm]
    """

    die_clr: float
    lost: float = 0.0
    lost_per_degree: float = 0.0
    arc: float | None = None
    arc_per_degree: float = 0.0
    gained: float = 0.0
    gained_per_degree: float = 0.0

    def released(self, commanded_deg: float) -> tuple[float, float, float]:
        """Finished angle [deg], developed length and blank used [mm] of a bend commanded so far."""
        finished = (commanded_deg - self.lost) / (1.0 + self.lost_per_degree)
        wound = self.die_clr * math.radians(commanded_deg)
        developed = wound if self.arc is None else self.arc + self.arc_per_degree * finished
        return finished, developed, developed - self.gained - self.gained_per_degree * finished


@dataclass(frozen=True, kw_only=True)
class Keyed:
    """One line of a machine's table, as its operator keys it in."""

    die: str
    feed: float
    rotation: float
    bend: float


@dataclass(kw_only=True)
class Made:
    """A tube in its own frame: ends and tangent points front first, straights' directions, what the machine saw."""

    points: list[Array]
    directions: list[Array]
    finished_deg: list[float] = field(default_factory=list)
    passed: list[float] = field(default_factory=list)
    carriage: list[float] = field(default_factory=list)

    def vertices(self) -> Array:
        """Ends, and where neighbouring straights meet: two lines solved for their common point."""
        met = [
            _meeting(self.points[2 * i + 1], self.directions[i], self.points[2 * i + 2], self.directions[i + 1])
            for i in range(len(self.directions) - 1)
        ]
        return np.array([self.points[0], *met, self.points[-1]])

    def straights(self) -> list[float]:
        """Lengths between bends, front first [mm]."""
        ends = zip(self.points[::2], self.points[1::2], strict=True)
        return [float(np.linalg.norm(after - before)) for before, after in ends]


@dataclass(frozen=True, kw_only=True)
class IndependentBender:
    """side, feed, rotation, clockwise: as the profile names them; grip [mm]; mm: of one unit of the machine's table."""

    side: str
    feed: str
    rotation: str
    clockwise: bool
    grip: float
    laws: Mapping[str, SpringLaw]
    mm: float = 1.0

    def make(self, table: Sequence[Keyed], blank: float) -> Made:
        """Bend a blank and leave it uncut."""
        here: Array = np.zeros(3)  # tangent line, in the frame of the tube's front
        facing: Quaternion = (1.0, 0.0, 0.0, 0.0)
        made = Made(points=[here], directions=[_turned(facing, (-1.0, 0.0, 0.0))])
        used_up = summed = collet = 0.0
        for line in table:
            ahead, summed = self._blank_ahead(line.feed * self.mm, used_up, summed, blank)
            turn = self._turn(line.rotation, collet)
            collet += turn
            here = here + (ahead - used_up) * _turned(facing, (-1.0, 0.0, 0.0))
            facing = _times(facing, _about((1.0, 0.0, 0.0), -turn))
            made.points.append(here)
            made.passed.append(ahead)
            made.carriage.append(blank - self.grip - ahead)
            finished, developed, used = self.laws[line.die].released(line.bend)
            here, facing = self._round_the_die(here, facing, finished, developed)
            made.points.append(here)
            made.directions.append(_turned(facing, (-1.0, 0.0, 0.0)))
            made.finished_deg.append(finished)
            used_up = ahead + used
        made.points.append(here + (blank - used_up) * made.directions[-1])
        return made

    def _blank_ahead(self, keyed: float, used_up: float, summed: float, blank: float) -> tuple[float, float]:
        """Blank past the tangent line once the feed is done, and the sum of feeds by then."""
        if self.feed == "incremental":
            return used_up + keyed, summed + keyed
        if self.feed == "summed":
            return used_up + keyed - summed, keyed
        return (keyed if self.feed == "passed" else blank - self.grip - keyed), summed

    def _turn(self, keyed: float, collet: float) -> float:
        """Turn of the tube, clockwise seen from the carriage [deg]."""
        clockwise = keyed if self.clockwise else -keyed
        return clockwise - collet if self.rotation == "absolute" else clockwise

    def _round_the_die(
        self, here: Array, facing: Quaternion, finished_deg: float, developed: float
    ) -> tuple[Array, Quaternion]:
        """Machine after it has gone round the die's axis, in as many short chords as the arc has pieces of 10°."""
        to_die = 1.0 if self.side == "left" else -1.0
        pieces = max(1, math.ceil(finished_deg / 10.0))
        piece, arc = finished_deg / pieces, developed / pieces
        half = math.radians(piece) / 2.0
        chord = arc * (math.sin(half) / half)
        for _ in range(pieces):
            facing = _times(facing, _about((0.0, 0.0, 1.0), -to_die * piece / 2.0))
            here = here + chord * _turned(facing, (-1.0, 0.0, 0.0))
            facing = _times(facing, _about((0.0, 0.0, 1.0), -to_die * piece / 2.0))
        return here, facing


def cut(made: Made, *, front: float, rear_after_last_bend: float | None) -> Made:
    """Saw a tube: so much off the front end, and at the rear so far behind the last bend; None: no cut there."""
    points = list(made.points)
    points[0] = points[0] + front * made.directions[0]
    if rear_after_last_bend is not None:
        points[-1] = points[-2] + rear_after_last_bend * made.directions[-1]
    return Made(points=points, directions=made.directions, finished_deg=made.finished_deg)


def seen_from_front(points: Array) -> Array:
    """Points in the frame of the first leg: its end at the origin, +X along it, the first point off it towards +Y.

    It is a frame for every shape that is not straight, and never a mirror.
    """
    moved = points - points[0]
    x = moved[1] / np.linalg.norm(moved[1])
    off = moved - np.outer(moved @ x, x)
    sizes = np.linalg.norm(off, axis=1)
    if sizes.max() < 1e-9:
        return np.column_stack((moved @ x, np.zeros((len(points), 2))))
    y = off[int(np.argmax(sizes > 1e-6 * sizes.max()))]
    y = y / np.linalg.norm(y)
    framed: Array = moved @ np.column_stack((x, y, np.cross(x, y)))
    return framed


def _meeting(a: Array, along_a: Array, b: Array, along_b: Array) -> Array:
    """Point nearest to two lines."""
    solution = np.linalg.lstsq(np.column_stack((along_a, -along_b)), b - a, rcond=None)[0]
    meeting: Array = (a + solution[0] * along_a + b + solution[1] * along_b) / 2.0
    return meeting


def _about(axis: tuple[float, float, float], angle_deg: float) -> Quaternion:
    half = math.radians(angle_deg) / 2.0
    x, y, z = (math.sin(half) * component for component in axis)
    return math.cos(half), x, y, z


def _times(p: Quaternion, q: Quaternion) -> Quaternion:
    """Hamilton product."""
    a, b, c, d = p
    e, f, g, h = q
    return (
        a * e - b * f - c * g - d * h,
        a * f + b * e + c * h - d * g,
        a * g - b * h + c * e + d * f,
        a * h + b * g - c * f + d * e,
    )


def _turned(q: Quaternion, vector: tuple[float, float, float]) -> Array:
    a, b, c, d = q
    _, x, y, z = _times(_times(q, (0.0, *vector)), (a, -b, -c, -d))
    return np.array([x, y, z])
