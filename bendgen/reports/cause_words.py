"""What explains a miss, in words."""

from typing import TYPE_CHECKING

from bendgen.units import Units, format_length, format_number

if TYPE_CHECKING:
    from bendgen.records.comparison import Cause


def cause_words(cause: "Cause", units: Units) -> str:
    """One cause, "every angle open by 0.8°: springback"; lengths in `units`."""
    size, more = _size(cause, units), cause.amount > 0.0
    lost = "springback" if cause.wound else f"wound {'less' if more else 'more'} than commanded"
    return {
        "mirror image": "mirror image: the rotation sign of the profile",
        "other end": "bent, or read, from the other end",
        "springback": f"every angle {'open' if more else 'closed'} by {size}: {lost}",
        "elongation": f"{'long' if more else 'short'} by {size}: elongation",
        "bend": f"bend {cause.step} alone: {'open' if more else 'closed'} by {size}, {lost}",
        "rotation": f"rotation before bend {cause.step} alone: {size} too far {_turn(more=more)}",
        "feed": f"feed to bend {cause.step} alone: {size} too {'long' if more else 'short'}",
        "end": f"{cause.end} end cut {size} too {'long' if more else 'short'}",
        "misread": f"a reading that can't be: {', '.join(cause.checks)} reads {size} too {'high' if more else 'low'} "
        "for what the others say",
        "exchanged": f"two readings have changed places: {' and '.join(cause.checks)}",
    }[cause.kind]


def rival_words(cause: "Cause", units: Units) -> str:
    """What explains the same as well; empty where nothing does."""
    if not cause.rivals:
        return ""
    others = "; or ".join(cause_words(rival, units) for rival in cause.rivals)
    return f"or {others} (nothing that was read tells them apart)"


def _turn(*, more: bool) -> str:
    return "clockwise, seen from the carriage" if more else "counterclockwise, seen from the carriage"


def _size(cause: "Cause", units: Units) -> str:
    if cause.unit == "deg":
        return f"{format_number(abs(cause.amount), 2)}°"
    return format_length(abs(cause.amount), units)
