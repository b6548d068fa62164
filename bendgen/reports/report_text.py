"""A report as text for a terminal: titles of sections at the margin, what they say below and to the right of them."""

from collections.abc import Iterable, Iterator

from bendgen.reports.blocks import Block, Bullets, Running, Section, Table
from bendgen.reports.paragraphs import paragraph
from bendgen.reports.text_table import text_table

WIDTH = 110
INDENT, FURTHER = "  ", "    "


def report_text(sections: Iterable[Section | None]) -> str:
    """Sections with an empty line between any two, ending with a line feed."""
    return "\n\n".join(_section_text(told) for told in sections if told is not None) + "\n"


def _section_text(section: Section) -> str:
    blocks = (block for passage in section.passages for block in passage)
    texts = (text for block in blocks for text in _block_texts(block))
    return "\n".join([paragraph(section.title, width=WIDTH, other=INDENT), *texts])


def _block_texts(block: Block) -> Iterator[str]:
    match block:
        case Running():
            yield paragraph(block.text, width=WIDTH, first=INDENT, other=FURTHER)
        case Bullets():
            yield from (paragraph(text, width=WIDTH, first=INDENT, other=FURTHER) for text in block.texts)
        case Table():
            table = text_table(block.headings, block.rows, align=block.align, gap=block.gap)
            yield "\n".join(INDENT + line for line in table.splitlines())
        case _:
            raise AssertionError(block)
