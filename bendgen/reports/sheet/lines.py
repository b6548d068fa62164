"""The sheet as lines of text: how title, fields, lists and tables look in a fixed-width font."""

from itertools import zip_longest

from bendgen.reports.blocks import Block, Bullets, Fields, Lines, Passage, Running, Section, Table
from bendgen.reports.paragraphs import broken_lines, left_to_right, paragraph
from bendgen.reports.text_table import display_width, padded, text_table

WIDTH = 88  # places: 10 point type on A4 or Letter, read at arm's length
INDENT = "  "
FIELD_WIDTH = 16
WIDEST_CELL = 34


def section_text(section: Section) -> str:
    """Title with a rule below it, then the passages, an empty line between them."""
    return "\n".join([section.title.upper(), "-" * WIDTH, "\n\n".join(map(passage_text, section.passages))])


def passage_text(passage: Passage) -> str:
    """Blocks that belong together, without empty lines between them."""
    return "\n".join(_block_text(block) for block in passage if block is not None)


def ruled(left: str, right: str, *below: str) -> str:
    """A line between two heavy rules, one text at either side, and texts below it."""
    rule = "=" * WIDTH
    under = [paragraph(text, width=WIDTH) for text in below]
    return "\n".join((rule, left + padded(right, WIDTH - display_width(left), "r"), *under, rule))


def _block_text(block: Block) -> str:
    match block:
        case Fields():
            return _fields_text(block)
        case Running():
            return paragraph(block.text, width=WIDTH, first=INDENT)
        case Bullets():
            return "\n".join(paragraph(text, width=WIDTH, first=f"{INDENT}- ") for text in block.texts)
        case Table():
            return _table_text(block)
        case Lines():
            return block.text


def _fields_text(block: Fields) -> str:
    """Name and text, one a line; a name of the part's file stands last on its line, whichever way it is written."""
    return "\n".join(
        paragraph(text, width=WIDTH, first=INDENT + padded(name, FIELD_WIDTH, "l")) for name, text in block.rows
    )


def _table_text(block: Table) -> str:
    """Columns within the sheet's width; a cell wider than WIDEST_CELL goes on in the lines below it."""
    lines = [line for row in block.rows for line in zip_longest(*map(_cell_lines, row), fillvalue="")]
    text = text_table(block.headings, lines, align=block.align, gap=block.gap)
    return "\n".join(INDENT + line for line in text.splitlines())


def _cell_lines(cell: str) -> list[str]:
    return [left_to_right(line) for line in broken_lines(cell, WIDEST_CELL)]
