"""The same steps in neutral form, for people who check programs: well away from those the operator types."""

from bendgen.records.bend_program import BendProgram
from bendgen.reports.blocks import Section, running, section, table
from bendgen.units import format_number

DECIMALS = 3
NEUTRAL_ROTATION = "Rotations here: positive is clockwise, seen from the carriage, whatever the machine counts."
WARNING = "FOR CHECKING ONLY. DO NOT TYPE THESE INTO THE MACHINE: its own stand in the operator's part of this sheet."
MEANING = (
    "In mm and degrees; feed is the straight since the bend before, rotation positive clockwise seen from the carriage,"
    " bend as commanded, finished as it will spring back to."
)


def neutral_section(program: BendProgram) -> Section | None:
    """Neutral steps and the angle each will leave."""
    if not program.steps:
        return None
    rows = [
        [
            str(step.number),
            step.die,
            *(
                format_number(value, DECIMALS)
                for value in (step.feed, step.rotation_deg, step.bend_deg, step.finished_angle_deg)
            ),
        ]
        for step in program.steps
    ]
    headings = ["step", "die set", "feed", "rotation", "bend", "finished"]
    return section("Neutral steps", running(WARNING), table(headings, rows, align="rlrrrr"), running(MEANING))
