"""A correction as JSON contents, key by key."""

from typing import TYPE_CHECKING

from bendgen.files.output_items import BendCorrectionItem, CauseItem, CommandsBeforeItem, CorrectionItem

if TYPE_CHECKING:
    from bendgen.records.comparison import Cause
    from bendgen.records.correction import BendCorrection, CommandsBefore, Correction


def correction_item(correction: "Correction") -> CorrectionItem:
    """Contents of a correction."""
    return {
        "replaces_id": correction.replaces_id,
        "replaces_issue": correction.replaces_issue,
        "piece": correction.piece,
        "causes": [_cause_item(cause) for cause in correction.causes],
        "bends": [_bend_item(bend) for bend in correction.bends],
        "before": [_before_item(before) for before in correction.before],
    }


def _cause_item(cause: "Cause") -> CauseItem:
    return {
        "kind": cause.kind,
        "amount": cause.amount,
        "unit": cause.unit,
        "share": cause.share,
        "step": cause.step,
        "wound": cause.wound,
    }


def _bend_item(bend: "BendCorrection") -> BendCorrectionItem:
    return {
        "springback": bend.springback_deg,
        "lost_motion": bend.lost_motion_deg,
        "elongation": bend.elongation,
        "rotation": bend.rotation_deg,
        "feed": bend.feed,
    }


def _before_item(before: "CommandsBefore") -> CommandsBeforeItem:
    return {"feed": before.feed, "rotation": before.rotation_deg, "bend": before.bend_deg}
