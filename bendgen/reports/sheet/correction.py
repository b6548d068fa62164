"""Why a program was issued anew, which sheet to destroy, and what changed."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from bendgen.records.bend_program import BendProgram, BendStep
from bendgen.reports.blocks import Section, bullets, running, section, table
from bendgen.reports.cause_words import cause_words
from bendgen.reports.sheet.numbers import SheetNumbers
from bendgen.units import format_number, shorter_way, units_from_mm

if TYPE_CHECKING:
    from bendgen.records.correction import CommandsBefore, Correction

SIGN_NOTE = "Changes of the neutral commands: feed forward, rotation clockwise seen from the carriage."


def destroy_words(correction: "Correction") -> str:
    """The sheet that must not be used any more."""
    return f"DESTROY ISSUE {correction.replaces_issue}, SHEET ID {correction.replaces_id}: this one replaces it"


def correction_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Which sheet to destroy, why, and by how much every command changed; None for a first issue."""
    correction = program.part.correction
    if correction is None:
        return None
    causes = [cause_words(cause, numbers.units) for cause in correction.causes]
    headings = ["step", f"feed {numbers.units}", "rotation °", "bend °"]
    rows = [
        [str(step.number), *_changes(before, step, numbers)]
        for before, step in zip(correction.before, program.steps, strict=True)
    ]
    return section(
        f"Corrected after piece {correction.piece}",
        running(destroy_words(correction) + "."),
        bullets(causes),
        table(headings, rows, align="rrrr"),
        running(SIGN_NOTE),
    )


def _changes(before: "CommandsBefore", step: BendStep, numbers: SheetNumbers) -> Iterator[str]:
    yield _signed(units_from_mm(step.feed - before.feed, numbers.units), numbers.length_decimals)
    yield _signed(shorter_way(step.rotation_deg - before.rotation_deg), numbers.angle_decimals)
    yield _signed(step.bend_deg - before.bend_deg, numbers.angle_decimals)


def _signed(value: float, decimals: int) -> str:
    text = format_number(value, decimals)
    return f"+{text}" if float(text) > 0.0 else text
