"""The sheet of one part as a page: first for whoever stands at the machine, then for the bench."""

from collections.abc import Iterator, Sequence

from htpy import Element, Node, article, div, h1, li, main, p, ul

from bendgen.records.bend_program import BendProgram
from bendgen.records.findings import Finding
from bendgen.records.lying import Lying
from bendgen.reports.cautions import NEVER_CHECKED, NOT_CHECKED
from bendgen.reports.drawings.blank_drawing import blank_drawing
from bendgen.reports.drawings.part_views import part_views
from bendgen.reports.drawings.turnable import turnable_points
from bendgen.reports.findings_text import cure_line, finding_line, finding_lines
from bendgen.reports.page.blocks import fields_element, isolated, rendered, section_elements, titled
from bendgen.reports.page.checks import readings_data, readings_section
from bendgen.reports.page.document import page
from bendgen.reports.page.steps import steps_section
from bendgen.reports.page.title_block import release_fields, title_block
from bendgen.reports.page.turnable import turnable_figure
from bendgen.reports.sheet import bendability, blank, checks, correction, fitting, job, neutral, offset, result
from bendgen.reports.sheet.numbers import numbers_of_machine

CROWDED = range(7, 9)  # so many steps stay on one page if they are written smaller


def sheet_page(
    program: BendProgram, *, program_id: str, issue: int, wanted: Sequence[float], lying: Sequence[Lying]
) -> str:
    """HTML of the whole sheet, in one file that needs no other.

    wanted : what each check reads on the part that was asked for [mm, deg]
    lying : how the tube lies before each bend
    """
    part = program.part
    name = f"{part.number} revision {part.revision} issue {issue}"
    sheets = {"At the machine": _at_the_machine(program, lying), "At the bench": _at_the_bench(program, wanted)}
    content = main[
        h1(".spoken")[name],
        (
            article(class_={"sheet": True, "crowded": len(program.steps) in CROWDED})[
                div(".paper")[title_block(program, program_id=program_id, issue=issue, kind=kind), div(".body")[body]]
            ]
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


def _at_the_machine(program: BendProgram, lying: Sequence[Lying]) -> Iterator[Node]:
    """What the operator needs, on one page for up to eight bends."""
    numbers, part = numbers_of_machine(program.profile), program.part
    yield div(".set-up.fine")[
        titled("Part", fields_element([*job.part_rows(part, numbers), *blank.saw_rows(program, numbers)])),
        titled("Set-up", fields_element([*job.set_up_rows(program, numbers), *job.table_rows(program)])),
    ]
    yield steps_section(program, numbers, lying)
    yield div(".cautions")[
        _cautions_for_the_operator(program.findings),
        section_elements([job.cautions_section(program)]),
        titled("Not checked", p[f"{NOT_CHECKED} {NEVER_CHECKED}"]),
    ]
    yield release_fields()


def _at_the_bench(program: BendProgram, wanted: Sequence[float]) -> Iterator[Node]:
    """What whoever marks, saws and checks needs, and whoever makes the next issue."""
    numbers = numbers_of_machine(program.profile)
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


def _cautions_for_the_operator(findings: Sequence[Finding]) -> Node:
    """What was found, without the cures: they are for whoever makes the next issue."""
    if not findings:
        return None
    return titled("Cautions for this part", ul[(li[isolated(line)] for line in finding_lines(findings))])


def _findings_with_cures(findings: Sequence[Finding]) -> Node:
    cured = [finding for finding in findings if finding.cures]
    if not cured:
        return None
    return titled("What would remove the cautions", ul[(_cured(finding) for finding in cured)])


def _cured(finding: Finding) -> Element:
    return li[isolated(finding_line(finding)), ul[(li[isolated(cure_line(cure))] for cure in finding.cures)]]
