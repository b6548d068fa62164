"""A plan that allows for what was measured: more springback, lost motion, and feeds and rotations aimed off."""

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from bendgen.bending.allowances import AllowanceCurves
from bendgen.bending.compensation import Bends
from bendgen.bending.misses import fed_ahead
from bendgen.geometry.vectors import Array
from bendgen.records.machine import OutputForm
from bendgen.units import RADIANS_PER_DEGREE

if TYPE_CHECKING:
    from bendgen.records.correction import BendCorrection, Correction


def corrected_curves(curves: Sequence[AllowanceCurves], correction: "Correction | None") -> tuple[AllowanceCurves, ...]:
    """Curves of each bend with what it does beyond them."""
    if correction is None:
        return tuple(curves)
    return tuple(_shifted(curve, bend) for curve, bend in zip(curves, correction.bends, strict=True))


def corrected_offset_curves(curves: AllowanceCurves, correction: "Correction | None") -> AllowanceCurves:
    """Curves that both bends of an offset are solved with: those of the bend whose longer arc leaves less straight."""
    if correction is None:
        return curves
    return _shifted(curves, max(correction.bends, key=lambda bend: bend.springback_deg))


def _shifted(curves: AllowanceCurves, bend: "BendCorrection") -> AllowanceCurves:
    """Curves with more springback: the arc that is wound for the same finished angle is that much longer, too."""
    wound = bend.springback_deg * RADIANS_PER_DEGREE * curves.die_clr if curves.has_radius else 0.0
    more = np.array([bend.springback_deg, wound, bend.elongation])
    return replace(curves, values=curves.values + more, has_elongation=curves.has_elongation or bend.elongation != 0.0)


def with_lost_motion(bends: Bends, correction: "Correction | None") -> Bends:
    """Bends that are commanded further by what the arm never winds."""
    if correction is None:
        return bends
    lost = np.array([bend.lost_motion_deg for bend in correction.bends])
    return replace(bends, commanded_deg=bends.commanded_deg + lost, lost_motion_deg=lost)


def beyond_commands(correction: "Correction | None", count: int, output: OutputForm) -> tuple[Array, Array]:
    """How far feeds [mm] and rotations [deg] go beyond what is commanded, (n,) arrays in neutral form."""
    if correction is None:
        return np.zeros(count), np.zeros(count)
    feeds = np.array([bend.feed for bend in correction.bends])
    turns = np.array([bend.rotation_deg for bend in correction.bends])
    if output.rotation == "absolute":
        turns = np.diff(turns, prepend=0.0)
    return fed_ahead(feeds, output.feed), turns


def aimed_off(bends: Bends, feeds: Array, rotations_deg: Array) -> Bends:
    """Bends whose straights and rotations make up for what the machine adds."""
    straights = bends.straights.copy()
    straights[:-1] -= feeds
    return replace(bends, straights=straights, rotations_deg=bends.rotations_deg - rotations_deg)
