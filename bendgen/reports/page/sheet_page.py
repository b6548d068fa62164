"""The sheet of one part as a page: first for whoever stands at the machine, then for the bench."""

from collections.abc import Iterator, Sequence

from htpy import Element, Node, article, div, h1, li, main, ul

from bendgen.records.bend_program import BendProgram
from bendgen.records.findings import Cure, Finding
from bendgen.records.lying import Lying
from bendgen.reports.blocks import Section, fields, section
from bendgen.reports.drawings.blank_drawing import blank_drawing
from bendgen.reports.drawings.part_views import part_views
from bendgen.reports.drawings.turnable import turnable_points
from bendgen.reports.findings_text import cure_line, lines_with_cures
from bendgen.reports.page.at_the_machine import at_the_machine
from bendgen.reports.page.blocks import isolated, rendered, section_elements, titled
from bendgen.reports.page.checks import readings_data, readings_section
from bendgen.reports.page.document import page
from bendgen.reports.page.machine_page import machine_page
from bendgen.reports.page.title_block import title_block
from bendgen.reports.page.turnable import turnable_figure
from bendgen.reports.sheet import (
    bendability,
    blank,
    checks,
    correction,
    fitting,
    job,
    neutral,
    offset,
    result,
)
from bendgen.reports.sheet.numbers import numbers_of_machine


def sheet_page(
    program: BendProgram, *, program_id: str, issue: int, wanted: Sequence[float], lying: Sequence[Lying]
) -> str:
    """HTML of the whole sheet, in one file that needs no other.

    wanted : what each check reads on the part that was asked for [mm, deg]
    lying : how the tube lies before each bend
    """
    part, of_machine = program.part, machine_page(program)
    name = f"{part.number} revision {part.revision} issue {issue}"
    sheets = {
        "At the machine": at_the_machine(program, of_machine, lying),
        "At the bench": div(".body")[_at_the_bench(program, of_machine.for_the_bench, wanted)],
    }
    content = main[
        h1(".spoken")[name],
        (
            article(".sheet")[div(".paper")[title_block(program, program_id=program_id, issue=issue, kind=kind), body]]
            for kind, body in sheets.items()
        ),
    ]
    data = {
        "part": part.number,
        "issue": issue,
        **readings_data(program, wanted),
        "turnable": turnable_points(program),
    }
    return page(name, content, data)


def _at_the_bench(program: BendProgram, from_machine: Sequence[Section], wanted: Sequence[float]) -> Iterator[Node]:
    """What whoever marks, saws and checks needs, and whoever makes the next issue.

    from_machine : what the page at the machine has no room for
    """
    numbers = numbers_of_machine(program.profile)
    yield div(".columns")[section_elements(from_machine)] if from_machine else None
    yield titled("The finished part, as predicted", rendered(part_views(program)))
    yield turnable_figure()
    yield titled("The blank", rendered(blank_drawing(program)))
    yield div(".columns")[
        section_elements(
            [
                job.trial_section(program),
                correction.correction_section(program, numbers),
                blank.tape_section(program, numbers),
                blank.cutting_section(program, numbers),
                blank.part_marks_section(program, numbers),
                fitting.seam_section(program, numbers),
            ]
        )
    ]
    yield readings_section(program, numbers, wanted)
    yield div(".columns")[
        section_elements(
            [
                fitting.ends_section(program, numbers),
                result.tolerance_section(program, numbers),
                section("Tables", fields(job.table_rows(program))),
                offset.offset_section(program, numbers),
                bendability.bendability_section(program, numbers),
                checks.not_checked_section(program),
            ]
        ),
        _findings_with_cures(program.findings),
    ]
    yield section_elements(
        [
            result.finished_section(program, numbers),
            result.basis_section(program, numbers),
            neutral.neutral_section(program),
        ]
    )


def _findings_with_cures(findings: Sequence[Finding]) -> Node:
    cured = [finding for finding in findings if finding.cures]
    if not cured:
        return None
    return titled(
        "What would remove the cautions", ul[(_cured(line, cures) for line, cures in lines_with_cures(cured))]
    )


def _cured(line: str, cures: Sequence[Cure]) -> Element:
    return li[isolated(line), ul[(li[isolated(cure_line(cure))] for cure in cures)]]
