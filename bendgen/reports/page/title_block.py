"""Title block at the head of every printed page, and the fields that people fill in.

The fields are those of ISO 7200 (from memory): owner, number, revision, date of issue, sheet, title, creator, approval,
kind of document. What the tool cannot know is left to a pen.
"""

from collections.abc import Iterator

from htpy import Element, Node, div, h2, header, p, small, span, strong

from bendgen.records.bend_program import BendProgram
from bendgen.reports.page.blocks import isolated, write_in
from bendgen.reports.sheet.correction import destroy_words
from bendgen.reports.sheet.job import OPPOSITE_HAND, RELEASE_FIELDS, TRIAL_ADVICE, TRIAL_WORDS


def title_block(program: BendProgram, *, program_id: str, issue: int, kind: str) -> Element:
    """Which part, revision, issue and id this page belongs to, on which machine, and whether for one piece only."""
    part = program.part
    return header[
        div(".title-block")[
            field("document", h2[kind]),
            field("part number", strong[isolated(part.number)]),
            field("revision", strong[isolated(part.revision)]),
            field("issue", strong[str(issue)]),
            field("id", strong[program_id]),
            field("title", isolated(part.name)),
            field("machine", isolated(program.profile.name)),
        ],
        div(".stamps")[_stamps(program)],
    ]


def _stamps(program: BendProgram) -> Iterator[Element]:
    """Bands that cannot be overlooked."""
    if program.part.correction is not None:
        yield p(".stamp")[destroy_words(program.part.correction)]
    if program.trial_piece:
        yield p(".stamp")[TRIAL_WORDS, small[TRIAL_ADVICE]]
    if program.part.mirrored:
        yield p(".stamp")[OPPOSITE_HAND]


def field(name: str, content: Node) -> Element:
    """One field of a title block."""
    return div(".field")[span(".name")[name], content]


def release_fields() -> Element:
    """Names and dates for a pen."""
    return div(".release")[(write_in(name) for name in RELEASE_FIELDS)]
