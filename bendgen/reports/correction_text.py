"""What follows from a measured piece: a program issued anew, or the steps that remain."""

from collections.abc import Sequence

from bendgen.records.bend_program import BendProgram
from bendgen.records.machine_cells import machine_cells
from bendgen.reports.paragraphs import paragraph
from bendgen.reports.sheet.numbers import numbers_of_machine
from bendgen.reports.text_table import text_table

WIDTH = 100


def nothing_to_correct(reasons: Sequence[str]) -> str:
    """No new issue, and what to do instead."""
    if reasons:
        return paragraph(f"not corrected: {'; '.join(reasons)}", width=WIDTH, other="  ")
    return "not corrected: nothing stands out that commands could make good"


def before_correcting(reasons: Sequence[str]) -> str:
    """What has to be put right besides."""
    return "\n".join(paragraph(f"put right besides: {reason}", width=WIDTH, other="  ") for reason in reasons)


def remaining_text(program: BendProgram, made: int, off: float) -> str:
    """Steps after the bends made, as this machine wants them; off: the whole part, at its worst [mm]."""
    numbers, output = numbers_of_machine(program.profile), program.profile.output
    rows = [machine_cells(step, program.profile) for step in program.machine_steps[made:]]
    table = text_table(list(output.headings), rows, align="l" + "r" * (len(output.headings) - 1), gap=3)
    before = program.steps[made - 1].carriage_after
    start = (
        f"{made} of {len(program.steps)} bends made; the carriage stands {numbers.length(before)} from the tangent "
        f"line. Steps that remain, as the machine counts them ({output.feed} feed, {output.rotation} rotation):"
    )
    end = (
        f"The part will be at most {numbers.length(off)} off the wanted one, laid on it as well as it goes; bends that "
        "are made stay as they are. Dry run slowly first."
    )
    return "\n".join([paragraph(start, width=WIDTH), table, paragraph(end, width=WIDTH)])
