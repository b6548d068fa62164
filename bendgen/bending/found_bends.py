"""What bends a found tube has, and the same tube from its other end."""

from dataclasses import replace

import numpy as np

from bendgen.bending.hands import reversed_centreline, reversed_steps
from bendgen.bending.layout import Layout, layout_of_centreline, layout_of_steps
from bendgen.geometry.fillets import straights_between, tangent_lengths
from bendgen.geometry.vectors import Array
from bendgen.records.found_bends import FoundBends
from bendgen.records.found_tube import FoundTube
from bendgen.records.part import Centreline
from bendgen.units import RADIANS_PER_DEGREE


def bends_of_found(found: FoundTube) -> FoundBends:
    """Bends of the tube; raises GeometryError where its vertices describe none."""
    wish = found.wish
    layout = layout_of_centreline(wish) if isinstance(wish, Centreline) else layout_of_steps(wish)
    straights = layout.straights if layout.segment_lengths is None else _straights(layout, layout.segment_lengths)
    used = set(layout.kept)
    vertices = range(len(wish.vertices)) if isinstance(wish, Centreline) else ()
    return FoundBends(
        angles_deg=tuple(layout.angles_deg.tolist()),
        rotations_deg=tuple(layout.rotations_deg.tolist()),
        clr=layout.clr,
        clr_within=_clr_within(found, layout),
        legs=None if layout.segment_lengths is None else tuple(layout.segment_lengths.tolist()),
        straights=None if straights is None else tuple(straights.tolist()),
        merged=tuple(index + 1 for index in vertices if index not in used),
        largest_clr=None if layout.segment_lengths is None else _largest_clr(layout, layout.segment_lengths),
    )


def _largest_clr(layout: Layout, legs: Array) -> float | None:
    """CLR with which the tangent lengths of all bends just fill the shortest of the legs, for what it holds."""
    taken = tangent_lengths(layout.angles_deg * RADIANS_PER_DEGREE, np.ones(len(layout.angles_deg)))
    of_leg = -straights_between(np.zeros(len(legs)), taken)
    return float(np.min(legs / of_leg)) if taken.size else None


def _clr_within(found: FoundTube, layout: Layout) -> tuple[float, ...]:
    """Half widths of the bends there are: a vertex that does not turn has one, too."""
    if not found.clr_within or not isinstance(found.wish, Centreline):
        return found.clr_within
    return tuple(found.clr_within[index - 1] for index in layout.kept[1:-1])


def _straights(layout: Layout, legs: Array) -> Array | None:
    """Straights where every CLR is known; shorter than 0 where bends overlap."""
    clr = [radius for radius in layout.clr if radius is not None]
    if len(clr) < len(layout.clr):
        return None
    return straights_between(legs, tangent_lengths(layout.angles_deg * RADIANS_PER_DEGREE, np.array(clr, dtype=float)))


def from_other_end(found: FoundTube) -> FoundTube:
    """Return the same tube with its last end as the front end."""
    wish = found.wish
    turned = reversed_centreline(wish) if isinstance(wish, Centreline) else reversed_steps(wish)
    return replace(found, wish=turned, clr_within=found.clr_within[::-1])
