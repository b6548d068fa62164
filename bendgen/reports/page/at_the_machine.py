"""What stands at the machine: set-up, steps, cautions and fields for a pen, on one page for up to eight bends."""

from collections.abc import Iterator, Sequence

from htpy import Element, div

from bendgen.records.bend_program import BendProgram
from bendgen.records.lying import Lying
from bendgen.reports.basis_words import BASIS_WORDS, SPRINGBACK_WORDS
from bendgen.reports.cautions import NEVER_CHECKED, NOT_CHECKED
from bendgen.reports.findings_text import finding_lines
from bendgen.reports.page.blocks import section_elements
from bendgen.reports.page.step_sizes import step_sizes
from bendgen.reports.page.steps import steps_section
from bendgen.reports.page.title_block import release_fields
from bendgen.reports.sheet import blank, job, machine_block
from bendgen.reports.sheet.blocks import Section, bullets, fields, running, section
from bendgen.reports.sheet.numbers import SheetNumbers, numbers_of_machine
from bendgen.reports.sheet.room import EXPLANATION


def at_the_machine(program: BendProgram, lying: Sequence[Lying]) -> Element:
    """What the operator needs; lying: how the tube lies before each bend."""
    numbers = numbers_of_machine(program.profile)
    set_up, small_print = _set_up(program, numbers), _small_print(program)
    sizes = step_sizes(program, set_up, small_print) if program.steps else None
    return div(class_={"body": True, "crowded": sizes is not None and sizes.crowded})[
        div(".set-up")[section_elements(set_up)],
        None if sizes is None else steps_section(program, numbers, lying, sizes),
        div(".small-print")[section_elements(small_print)],
        release_fields(),
    ]


def _set_up(program: BendProgram, numbers: SheetNumbers) -> list[Section]:
    """Part and set-up; of the tables only their names, for the rest is for the bench."""
    part = [*job.part_rows(program.part, numbers), *blank.saw_rows(program, numbers)]
    tables = (row for row in job.table_rows(program) if row[0])
    told = (section("Part", fields(part)), section("Set-up", fields([*job.set_up_rows(program, numbers), *tables])))
    return [of_part for of_part in told if of_part is not None]


def _small_print(program: BendProgram) -> list[Section]:
    """Cautions, the part's own first and without the cures, and what the numbers of the steps mean."""
    meanings = [*machine_block.meanings(program.profile), EXPLANATION, *_springbacks(program)] if program.steps else []
    told = (
        section("Cautions for this part", bullets(finding_lines(program.findings))),
        job.cautions_section(program),
        section("What the numbers mean", bullets(meanings)),
        section("Not checked", running(f"{NOT_CHECKED} {NEVER_CHECKED}")),
    )
    return [caution for caution in told if caution is not None]


def _springbacks(program: BendProgram) -> Iterator[str]:
    """What the rows of the steps say of springback and no caution explains."""
    if any(step.basis.springback == "between" for step in program.steps):
        yield f"{SPRINGBACK_WORDS['between']}: {BASIS_WORDS['between']}."
