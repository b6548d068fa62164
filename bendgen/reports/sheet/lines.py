"""Pieces that every section of the sheet is made of."""

from collections.abc import Iterable, Sequence
from itertools import zip_longest

from bendgen.reports.paragraphs import broken_lines, left_to_right, paragraph
from bendgen.reports.text_table import display_width, padded, text_table

WIDTH = 88  # places: 10 point type on A4 or Letter, read at arm's length
INDENT = "  "
FIELD_WIDTH = 16
WIDEST_CELL = 34
BOX = "[________]"  # where a person writes a reading
TICK = "[ ]"
NEUTRAL_ROTATION = "Rotations here: positive is clockwise, seen from the carriage, whatever the machine counts."


def section(title: str, *parts: str) -> str:
    """Title with a rule below it, then the parts that have something to say, an empty line between them."""
    body = "\n\n".join(part for part in parts if part)
    return f"{title.upper()}\n{'-' * WIDTH}\n{body}" if body else ""


def ruled(left: str, right: str, *below: str) -> str:
    """A line between two heavy rules, one text at either side, and texts below it."""
    rule = "=" * WIDTH
    under = [paragraph(text, width=WIDTH) for text in below]
    return "\n".join((rule, left + padded(right, WIDTH - display_width(left), "r"), *under, rule))


def fields(rows: Iterable[tuple[str, str]]) -> str:
    """Name and text, one a line; a name of the part's file stands last on its line, whichever way it is written."""
    return "\n".join(paragraph(text, width=WIDTH, first=INDENT + padded(name, FIELD_WIDTH, "l")) for name, text in rows)


def running(text: str) -> str:
    """Text over the sheet's width."""
    return paragraph(text, width=WIDTH, first=INDENT)


def bullets(texts: Iterable[str]) -> str:
    """Texts, each behind a dash."""
    return "\n".join(paragraph(text, width=WIDTH, first=f"{INDENT}- ") for text in texts)


def table(headings: Sequence[str], rows: Sequence[Sequence[str]], *, align: str, gap: int = 3) -> str:
    """Columns within the sheet's width; a cell wider than WIDEST_CELL goes on in the lines below it."""
    lines = [line for row in rows for line in zip_longest(*map(_cell_lines, row), fillvalue="")]
    return "\n".join(INDENT + line for line in text_table(headings, lines, align=align, gap=gap).splitlines())


def _cell_lines(cell: str) -> list[str]:
    return [left_to_right(line) for line in broken_lines(cell, WIDEST_CELL)]
