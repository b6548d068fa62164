"""A workshop that bends trial pieces and measures them, sharing no formula with the package.

A released bend is a chain of short pieces, walked along in the plane; its apex is found where the lines of both ends
meet. How it springs back is a law of its own, over the commanded angle, and all its numbers are invented. What the
law holds back at the very start of a bend, the intercept, may be lost in four ways: evenly along the arc, half at
either leg, all at the clamp end, or as lost motion of the arm, which then winds less.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np

PIECES = 4000
Lost = Literal["even", "both legs", "clamp end", "lost motion"]


@dataclass(frozen=True, kw_only=True)
class Released:
    """A bend off the machine: finished angle [deg]; tangent lengths, arc and blank used [mm]."""

    angle_deg: float
    front_tangent: float
    rear_tangent: float
    arc: float
    used: float

    @property
    def elongation(self) -> float:
        return self.arc - self.used


@dataclass(frozen=True, kw_only=True)
class Shop:
    """A bender with one die and one tube on it.

    intercept_deg, slope, curve : springback is intercept + slope · C - curve · C² for a command of C degrees
    stretch : share of the wound arc by which the tube grows
    angle_sd_deg, length_sd : scatter of the bends and of the tape, one standard deviation
    """

    die_clr: float = 100.0
    od: float = 50.0
    intercept_deg: float = 0.7
    slope: float = 0.025
    curve: float = 2e-5
    stretch: float = 0.02
    lost: Lost = "even"
    angle_sd_deg: float = 0.0
    length_sd: float = 0.0

    def released(self, commanded_deg: float, miss_deg: float = 0.0) -> Released:
        springback = self.intercept_deg + self.slope * commanded_deg - self.curve * commanded_deg**2 + miss_deg
        finished = math.radians(commanded_deg - springback)
        held = math.radians(self.intercept_deg)
        front, rear = {
            "even": (0.0, 0.0),
            "both legs": (held / 2.0, held / 2.0),
            "clamp end": (held, 0.0),
            "lost motion": (0.0, 0.0),
        }[self.lost]
        wound = math.radians(commanded_deg) - (held if self.lost == "lost motion" else 0.0)
        arc = self.die_clr * wound
        end, heading = _walk(arc, kink=-front, turn=finished + front + rear)
        heading -= rear
        back = end[1] / math.sin(heading)  # along the rear leg to the line of the front leg
        return Released(
            angle_deg=math.degrees(heading),
            front_tangent=float(end[0] - back * math.cos(heading)),
            rear_tangent=float(back),
            arc=arc,
            used=arc / (1.0 + self.stretch),
        )

    def readings(
        self, commanded_deg: float, rng: np.random.Generator, *, feed: float = 200.0, blank: float = 900.0
    ) -> dict[str, float]:
        """One trial bend as its CSV has it; legs to the apex."""
        bend = self.released(commanded_deg, miss_deg=rng.normal(0.0, self.angle_sd_deg))
        tape = rng.normal(0.0, self.length_sd, 2)
        return {
            "commanded_deg": commanded_deg,
            "measured_deg": bend.angle_deg,
            "feed_mm": feed,
            "blank_mm": blank,
            "front_leg_mm": float(feed + bend.front_tangent + tape[0]),
            "rear_leg_mm": float(blank - feed - bend.used + bend.rear_tangent + tape[1]),
        }


def _walk(arc: float, *, kink: float, turn: float) -> tuple[tuple[float, float], float]:
    """Where a chain of that length ends, and its last heading; it starts at the origin, `kink` off the x axis."""
    headings = kink + turn * (np.arange(PIECES) + 0.5) / PIECES
    step = arc / PIECES
    return (float(step * np.cos(headings).sum()), float(step * np.sin(headings).sum())), kink + turn


def trials_csv(rows: Iterable[Mapping[str, object]], **same: object) -> str:
    """CSV of trial bends; `same` are columns that all lines share."""
    common: dict[str, object] = {
        "die": "d50-r100",
        "material": "304L",
        "wall": 1.5,
        "perforated": "no",
        "lot": "",
        **same,
    }
    lines = [{**common, **row} for row in rows]
    head = list(dict.fromkeys(key for line in lines for key in line))
    return "\n".join([",".join(head), *(",".join(str(line.get(key, "")) for key in head) for line in lines)]) + "\n"
