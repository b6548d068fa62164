"""From the causes of a miss to commands that allow for them.

A bend that opened is given more springback than its table has, by what had to be commanded for that much of an angle;
so a part planned with its correction is predicted as right, and every limit holds for what will really be commanded.
"""

from dataclasses import replace

from bendgen.records.cause_kind import CauseKind
from bendgen.records.comparison import Cause, Comparison
from bendgen.records.correction import BendCorrection, CommandsBefore, Correction
from bendgen.records.foretold import Foretold

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
