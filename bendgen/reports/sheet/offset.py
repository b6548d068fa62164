"""The offset that was asked for: what was chosen from what fits, and how the part is turned into its place."""

from bendgen.records.bend_program import BendProgram
from bendgen.reports.blocks import Section, bullets, fields, section, table
from bendgen.reports.offset_words import RANGE_ALIGN, RANGE_HEADINGS, answer_rows, plane_sentences, range_rows
from bendgen.reports.sheet.numbers import SheetNumbers


def offset_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Answer, feasible range and clock positions; empty for a part that asked for no offset."""
    wish, solution = program.part.offset, program.offset
    if wish is None or solution is None:
        return None
    rows = range_rows(solution, numbers.length)
    return section(
        "Offset, before rounding to the machine",
        fields(answer_rows(wish, solution, numbers.length)),
        table(RANGE_HEADINGS, rows, align=RANGE_ALIGN),
        bullets(plane_sentences(wish, solution)),
    )
