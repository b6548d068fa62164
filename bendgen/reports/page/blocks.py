"""Sections of the sheet as elements of the page."""

from collections.abc import Iterable, Iterator
from itertools import groupby

from htpy import Element, Node, bdi, dd, div, dl, dt, h3, li, p, section, span, tbody, td, th, thead, tr, ul
from htpy import table as table_element
from markupsafe import Markup

from bendgen.reports.blocks import BOX, Block, Bullets, Fields, Running, Section, Table
from bendgen.reports.paragraphs import written_leftwards

# Of columns set to the right, which hold numbers, and to the left; made once, as a sheet has hundreds of cells.
SIDES = {"r": "number", "l": "text"}
HEADINGS = {align: th(scope="col", class_=side) for align, side in SIDES.items()}
CELLS = {align: td(class_=side) for align, side in SIDES.items()}


def section_elements(sections: Iterable[Section | None]) -> Iterator[Markup]:
    """Each section that has something to say."""
    return (section_element(told) for told in sections if told is not None)


def section_element(told: Section) -> Markup:
    """Title and blocks; passages laid out for a fixed width are left to whoever calls."""
    return titled(told.title, *(block_element(block) for passage in told.passages for block in passage))


def rendered(element: Element) -> Markup:
    """Element as text at once: one deep within others takes htpy as much longer as it lies deep."""
    return Markup(str(element))  # noqa: S704 - htpy has escaped it


def titled(title: str, *content: Node) -> Markup:
    """A section under its title."""
    return rendered(section[h3[title], content])


def block_element(block: Block) -> Node:
    """One block."""
    match block:
        case Fields():
            return fields_element(block.rows)
        case Running():
            return p[block.text]
        case Bullets():
            return ul[(li[with_boxes(text)] for text in block.texts)]
        case Table():
            return _table_element(block)
        case _:
            return None


def fields_element(rows: Iterable[tuple[str, str]]) -> Element:
    """Names with their texts; texts that go on stand below each other."""
    return dl[(div[dt[name], (dd[isolated(text)] for text in texts)] for name, texts in _grouped(rows))]


def _grouped(rows: Iterable[tuple[str, str]]) -> Iterator[tuple[str, list[str]]]:
    """Rows without a name go with the last one that has one."""
    number, numbered = 0, []
    for name, text in rows:
        number += bool(name)
        numbered.append((number, name, text))
    for _, group in groupby(numbered, key=lambda row: row[0]):
        members = list(group)
        yield members[0][1], [text for _, _, text in members]


def isolated(text: str) -> Node:
    """Text that does not turn round what stands beside it, whichever way its letters run."""
    return bdi[text] if written_leftwards(text) else text


def with_boxes(text: str) -> Iterator[Node]:
    """Text whose places to write in are boxes."""
    first, *others = text.split(BOX)
    yield isolated(first)
    for other in others:
        yield write_in()
        yield isolated(other)


def write_in(label: str = "") -> Element:
    """A box for a pen, below its label."""
    return span(".write-in", aria_hidden="true")[label]


def _table_element(block: Table) -> Element:
    return table_element[
        thead[
            tr[
                [
                    HEADINGS[side][heading] if heading else td
                    for heading, side in zip(block.headings, block.align, strict=True)
                ]
            ]
        ],
        tbody[(rendered(_row(row, block.align, marked=n in block.marked)) for n, row in enumerate(block.rows))],
    ]


def _row(cells: Iterable[str], align: str, *, marked: bool) -> Element:
    return (tr(".marked") if marked else tr)[
        [CELLS[side][isolated(cell)] for cell, side in zip(cells, align, strict=True)]
    ]
