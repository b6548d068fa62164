"""What stands on the page at the machine, and what goes to the bench where that page is full."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from bendgen.records.bend_program import BendProgram
from bendgen.reports.basis_words import BASIS_WORDS, SPRINGBACK_WORDS
from bendgen.reports.blocks import Section, bullets, fields, running, section
from bendgen.reports.cautions import NEVER_CHECKED, NOT_CHECKED
from bendgen.reports.findings_text import finding_lines
from bendgen.reports.page.step_sizes import StepSizes, step_sizes
from bendgen.reports.sheet import blank, job, machine_block
from bendgen.reports.sheet.numbers import numbers_of_machine
from bendgen.reports.sheet.room import EXPLANATION

CAUTIONS = "Cautions for this part"
CAUTIONS_ELSEWHERE = (
    "There are more than this page has room for: read them on the sheet for the bench before you start."
)


Share = tuple[list[Section], list[Section], list[Section]]  # set-up, small print, for the bench


@dataclass(frozen=True, slots=True, kw_only=True)
class MachinePage:
    """Sections of the page.

    set_up, small_print : above the steps, and below them
    for_the_bench : what the small print has no room for, the most urgent first
    sizes : of the steps; None where nothing is bent
    """

    set_up: tuple[Section, ...]
    small_print: tuple[Section, ...]
    for_the_bench: tuple[Section, ...]
    sizes: StepSizes | None


def machine_page(program: BendProgram) -> MachinePage:
    """The page with as much on it as leaves up to eight steps on one sheet of paper."""
    *shares, least = _shares(program)
    pages = (_page(program, share) for share in shares)
    return next((page for page in pages if page.sizes is None or page.sizes.fits), None) or _page(program, least)


def _page(program: BendProgram, share: Share) -> MachinePage:
    set_up, small_print, for_the_bench = map(tuple, share)
    sizes = step_sizes(program, set_up, small_print) if program.steps else None
    return MachinePage(set_up=set_up, small_print=small_print, for_the_bench=for_the_bench, sizes=sizes)


def _shares(program: BendProgram) -> Iterator[Share]:
    """Set-up and small print at the machine, and what goes to the bench: from nothing to all that may.

    What the numbers mean goes first, for it is alike on all sheets of a machine; then the tables, which stand on the
    sheet for the bench anyway; last the cautions, with a line in their place.
    """
    cautions = section(CAUTIONS, bullets(finding_lines(program.findings)))
    before, meanings = job.cautions_section(program), section("What the numbers mean", bullets(_meanings(program)))
    unchecked = section("Not checked", running(f"{NOT_CHECKED} {NEVER_CHECKED}"))
    with_tables, without = _set_up(program, _names_of_tables(program)), _set_up(program, [])
    yield with_tables, _telling(cautions, before, meanings, unchecked), []
    for set_up in (with_tables, without):
        yield set_up, _telling(cautions, before, unchecked), _telling(meanings)
    yield without, _telling(_cautions_elsewhere(cautions), before, unchecked), _telling(cautions, meanings)


def _names_of_tables(program: BendProgram) -> list[tuple[str, str]]:
    """Nothing more of them, for the rest is for the bench."""
    return [row for row in job.table_rows(program) if row[0]]


def _set_up(program: BendProgram, tables: Iterable[tuple[str, str]]) -> list[Section]:
    """Part and set-up side by side."""
    numbers = numbers_of_machine(program.profile)
    part = [*job.part_rows(program.part, numbers), *blank.saw_rows(program, numbers), *tables]
    return _telling(section("Part", fields(part)), section("Set-up", fields(job.set_up_rows(program, numbers))))


def _cautions_elsewhere(cautions: Section | None) -> Section | None:
    return cautions and section(CAUTIONS, running(CAUTIONS_ELSEWHERE))


def _meanings(program: BendProgram) -> Iterator[str]:
    """What the numbers of the steps mean, and what their rows say of springback and no caution explains."""
    if not program.steps:
        return
    yield from machine_block.meanings(program.profile)
    yield EXPLANATION
    if any(step.basis.springback == "between" for step in program.steps):
        yield f"{SPRINGBACK_WORDS['between']}: {BASIS_WORDS['between']}."


def _telling(*sections: Section | None) -> list[Section]:
    return [told for told in sections if told is not None]
