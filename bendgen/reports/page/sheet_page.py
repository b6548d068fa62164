"""The sheet of one part as a page: first for whoever stands at the machine, then for the bench."""

from collections.abc import Iterator, Sequence

from htpy import Node, article, div, h1, h3, li, main, p, section, strong, ul

from bendgen.records.bend_program import BendProgram
from bendgen.records.findings import Finding
from bendgen.reports.cautions import NEVER_CHECKED, NOT_CHECKED
from bendgen.reports.findings_text import cure_line, finding_line
from bendgen.reports.page.blocks import isolated, section_elements
from bendgen.reports.page.checks import readings_data, readings_section
from bendgen.reports.page.document import page
from bendgen.reports.page.steps import steps_section
from bendgen.reports.page.title_block import release_fields, title_block
from bendgen.reports.sheet import bendability, blank, checks, fitting, job, neutral, offset, result
from bendgen.reports.sheet.numbers import numbers_of_machine


def sheet_page(program: BendProgram, *, program_id: str, issue: int, wanted: Sequence[float]) -> str:
    """HTML of the whole sheet, in one file that needs no other.

    wanted : what each check reads on the part that was asked for [mm, deg]
    """
    part = program.part
    name = f"{part.number} revision {part.revision} issue {issue}"
    content = main[
        h1(".spoken")[name],
        article(".sheet")[
            title_block(program, program_id=program_id, issue=issue, kind="At the machine"),
            div(".body")[_at_the_machine(program)],
        ],
        article(".sheet")[
            title_block(program, program_id=program_id, issue=issue, kind="At the bench"),
            div(".body")[_at_the_bench(program, wanted)],
        ],
    ]
    data = {"part": part.number, "issue": issue, **readings_data(program, wanted)}
    return page(name, content, data)


def _at_the_machine(program: BendProgram) -> Iterator[Node]:
    """What the operator needs, on one page for up to eight bends."""
    numbers = numbers_of_machine(program.profile)
    yield _trial(program.trial_piece)
    yield div(".columns")[section_elements([job.part_section(program, numbers), job.set_up_section(program, numbers)])]
    yield steps_section(program, numbers, pictures=())
    yield div(".columns")[
        section_elements([blank.saw_section(program, numbers), blank.tape_section(program, numbers)]),
        section_elements([fitting.seam_section(program, numbers)]),
    ]
    yield div(".columns.fine")[
        _cautions_for_the_operator(program.findings),
        section_elements([job.cautions_section(program)]),
        section[h3["Not checked"], p[f"{NOT_CHECKED} {NEVER_CHECKED}"]],
    ]
    yield release_fields()


def _at_the_bench(program: BendProgram, wanted: Sequence[float]) -> Iterator[Node]:
    """What whoever marks, saws and checks needs, and whoever makes the next issue."""
    numbers = numbers_of_machine(program.profile)
    yield section_elements([blank.cutting_section(program, numbers), blank.part_marks_section(program, numbers)])
    yield readings_section(program, numbers, wanted)
    yield div(".columns")[
        section_elements(
            [
                fitting.ends_section(program, numbers),
                result.tolerance_section(program, numbers),
                bendability.bendability_section(program, numbers),
            ]
        ),
        _findings_with_cures(program.findings),
        section_elements([checks.not_checked_section(program)]),
    ]
    yield section_elements(
        [
            offset.offset_section(program, numbers),
            result.finished_section(program, numbers),
            result.basis_section(program, numbers),
            neutral.neutral_section(program),
        ]
    )


def _trial(reasons: Sequence[str]) -> Node:
    """Frame that cannot be overlooked."""
    if not reasons:
        return None
    return section(".trial", aria_label=job.TRIAL_WORDS)[
        p[strong[job.TRIAL_WORDS]], p[job.TRIAL_ADVICE], ul[(li[reason] for reason in reasons)]
    ]


def _cautions_for_the_operator(findings: Sequence[Finding]) -> Node:
    """What was found, without the cures: they are for whoever makes the next issue."""
    if not findings:
        return None
    return section[h3["Cautions for this part"], ul[(li[isolated(finding_line(finding))] for finding in findings)]]


def _findings_with_cures(findings: Sequence[Finding]) -> Node:
    cured = [finding for finding in findings if finding.cures]
    if not cured:
        return None
    return section[
        h3["What would remove the cautions"],
        ul[
            (
                li[isolated(finding_line(finding)), ul[(li[isolated(cure_line(cure))] for cure in finding.cures)]]
                for finding in cured
            )
        ],
    ]
