"""What matters when the part is fitted: the straight left at its ends, and where the weld seam lies."""

from bendgen.records.bend_program import BendProgram, EndLeft
from bendgen.reports.blocks import Section, fields, running, section, table
from bendgen.reports.sheet.numbers import SheetNumbers

USE_WORDS = {"sized": "to be sized over another tube", "plain": "plain, for a weld"}
SEAM_MEANING = (
    "Clock positions: 0 is up, clockwise seen from the carriage. The die stands at 90 or -90: a seam there lies on the "
    "inside or the outside of the bend, at 0 or 180 where the wall keeps its length."
)


def ends_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Straight that each end needs for its use, and what is left of it; empty where the part names no use."""
    return section("Ends", fields((f"{end.end} end", _end_words(end, numbers)) for end in program.ends))


def _end_words(end: EndLeft, numbers: SheetNumbers) -> str:
    short = end.left < end.needed
    words = f"{USE_WORDS[end.kind]}: needs {numbers.length(end.needed)} of straight, {numbers.length(end.left)} is left"
    return f"{words}: TOO SHORT BY {numbers.length(end.needed - end.left)}" if short else words


def seam_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Clock position of the weld seam at loading and at every bend; empty where the part names no seam."""
    seam = program.part.tube.seam_deg
    rows = [
        [str(step.number), f"{numbers.angle(step.seam_deg)}°"] for step in program.steps if step.seam_deg is not None
    ]
    if seam is None or not rows:
        return None
    loading = f"Load the tube with its seam at {numbers.angle(seam)}°."
    return section("Weld seam", running(loading), table(["bend", "seam at"], rows, align="rr"), running(SEAM_MEANING))
