"""How large the rows of the steps are: pictures as high as the page allows, numbers as large as their row allows.

A reader at arm's length, 0.7 m, needs figures 4.5 mm high to see them under 22 minutes of arc: 18 pt, from memory of
ergonomic standards. Less is used only where the numbers of a machine have more places than a line has room.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from bendgen.records.bend_program import BendProgram
from bendgen.records.machine import Column
from bendgen.records.machine_cells import machine_cells
from bendgen.reports.blocks import Section
from bendgen.reports.page.page_room import CROWDED, MM_PER_POINT, USUAL, WIDTH, Print, room_for_steps
from bendgen.reports.text_table import display_width

MOST_ON_ONE_PAGE = 8
TALLEST, LONG_LIST, LOWEST = 50.0, 20.0, 12.5  # of the pictures [paper mm], as all lengths here
RULE = 0.4  # below every row
CROWDED_BELOW = 14.6  # a lower row than that has no room for usual sizes
USUAL_COLUMNS, WIDE_PICTURE, NARROW_PICTURE = 4, 88.0, 78.0
BESIDE_NUMBERS = 14.0  # done box, and the space around the picture
SIZES = (26, 22, 20, 18, 16, 14, 12)  # [pt]
TEXT_SIZE, WIDEST_TEXT = 12, 16.0  # type of columns that hold words [pt], and the width they are given
PADDING = 2.2  # of a cell
DIGIT, NARROW_SIGNS = 0.56, {".": 0.28, "-": 0.34}  # widths of bold type over its size
TEXT_COLUMNS: tuple[Column, ...] = ("die",)


@dataclass(frozen=True, slots=True, kw_only=True)
class StepSizes:
    """Picture and row [paper mm], numbers [pt].

    crowded : everything around them is written smaller
    fits : everything stays on the pages it should
    """

    picture: tuple[float, float]
    numbers: int
    crowded: bool
    fits: bool


def step_sizes(program: BendProgram, set_up: Sequence[Section], small_print: Sequence[Section]) -> StepSizes:
    """Sizes at which up to eight steps, at least one, stay on one page with what is said above and below them."""
    room, printed = _room_of_row(program, set_up, small_print, USUAL), USUAL
    if room < CROWDED_BELOW:
        room, printed = _room_of_row(program, set_up, small_print, CROWDED), CROWDED
    wide = len(program.profile.output.columns) <= USUAL_COLUMNS
    width, height = WIDE_PICTURE if wide else NARROW_PICTURE, min(max(room, LOWEST), TALLEST)
    return StepSizes(
        picture=(width, height),
        numbers=_numbers_size(program, width, height, printed),
        crowded=printed is CROWDED,
        fits=room >= LOWEST,
    )


def _room_of_row(
    program: BendProgram, set_up: Sequence[Section], small_print: Sequence[Section], printed: Print
) -> float:
    """Height for the picture of each step where all are to stay on one page; those of long lists go on over several."""
    steps = len(program.steps)
    if steps > MOST_ON_ONE_PAGE:
        return LONG_LIST
    return room_for_steps(program, set_up, small_print, printed) / steps - RULE


def _numbers_size(program: BendProgram, picture: float, row: float, printed: Print) -> int:
    """Largest size at which all numbers of a step stand in one line of its row."""
    room = WIDTH - picture - BESIDE_NUMBERS
    highest = (row - printed.notes) / MM_PER_POINT
    fitting = (size for size in SIZES if size <= highest and _numbers_width(program, size) <= room)
    return next(fitting, SIZES[-1])


def _numbers_width(program: BendProgram, size: float) -> float:
    rows = [machine_cells(step, program.profile) for step in program.machine_steps]
    columns = zip(program.profile.output.columns, zip(*rows, strict=True), strict=True)
    return sum(PADDING + max(_cell_width(cell, column, size) for cell in cells) for column, cells in columns)


def _cell_width(cell: str, column: Column, size: float) -> float:
    """Width of a number; words may be broken at hyphens, and anywhere where they are long."""
    if column in TEXT_COLUMNS:
        widest = max(display_width(piece) + 1 for piece in cell.split("-"))
        return min(WIDEST_TEXT, widest * DIGIT * TEXT_SIZE * MM_PER_POINT)
    return sum(NARROW_SIGNS.get(sign, DIGIT) for sign in cell) * size * MM_PER_POINT
