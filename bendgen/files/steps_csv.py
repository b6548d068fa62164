"""Steps as CSV: the neutral list for any other tool, and the list in the machine's own columns and units.

Point, comma, LF, one head row, no comments. The only texts in them are ids of die sets and the profile's headings; one
that a spreadsheet would take for a formula is refused, never changed.
"""

import csv
import io
from collections.abc import Iterable, Sequence
from decimal import Decimal

from bendgen.errors import OutputError
from bendgen.records.bend_program import BendProgram, BendStep
from bendgen.records.machine_cells import machine_cells

NEUTRAL_HEAD = ("number", "die", "feed_mm", "rotation_deg", "bend_deg", "id")
FORMULA_STARTS = tuple("=+-@\uff1d\uff0b\uff0d\uff20")  # the last four: the same signs in full width


def format_steps_csv(program: BendProgram, program_id: str) -> str:
    """Neutral list: mm, degrees, incremental, clockwise from the carriage; numbers in full."""
    _refuse_formulas(step.die for step in program.steps)
    return _csv_text(NEUTRAL_HEAD, ((*_neutral_cells(step), program_id) for step in program.steps))


def format_machine_csv(program: BendProgram, program_id: str) -> str:
    """The same steps as the profile's `[output]` wants them, at the machine's resolution; the id is the last column."""
    headings = program.profile.output.headings
    _refuse_formulas((*headings, *(step.die for step in program.machine_steps)))
    rows = ((*machine_cells(step, program.profile), program_id) for step in program.machine_steps)
    return _csv_text((*headings, "id"), rows)


def plain_number(value: float) -> str:
    """Shortest text that reads back as the same double, without exponent and never as -0."""
    return format(Decimal(repr(float(value) + 0.0)), "f")


def _neutral_cells(step: BendStep) -> tuple[str, ...]:
    numbers = (plain_number(value) for value in (step.feed, step.rotation_deg, step.bend_deg))
    return (str(step.number), step.die, *numbers)


def _refuse_formulas(texts: Iterable[str]) -> None:
    for text in texts:
        if text.strip().startswith(FORMULA_STARTS):
            raise OutputError(f"'{text}' cannot stand in a CSV, a spreadsheet would take it for a formula: rename it")


def _csv_text(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(head)
    writer.writerows(rows)
    return stream.getvalue()
