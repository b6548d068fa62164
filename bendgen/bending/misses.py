"""How misses of a machine reach the tube: what it feeds, turns, winds and lets spring back, bend by bend.

A miss is what a bend does beyond its prediction. A machine that counts on from its first step makes up for one miss
in the next straight; where it is given positions along the blank (`passed`, `carriage`), the blank that a bend uses
reaches the straight behind it as well. A rear end that is cut is measured from the last bend; one that is not cut
takes what is left of the blank.
"""

from dataclasses import dataclass, fields

import numpy as np

from bendgen.bending.blank import STAYS_ON
from bendgen.bending.check_values import Tubes, finished_tubes
from bendgen.geometry.vectors import Array
from bendgen.records.foretold import Foretold
from bendgen.records.machine import FeedForm

SMALLEST_ANGLE = 1e-5  # a bend that opens altogether is left all but straight [rad]
FED_BY_POSITION = ("passed", "carriage")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Misses:
    """Misses of n bends on m tubes, each an (m, n) array.

    angles : finished [rad]
    rotations, feeds : where the machine turns to and feeds to, as it counts them: clockwise, forward [rad, mm]
    arcs : developed length after release, which an angle that misses leaves alone [mm]
    used : blank length that goes into the bend [mm]
    """

    angles: Array
    rotations: Array
    feeds: Array
    arcs: Array
    used: Array


KINDS = tuple(field.name for field in fields(Misses))


def misses_of_array(values: Array) -> Misses:
    """Misses from an (m, 5, n) array, kinds in the order of `KINDS`."""
    return Misses(**{kind: values[:, i] for i, kind in enumerate(KINDS)})


def missed_tubes(foretold: Foretold, misses: Misses) -> Tubes:
    """The m tubes that a program makes with those misses."""
    made = finished_tubes(foretold)
    angles = np.maximum(made.angles + misses.angles, SMALLEST_ANGLE)
    arcs = made.clr * made.angles + misses.arcs
    rotations = misses.rotations
    if foretold.rotation == "absolute":
        rotations = np.diff(rotations, prepend=0.0)
    return Tubes(
        straights=made.straights + _missed_straights(foretold, misses),
        rotations=made.rotations + rotations,
        angles=angles,
        clr=arcs / angles,
        elongation=made.elongation + misses.arcs - misses.used,
    )


def _missed_straights(foretold: Foretold, misses: Misses) -> Array:
    """How far every straight misses, an (m, n + 1) array [mm]."""
    ahead = fed_ahead(misses.feeds, foretold.feed)
    if foretold.feed in FED_BY_POSITION:
        ahead[:, 1:] -= misses.used[:, :-1]
    rear = np.zeros(len(ahead))
    if foretold.blank.rear_trim <= STAYS_ON:
        rear = -ahead.sum(axis=1) - misses.used.sum(axis=1)
    return np.column_stack((ahead, rear))


def fed_ahead(feeds: Array, form: FeedForm) -> Array:
    """How far the straights before the bends miss if the machine feeds so far beyond its numbers, (..., n) arrays."""
    return feeds.copy() if form == "incremental" else np.diff(feeds, prepend=0.0)
