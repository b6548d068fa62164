"""From wanted bends to commanded ones: springback added, vertices held, blank used by each bend."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bendgen.bending.allowances import AllowanceCurves, Allowances, allowances_at, finished_angles
from bendgen.bending.layout import Layout
from bendgen.geometry.fillets import straights_between, tangent_lengths
from bendgen.geometry.vectors import Array
from bendgen.records.tooling import DieSet
from bendgen.units import RADIANS_PER_DEGREE

HELD_UP_TO_DEG = 150.0  # above it a vertex runs away with the angle; the straights are held instead
ANGLE_NOISE_DEG = 1e-6  # an angle computed from vertices is known no better


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bends:
    """Compensated bends, before rounding; (n,) arrays unless said otherwise.

    angles_deg, rotations_deg, commanded_deg, springback_deg [deg]
    lost_motion_deg : commanded, but never wound on the die
    clr, die_clr : formed and die's centreline radius [mm]
    tangents : bend start to vertex, as far as the straights are concerned [mm]
    elongation, used : length gained, and blank length that goes into the bend [mm]
    slope : degrees commanded for each degree finished
    straights : (n + 1,) array, finished [mm]; negative where bends overlap
    held : whether the vertex is held (else the straights are)
    dies, curves : of each bend
    """

    angles_deg: Array
    rotations_deg: Array
    commanded_deg: Array
    springback_deg: Array
    lost_motion_deg: Array
    clr: Array
    die_clr: Array
    tangents: Array
    elongation: Array
    used: Array
    slope: Array
    straights: Array
    held: Array
    dies: tuple[DieSet, ...]
    curves: tuple[AllowanceCurves, ...]


def compensated_bends(layout: Layout, dies: tuple[DieSet, ...], curves: tuple[AllowanceCurves, ...]) -> Bends:
    """Bends that leave the wanted shape after release, made on those dies with those allowances."""
    at = allowances_for_bends(curves, layout.angles_deg)
    angles = layout.angles_deg * RADIANS_PER_DEGREE
    die_clr = np.array([die.clr for die in dies])
    if layout.straights is not None:
        held = np.zeros(len(dies), dtype=bool)
        tangents = np.zeros(len(dies))
        straights = layout.straights
    else:
        assert layout.segment_lengths is not None  # a layout has one of the two
        held = layout.angles_deg <= HELD_UP_TO_DEG + ANGLE_NOISE_DEG
        tangents = tangent_lengths(angles, np.where(held, at.clr, die_clr))
        straights = straights_between(layout.segment_lengths, tangents)
    return Bends(
        angles_deg=layout.angles_deg,
        rotations_deg=layout.rotations_deg,
        commanded_deg=layout.angles_deg + at.springback_deg,
        springback_deg=at.springback_deg,
        lost_motion_deg=np.zeros(len(dies)),
        clr=at.clr,
        die_clr=die_clr,
        tangents=tangents,
        elongation=at.elongation,
        used=at.clr * angles - at.elongation,
        slope=at.slope,
        straights=straights,
        held=held,
        dies=dies,
        curves=curves,
    )


def allowances_for_bends(curves: Sequence[AllowanceCurves], angles_deg: Array) -> Allowances:
    """Allowances of bends that may be made on different dies; (n,) arrays in the order of the bends."""
    if all(curve is curves[0] for curve in curves) and curves:
        return allowances_at(curves[0], angles_deg)
    single = [allowances_at(curve, angles_deg[i : i + 1]) for i, curve in enumerate(curves)]
    return Allowances(
        springback_deg=_joined([at.springback_deg for at in single]),
        clr=_joined([at.clr for at in single]),
        elongation=_joined([at.elongation for at in single]),
        slope=_joined([at.slope for at in single]),
    )


def finished_for_bends(curves: Sequence[AllowanceCurves], commanded_deg: Array) -> Array:
    """Finished angles [deg] of bends that may be made on different dies."""
    if all(curve is curves[0] for curve in curves) and curves:
        return finished_angles(curves[0], commanded_deg)
    return _joined([finished_angles(curve, commanded_deg[i : i + 1]) for i, curve in enumerate(curves)])


def _joined(single: list[Array]) -> Array:
    return np.concatenate(single) if single else np.zeros(0)
