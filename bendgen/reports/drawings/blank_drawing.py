"""The blank before bending: what the tape reads at every mark, what is trimmed, and where the tape goes at the die.

Lengths are to scale, the diameter is not. The marks carry running dimensions from the front end, where the tape hooks.
"""

from collections.abc import Iterator, Sequence

import numpy as np
from htpy import Element

from bendgen.records.bend_program import BendProgram
from bendgen.reports.drawings.dimensions import level_dimension, running_dimension
from bendgen.reports.drawings.lengths import UNIT_NOTES, length_words
from bendgen.reports.drawings.paper import (
    LETTERS,
    MACHINE,
    Ink,
    drawing,
    group,
    polyline,
    rectangle,
    words,
    words_width,
)
from bendgen.reports.drawings.sleeve_sketch import sleeve_sketches
from bendgen.reports.sheet.numbers import SheetNumbers, numbers_of_machine

WIDTH = 186.0  # [paper mm], as all here
LEFT, RIGHT = 6.0, 180.0  # ends of the blank
TUBE = 8.0  # height of the tube
FAN = 7.0  # from the running dimension to its figures: lines spread there so that figures do not touch
PITCH = 1.3 * LETTERS  # of figures side by side
ROW = 6.5  # of what stands below
HATCHING = 2.0
SMALLEST_TRIM = 1e-6  # what is cut off, if anything [mm]

NOTES = (
    "Ring the tube at each number: that bend starts there and takes up the grey piece.",
    "The line along the tube is on top when it is loaded: it shows every turn.",
)
FRONT_NOTE = "saw at the mark, after bending"
REAR_NOTE = "only a check: the cut is measured on the bent tube"


def blank_drawing(program: BendProgram) -> Element:
    """Blank with trims, ring marks where bends start, datum line and cut marks."""
    numbers = numbers_of_machine(program.profile)
    marks = _marks(program, numbers)
    top = max(words_width(text) for _, text in marks) + FAN + 4.0
    below = [*_rows_below(program, numbers, top + TUBE)]
    bottom = top + TUBE + ROW * len(below) + 3.0
    sketches, end = sleeve_sketches(program, numbers, bottom)
    children = [
        group(_tube(program, top), class_="blank", data_length=f"{program.blank.length:.9g}"),
        *running_dimension([(_across(program, at), text) for at, text in marks], top - 1.5, (FAN, PITCH)),
        *(line for row in below for line in row),
        *sketches,
    ]
    return drawing(WIDTH, end, "The blank before bending, with its marks", children)


def _across(program: BendProgram, distance: float) -> float:
    """Place along the paper of a distance from the front end [mm]."""
    return LEFT + (RIGHT - LEFT) * distance / program.blank.length


def _marks(program: BendProgram, numbers: SheetNumbers) -> list[tuple[float, str]]:
    """Distance from the front end [mm] of everything the tape is read at, and what is written there."""
    blank = program.blank
    marks = [(0.0, "0, front end"), (blank.length, "rear end")]
    marks += [(step.passed, f"{step.number}: {length_words(step.passed, numbers)}") for step in program.steps]
    if blank.front_trim > SMALLEST_TRIM:
        marks.append((blank.front_trim, f"CUT: {length_words(blank.front_trim, numbers)}"))
    return sorted(marks)


def _tube(program: BendProgram, top: float) -> Iterator[Ink]:
    """The tube itself: trims hatched, what the bends use grey, rings where they start, the datum line along it."""
    bottom, blank = top + TUBE, program.blank
    for step in program.steps:
        end = step.passed + step.carriage_before - step.carriage_after
        yield rectangle("narrow", (_across(program, step.passed), top), (_across(program, end), bottom), MACHINE)
    for start, end in ((0.0, blank.front_trim), (blank.length - blank.rear_trim, blank.length)):
        if end - start > SMALLEST_TRIM:
            yield from _hatched(_across(program, start), _across(program, end), top)
    yield polyline("axis", ((LEFT - 3.0, top + 0.5 * TUBE), (RIGHT + 3.0, top + 0.5 * TUBE)))
    yield rectangle("outline", (LEFT, top), (RIGHT, bottom))
    for step in program.steps:
        x = _across(program, step.passed)
        yield polyline("thick", ((x, top - 0.5), (x, bottom + 0.5)), data_ring=str(step.number))
    if blank.front_trim > SMALLEST_TRIM:
        x = _across(program, blank.front_trim)
        yield polyline("thick", ((x, top - 1.5), (x, bottom + 1.5)), data_cut="front")
    if blank.rear_trim > SMALLEST_TRIM:
        x = _across(program, blank.length - blank.rear_trim)
        yield polyline("hidden", ((x, top - 1.5), (x, bottom + 1.5)), data_cut="rear")


def _hatched(left: float, right: float, top: float) -> Iterator[Ink]:
    """Lines at 45° across a piece that is cut off."""
    for start in np.arange(left - TUBE, right, HATCHING).tolist():
        low, high = max(start, left), min(start + TUBE, right)
        yield polyline("narrow", ((low, top + TUBE - (low - start)), (high, top + TUBE - (high - start))))


def _rows_below(program: BendProgram, numbers: SheetNumbers, bottom: float) -> Iterator[Sequence[Ink]]:
    """Trims, the whole length, and what the line along the tube is for, one row each."""
    blank, row = program.blank, 0
    cut_front, cut_rear = _across(program, blank.front_trim), _across(program, blank.length - blank.rear_trim)
    trims = ((LEFT, cut_front, blank.front_trim, FRONT_NOTE), (cut_rear, RIGHT, blank.rear_trim, REAR_NOTE))
    for left, right, trim, note in trims:
        if trim > SMALLEST_TRIM:
            row += 1
            yield [*_trim_row(left, right, bottom + ROW * row, (length_words(trim, numbers), note))]
    y = bottom + ROW * (row + 1)
    yield [*level_dimension(f"blank {length_words(blank.length, numbers)}", (LEFT, bottom), (RIGHT, bottom), y)]
    notes = [
        *(NOTES if program.steps else ()),
        f"Diameters are not to scale; {UNIT_NOTES[numbers.units]}.",
    ]
    for i, note in enumerate(notes, start=1):
        yield [words(note, (LEFT, y + ROW * i), anchor="start")]


def _trim_row(left: float, right: float, y: float, texts: tuple[str, str]) -> Iterator[Ink]:
    """Dimension of a trim; figures above it where they have room, else beside it, and a note where that has room."""
    figures, note = texts
    whole = f"trim {figures}; {note}"
    zone, free = right - left, (RIGHT - LEFT) - (right - left) - 8.0
    if words_width(whole) < zone:
        yield from level_dimension(whole, (left, y - ROW), (right, y - ROW), y)
        return
    yield from level_dimension("", (left, y - ROW), (right, y - ROW), y)
    text = whole if words_width(whole) < free else f"trim {figures}"
    beside = (right + 7.0, "start") if left == LEFT else (left - 7.0, "end")
    yield words(text, (beside[0], y + 1.2), anchor=beside[1])
