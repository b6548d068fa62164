"""How much of one page is left for the steps: the height of everything else, told from how much it has to say.

Letters are counted and taken as wider than most are, so that what is left is rather too little than too much. All
lengths are paper millimetres; sizes of type agree with those of sheet.css.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bendgen.records.bend_program import BendProgram
from bendgen.records.part import Part
from bendgen.reports.blocks import Bullets, Fields, Running, Section
from bendgen.reports.sheet.machine_block import notices
from bendgen.reports.text_table import display_width

WIDTH, HEIGHT = 194.0, 262.5  # of A4 and of Letter within their margins: the narrower and the lower one
MM_PER_POINT = 25.4 / 72.0
LETTER = 0.46  # width of a letter over the size of type: that of running text is a little less
HEADING = 6.7  # title of a section, its rule, and the space behind the section
FIELD_NAMES = 17.0  # width of the column of names
SET_UP_COLUMNS = (94.5, 94.5)
SMALL_PRINT_COLUMN, SMALL_PRINT_COLUMNS = 57.0, 3  # width of a line of text, and how many columns
UNEVEN = 1.0  # lines by which the longest of them goes beyond an even share
TITLE_BLOCK, STEPS_HEAD, GAPS = 20.5, 7.0, 4.0
NUMBER_COLUMN, REVISION_COLUMN, NAME_COLUMN = 85.0, 23.0, 124.0  # of the title block
STAMP, MORE_STAMPS = 12.0, 3.0  # one, and what others beside it add


@dataclass(frozen=True, slots=True)
class Type:
    """Size [pt], and the distance of lines over it."""

    size: float
    leading: float

    @property
    def line(self) -> float:
        """Height of a line."""
        return self.leading * self.size * MM_PER_POINT

    def lines(self, text: str, width: float) -> int:
        """Lines of that width that a text takes."""
        return max(1, math.ceil(LETTER * self.size * MM_PER_POINT * display_width(text) / width))


@dataclass(frozen=True, slots=True, kw_only=True)
class Print:
    """Sizes in which the page is written.

    set_up, small_print : lines of type; release: height of the fields for a pen
    notes : height of the two lines of notes in the row of a step, and the space around its numbers
    notice : height of a row that says what to do before a step
    """

    set_up: Type
    small_print: Type
    release: float
    notes: float
    notice: float


NAME, LARGE = Type(9.5, 1.22), Type(16.0, 0.97)  # bold type of 14 pt is as wide as plain type of 16
USUAL = Print(set_up=Type(8.5, 1.22), small_print=Type(8.0, 1.15), release=10.0, notes=7.4, notice=5.5)
CROWDED = Print(set_up=Type(8.0, 1.12), small_print=Type(7.2, 1.1), release=7.5, notes=6.1, notice=4.3)


def room_for_steps(program: BendProgram, set_up: Sequence[Section], small_print: Sequence[Section], of: Print) -> float:
    """Height that all rows of steps may take; set_up: what stands above them side by side, small_print: below."""
    part = program.part
    stamps = sum(map(bool, (program.trial_piece, part.mirrored, part.correction)))
    columns = zip(set_up, SET_UP_COLUMNS, strict=True)
    taken = (
        _title_block(program.part),
        STAMP * bool(stamps) + MORE_STAMPS * (stamps > 1),
        max(HEADING + _field_lines(told, width, of.set_up) * of.set_up.line for told, width in columns),
        STEPS_HEAD,
        of.notice * sum(1 for step in program.steps for _ in notices(program, step)),
        (_bullet_lines(small_print, of.small_print) / SMALL_PRINT_COLUMNS + UNEVEN) * of.small_print.line,
        HEADING * len(small_print) / SMALL_PRINT_COLUMNS,
        of.release + GAPS,
    )
    return HEIGHT - sum(taken)


def _title_block(part: Part) -> float:
    """Number and revision stand side by side, the name below them."""
    numbers = max(LARGE.lines(part.number, NUMBER_COLUMN), LARGE.lines(part.revision, REVISION_COLUMN))
    return TITLE_BLOCK + (numbers - 1) * LARGE.line + (NAME.lines(part.name, NAME_COLUMN) - 1) * NAME.line


def _field_lines(told: Section, width: float, of: Type) -> int:
    rows = (row for passage in told.passages for block in passage if isinstance(block, Fields) for row in block.rows)
    return sum(of.lines(text, width - FIELD_NAMES) for _, text in rows)


def _bullet_lines(sections: Iterable[Section], of: Type) -> int:
    blocks = (block for told in sections for passage in told.passages for block in passage)
    texts = (_texts(block) for block in blocks if isinstance(block, Bullets | Running))
    return sum(of.lines(text, SMALL_PRINT_COLUMN) for of_block in texts for text in of_block)


def _texts(block: Bullets | Running) -> tuple[str, ...]:
    return block.texts if isinstance(block, Bullets) else (block.text,)
