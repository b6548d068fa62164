"""The finished part: two true views to scale and an oblique one, as large as there is room.

The front view shows the two longest sides of the part's box, along the axes of its file; view A looks down on it and
stands below. What is dimensioned is the box over the outside; straights and angles stand in the oblique view.
"""

from htpy import Element

from bendgen.records.bend_program import BendProgram
from bendgen.reports.drawings.axes import finished_axis
from bendgen.reports.drawings.drawing_scale import scale_words
from bendgen.reports.drawings.lengths import UNIT_NOTES
from bendgen.reports.drawings.paper import drawing, group, words
from bendgen.reports.drawings.part_contents import oblique_view, true_view
from bendgen.reports.drawings.part_layout import part_panels
from bendgen.reports.drawings.part_values import ROW, is_listed, list_width, value_list, value_rows
from bendgen.reports.drawings.view_directions import oblique_directions, true_directions
from bendgen.reports.sheet.numbers import numbers_of_machine

WIDTH = 186.0  # [paper mm]
CAPTION = 6.0
NUMBERS_BESIDE, VALUES_BESIDE = 12.0, 22.0  # room at the sides of the oblique view for what is written there
TITLE = "The finished part: front view, view A from above, oblique view"


def part_views(program: BendProgram) -> Element:
    """Drawing of the predicted part."""
    numbers, axis = numbers_of_machine(program.profile), finished_axis(program)
    rows = value_rows(program, numbers) if is_listed(program, numbers) else []
    right = WIDTH - (list_width(rows) if rows else 0.0)
    seen, above = true_directions(axis)
    directions = (seen, above, oblique_directions(axis, seen))
    front, view_a, oblique = part_panels(
        axis, directions, program.part.tube.od, right, words_beside=NUMBERS_BESIDE if rows else VALUES_BESIDE
    )
    titles = (f"front view: {seen.words()}", f"A, from above: {above.words()}")
    bottom = max(view_a.frame.bottom, oblique.frame.bottom, ROW * (len(rows) + 1))
    caption = f"true views {scale_words(front.view.scale)} when printed full size; {UNIT_NOTES[numbers.units]}"
    elements = (
        group(true_view(program, axis, front, titles[0]), class_="front-view", **front.view.attributes()),
        group(true_view(program, axis, view_a, titles[1]), class_="view-a", **view_a.view.attributes()),
        group(
            oblique_view(program, axis, oblique, None if rows else numbers),
            class_="oblique-view",
            **oblique.view.attributes(),
        ),
        *value_list(rows, right),
        words(caption, (1.0, bottom + CAPTION - 1.5), anchor="start"),
    )
    return drawing(WIDTH, bottom + CAPTION, TITLE, elements)
