"""Cautions that stand on every sheet, whatever the part."""

from bendgen.records.part import Part

NOT_CHECKED = (
    "not checked: contact with die, arm, mandrel rod, guards, people; removal of the finished part; "
    "dry run slowly first."
)

NEVER_CHECKED = "Nor checked: the tube meeting itself on its way between two steps; wrinkles; ovality."

USUAL_CAUTIONS = (
    "Dry run slowly first, without a tube and then with one, a hand on the stop.",
    "Guards closed. Nobody within the swing. Hands clear of the pinch points: clamp, pressure die, carriage, collet.",
    "Cut ends and burrs are sharp: gloves for the tube, none near anything that turns.",
    "Bend one piece, measure it against its checks, and go on only when it agrees.",
)

PERFORATED_CAUTION = (
    "Perforated tube: the edges of the holes are sharp, inside too. It may tear between holes; stand clear of the bend."
)

LICENSED_WORK = (
    "Roll protection, pressure equipment and lifting parts follow local codes and licensed practice; "
    "this sheet is no proof of their strength."
)


def cautions_of_part(part: Part) -> tuple[str, ...]:
    """Cautions for one part, the most urgent first."""
    perforated = (PERFORATED_CAUTION,) if part.tube.perforated else ()
    return (*USUAL_CAUTIONS, *perforated, LICENSED_WORK)
