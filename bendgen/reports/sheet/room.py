"""Room that each step needs around the machine."""

from bendgen.records.bend_program import BendProgram, Swing
from bendgen.reports.blocks import Section, running, section, table
from bendgen.reports.sheet.numbers import SheetNumbers

EXPLANATION = (
    "Swing: farthest any point ahead of the die gets from the die's own axis, in plan. Lowest: lowest point of the "
    "tube's outside, counted from the machine's axis. Reach: farthest point past the tangent line before the bend."
)


def room_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Swing radius, lowest point and reach of every step; clearance to the floor where the axis' height is known."""
    height = program.profile.carriage.centre_height
    rows = []
    for step in program.steps:
        swing = step.swing
        floor = [] if height is None else [numbers.bare(height + swing.lowest)]
        lowest = lowest_words(swing, numbers)
        rows.append([str(step.number), numbers.bare(swing.radius), lowest, numbers.bare(swing.reach), *floor])
    if not rows:
        return None
    unit = numbers.units
    headings = ["bend", f"swing [{unit}]", f"lowest [{unit}]", f"reach [{unit}]"]
    headings += [] if height is None else [f"floor clear by [{unit}]"]
    return section("Room to keep clear", table(headings, rows, align="r" * len(headings)), running(EXPLANATION))


def lowest_words(swing: Swing, numbers: SheetNumbers) -> str:
    """Lowest point of a step, on which side of the machine's axis."""
    return f"{numbers.bare(abs(swing.lowest))} {'below' if swing.lowest < 0.0 else 'above'}"
