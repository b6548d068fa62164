"""From a solved offset to its JSON contents."""

from typing import TYPE_CHECKING

from bendgen.files.offset_items import OffsetAnswerItem, OffsetItem

if TYPE_CHECKING:
    from bendgen.records.offset import OffsetAnswer, OffsetSolution


def offset_item(solution: "OffsetSolution") -> OffsetItem:
    """Contents of a solution."""
    return {
        "die": solution.die,
        "rise": solution.rise,
        "answer": _answer_item(solution.answer),
        "gentlest": _answer_item(solution.gentlest),
        "tightest": _answer_item(solution.tightest),
        "rise_per_tenth_degree": solution.rise_per_tenth_degree,
        "front_turns_to": solution.front_turns_to_deg,
        "rear_turns_to": solution.rear_turns_to_deg,
    }


def _answer_item(answer: "OffsetAnswer") -> OffsetAnswerItem:
    return {
        "angle": answer.angle_deg,
        "between": answer.between,
        "front_straight": answer.front_straight,
        "rear_straight": answer.rear_straight,
        "run": answer.run,
    }
