"""From the causes of a miss to commands that allow for them.

A bend that opened is given more springback than its table has, by what had to be commanded for that much of an angle;
so a part planned with its correction is predicted as right, and every limit holds for what will really be commanded.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from bendgen.bending.allowances import AllowanceCurves
from bendgen.bending.compensation import Bends
from bendgen.bending.misses import fed_ahead
from bendgen.geometry.vectors import Array
from bendgen.records.comparison import Cause, CauseKind, Comparison
from bendgen.records.correction import BendCorrection, CommandsBefore, Correction
from bendgen.records.foretold import Foretold
from bendgen.records.machine import OutputForm
from bendgen.units import RADIANS_PER_DEGREE

NOT_BY_COMMANDS: dict[CauseKind, str] = {
    "mirror image": "the profile counts rotation the wrong way: correct rotation_positive of [output], program anew",
    "other end": "the piece was bent or read from its other end: bend or measure it the right way round",
    "end": "an end was cut in the wrong place: the commands are right",
    "misread": "a reading can't be: measure again",
    "exchanged": "two readings have changed places: the commands are right",
}


def correction_of(foretold: Foretold, comparison: Comparison) -> Correction:
    """Correction by the causes that commands can make good, on top of what the program allowed for already."""
    bends = list(foretold.corrections or (BendCorrection() for _ in foretold.steps))
    for cause in comparison.causes:
        bends = [_with_cause(bend, cause, foretold, i) for i, bend in enumerate(bends)]
    return Correction(
        replaces_id=foretold.program_id,
        replaces_issue=foretold.issue,
        piece=comparison.piece,
        causes=tuple(cause for cause in comparison.causes if cause.kind not in NOT_BY_COMMANDS),
        bends=tuple(bends),
        before=tuple(
            CommandsBefore(feed=step.feed, rotation_deg=step.rotation_deg, bend_deg=step.bend_deg)
            for step in foretold.steps
        ),
    )


def correction_so_far(foretold: Foretold) -> Correction | None:
    """What the program already allows for; None for one that corrects nothing."""
    if not foretold.corrections:
        return None
    return Correction(replaces_id="", replaces_issue=0, piece="", causes=(), bends=foretold.corrections, before=())


def not_by_commands(comparison: Comparison) -> tuple[str, ...]:
    """What has to be put right before or instead of a correction."""
    return tuple(NOT_BY_COMMANDS[cause.kind] for cause in comparison.causes if cause.kind in NOT_BY_COMMANDS)


def _with_cause(bend: BendCorrection, cause: Cause, foretold: Foretold, i: int) -> BendCorrection:
    """Correction of bend i with one more cause."""
    concerned = cause.step in (None, i + 1)
    if cause.kind in ("springback", "bend") and concerned:
        more = cause.amount * foretold.steps[i].slope
        if cause.wound:
            return replace(bend, springback_deg=bend.springback_deg + more)
        return replace(bend, lost_motion_deg=bend.lost_motion_deg + more)
    if cause.kind == "elongation":
        arcs = [finished.clr * finished.angle_deg for finished in foretold.finished.bends]
        return replace(bend, elongation=bend.elongation + cause.amount * arcs[i] / sum(arcs))
    if cause.kind == "rotation" and concerned:
        return replace(bend, rotation_deg=bend.rotation_deg + cause.amount)
    if cause.kind == "feed" and concerned:
        return replace(bend, feed=bend.feed + cause.amount)
    return bend


def corrected_curves(curves: Sequence[AllowanceCurves], correction: Correction | None) -> tuple[AllowanceCurves, ...]:
    """Curves of each bend with what it does beyond them."""
    if correction is None:
        return tuple(curves)
    return tuple(_shifted(curve, bend) for curve, bend in zip(curves, correction.bends, strict=True))


def corrected_offset_curves(curves: AllowanceCurves, correction: Correction | None) -> AllowanceCurves:
    """Curves that both bends of an offset are solved with: those of the bend whose longer arc leaves less straight."""
    if correction is None:
        return curves
    return _shifted(curves, max(correction.bends, key=lambda bend: bend.springback_deg))


def _shifted(curves: AllowanceCurves, bend: BendCorrection) -> AllowanceCurves:
    """Curves with more springback: the arc that is wound for the same finished angle is that much longer, too."""
    wound = bend.springback_deg * RADIANS_PER_DEGREE * curves.die_clr if curves.has_radius else 0.0
    more = np.array([bend.springback_deg, wound, bend.elongation])
    return replace(curves, values=curves.values + more, has_elongation=curves.has_elongation or bend.elongation != 0.0)


def with_lost_motion(bends: Bends, correction: Correction | None) -> Bends:
    """Bends that are commanded further by what the arm never winds."""
    if correction is None:
        return bends
    lost = np.array([bend.lost_motion_deg for bend in correction.bends])
    return replace(bends, commanded_deg=bends.commanded_deg + lost, lost_motion_deg=lost)


def beyond_commands(correction: Correction | None, count: int, output: OutputForm) -> tuple[Array, Array]:
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
