"""How far a check may be off where springback is only an estimate.

Analytic models missed measured springback of rotary-draw bends by 14 to 39 % on average [SciProg2021]: some 1° of a
right angle. An estimate therefore carries -0 / +1.5° (common practice, no source for the figure itself).
"""

from collections.abc import Sequence
from dataclasses import replace

from bendgen.bending.allowances import AllowanceCurves
from bendgen.bending.checks import Predicted, checks_of
from bendgen.bending.shapes import laid_on, solid_of_tube
from bendgen.records.bend_program import Check
from bendgen.records.bent_tube import BentTube

MORE_SPRINGBACK_DEG = 1.5
SMALLEST_ANGLE_DEG = 1e-3  # a bend smaller than the miss is left all but straight


def with_bands(checks: tuple[Check, ...], predicted: Predicted, curves: Sequence[AllowanceCurves]) -> tuple[Check, ...]:
    """Checks, each with the smallest and largest value if any bend is estimated.

    Parameters
    ----------
    checks : read from `predicted`
    curves : of each of its bends
    """
    estimated = [curve.estimated for curve in curves]
    if not any(estimated):
        return checks
    opened = _opened(predicted.tube, estimated)
    solid, _ = laid_on(solid_of_tube(opened), predicted.wanted)
    other = {check.id: check.predicted for check in checks_of(replace(predicted, tube=opened, solid=solid))}
    return tuple(replace(check, band=_band(check.predicted, other.get(check.id))) for check in checks)


def _band(value: float, other: float | None) -> tuple[float, float]:
    return (value, value) if other is None else (min(value, other), max(value, other))


def _opened(tube: BentTube, estimated: Sequence[bool]) -> BentTube:
    """The same tube, every estimated bend open by what the estimate may miss; the arcs keep their length."""
    bends = []
    for bend, only_estimated in zip(tube.bends, estimated, strict=True):
        angle = max(bend.angle_deg - (MORE_SPRINGBACK_DEG if only_estimated else 0.0), SMALLEST_ANGLE_DEG)
        bends.append(replace(bend, angle_deg=angle, clr=bend.clr * bend.angle_deg / angle))
    return replace(tube, bends=tuple(bends))
