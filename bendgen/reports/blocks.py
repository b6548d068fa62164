"""Pieces that sections of sheets and reports are made of: what is said, not yet how it looks on text or page."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

BOX = "[________]"  # where a person writes a reading


@dataclass(frozen=True, slots=True, kw_only=True)
class Fields:
    """Names, each with its text; an empty name goes on with the text before it."""

    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Running:
    """A paragraph."""

    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Bullets:
    """A list of sentences."""

    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Cells under headings.

    align : one letter a column, `l` or `r`
    gap : spaces between columns of the text
    marked : numbers, from 0, of rows that nobody must overlook; their cells say why
    """

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    align: str
    gap: int
    marked: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """Lines laid out for a fixed width, for the text alone: the page has a form of its own for what they say."""

    text: str


Block = Fields | Running | Bullets | Table | Lines
Passage = tuple[Block | None, ...]  # what belongs together; None: nothing to say


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A title and what stands below it; the blocks of one passage belong together, passages stand apart."""

    title: str
    passages: tuple[tuple[Block, ...], ...]


def section(title: str, *passages: Block | Passage | None) -> Section | None:
    """Title and the passages that have something to say; None where none has."""
    told = headed(title, *passages)
    return told if told.passages else None


def headed(title: str, *passages: Block | Passage | None) -> Section:
    """The same under a title that says something by itself."""
    together = (passage if isinstance(passage, tuple) else (passage,) for passage in passages)
    telling = (tuple(block for block in passage if block is not None) for passage in together)
    return Section(title=title, passages=tuple(filter(None, telling)))


def fields(rows: Iterable[tuple[str, str]]) -> Fields | None:
    """Names with their texts; None without any."""
    pairs = tuple(rows)
    return Fields(rows=pairs) if pairs else None


def running(text: str) -> Running:
    """A paragraph."""
    return Running(text=text)


def bullets(texts: Iterable[str]) -> Bullets | None:
    """A list of sentences; None without any."""
    sentences = tuple(texts)
    return Bullets(texts=sentences) if sentences else None


def table(
    headings: Sequence[str], rows: Iterable[Sequence[str]], *, align: str, gap: int = 3, marked: Iterable[int] = ()
) -> Table | None:
    """Cells under headings; None without any row."""
    cells = tuple(tuple(row) for row in rows)
    return Table(headings=tuple(headings), rows=cells, align=align, gap=gap, marked=tuple(marked)) if cells else None
