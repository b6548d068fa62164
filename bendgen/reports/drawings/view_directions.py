"""From which sides a part is best seen."""

import math
from dataclasses import dataclass

import numpy as np

from bendgen.geometry.vectors import Array, cross, lengths, unit
from bendgen.reports.drawings.axes import Axis

ELEVATION = math.radians(32.0)
AZIMUTHS = tuple(math.radians(angle) for angle in (30.0, -30.0, 55.0, -55.0, 15.0, -15.0))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Directions:
    """What points right and up on paper: (3,) arrays, unit vectors in space."""

    right: Array
    up: Array

    def towards_reader(self) -> Array:
        """What points out of the paper."""
        out: Array = np.cross(self.right, self.up)
        return out

    def words(self) -> str:
        """For directions along the axes of the part's file: which goes where."""
        return f"{_axis_words(self.right, 'right', 'left')}, {_axis_words(self.up, 'up', 'down')}"


def true_directions(axis: Axis) -> tuple[Directions, Directions]:
    """The view that shows the two longest sides of the part's box, and the one from above it."""
    order = np.argsort(-np.round(axis.high - axis.low, 3), kind="stable")
    unit = np.eye(3)
    front = Directions(right=unit[order[0]], up=unit[order[1]])
    return front, Directions(right=front.right, up=-front.towards_reader())


def oblique_directions(axis: Axis, front: Directions) -> Directions:
    """The direction, from above and one side, in which the straight that looks shortest for its length is longest."""
    candidates = [_from_side(front, azimuth) for azimuth in AZIMUTHS]
    return max(candidates, key=lambda seen: float(np.round(_least_shortened(axis.directions, seen), 6)))


def _from_side(front: Directions, azimuth: float) -> Directions:
    sideways = math.cos(azimuth) * front.towards_reader() + math.sin(azimuth) * front.right
    towards = math.cos(ELEVATION) * sideways + math.sin(ELEVATION) * front.up
    right = unit(cross(front.up, towards))
    return Directions(right=right, up=cross(towards, right))


def _least_shortened(directions: Array, seen: Directions) -> Array:
    """Length on paper of the unit vector that comes out shortest."""
    flat = np.stack((directions @ seen.right, directions @ seen.up, np.zeros(len(directions))), axis=1)
    shortest: Array = lengths(flat).min()
    return shortest


def _axis_words(direction: Array, along: str, against: str) -> str:
    place = int(np.argmax(np.abs(direction)))
    return f"{'xyz'[place]} {along if direction[place] > 0.0 else against}"
