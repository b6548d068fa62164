"""Straights and angles as a list, for parts with more of them than their picture has room for."""

from collections.abc import Iterator

from bendgen.records.bend_program import BendProgram
from bendgen.reports.drawings.lengths import length_words
from bendgen.reports.drawings.paper import LETTERS, Ink, words, words_width
from bendgen.reports.sheet.numbers import SheetNumbers
from bendgen.units import Units

MOST_IN_PICTURE: dict[Units, int] = {"mm": 8, "in": 4}  # bends whose values are written beside them
ROW = 1.25 * LETTERS  # [paper mm]
# The straight before a bend stands in its line.
HEADING = ("bend", "angle", "before it")


def is_listed(program: BendProgram, numbers: SheetNumbers) -> bool:
    """Whether there are too many bends to write their values beside them."""
    return len(program.steps) > MOST_IN_PICTURE[numbers.units]


def value_rows(program: BendProgram, numbers: SheetNumbers) -> list[tuple[str, str, str]]:
    """Number, angle and straight before of every bend, and the last straight."""
    tube = program.finished
    rows = [
        (str(number), f"{numbers.angle(bend.angle_deg)}°", length_words(straight, numbers))
        for number, (bend, straight) in enumerate(zip(tube.bends, tube.straights[:-1], strict=True), start=1)
    ]
    return [HEADING, *rows, ("rear", "", length_words(tube.straights[-1], numbers))]


def list_width(rows: list[tuple[str, str, str]]) -> float:
    """Width of the list [paper mm]."""
    return sum(_column_widths(rows)) + 3.0 * LETTERS


def value_list(rows: list[tuple[str, str, str]], left: float) -> Iterator[Ink]:
    """The list, from the top of the paper down."""
    widths = _column_widths(rows)
    for i, row in enumerate(rows):
        right = left
        for text, width in zip(row, widths, strict=True):
            right += width + LETTERS
            yield words(text, (right, ROW * (i + 1)), anchor="end")


def _column_widths(rows: list[tuple[str, str, str]]) -> list[float]:
    return [max(map(words_width, column)) for column in zip(*rows, strict=True)]
