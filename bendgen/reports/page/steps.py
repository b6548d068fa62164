"""The machine's own steps, large: what is typed, and how the tube lies before each bend."""

from collections.abc import Iterator, Sequence

from htpy import Element, Node, h3, p, section, strong, table, tbody, td, th, thead, tr

from bendgen.records.bend_program import BendProgram, BendStep
from bendgen.records.lying import Lying
from bendgen.records.machine import Column
from bendgen.records.machine_cells import machine_cells
from bendgen.reports.basis_words import SPRINGBACK_WORDS
from bendgen.reports.drawings.step_pictures import step_pictures
from bendgen.reports.machine_words import turn_words
from bendgen.reports.page.blocks import CELLS, SIDES, isolated, rendered, write_in
from bendgen.reports.page.step_sizes import TEXT_COLUMNS, StepSizes
from bendgen.reports.sheet.machine_block import column_units, notices
from bendgen.reports.sheet.numbers import SheetNumbers
from bendgen.reports.sheet.room import lowest_words

ROOMY = 19.5  # rows so high have room for larger notes [paper mm]


def steps_section(program: BendProgram, numbers: SheetNumbers, lying: Sequence[Lying], sizes: StepSizes) -> Element:
    """Table of the steps.

    lying : how the tube lies before each bend
    """
    pictures = step_pictures(program, lying, sizes.picture)
    pictured = zip(program.steps, pictures, strict=True)
    return section(".steps", aria_labelledby="steps")[
        h3("#steps.spoken")["Machine steps. For ", isolated(program.profile.name), ":"],
        table(class_=_kinds(sizes))[
            _head(program),
            (rendered(_step_body(program, step, numbers, picture)) for step, picture in pictured),
        ],
    ]


def _kinds(sizes: StepSizes) -> str:
    """Names of the sizes in sheet.css."""
    width, height = sizes.picture
    return f"size-{sizes.numbers} picture-{width:.0f}{' roomy' * (height >= ROOMY)}"


def _picture_words(program: BendProgram) -> str:
    you = "" if program.profile.operator_stands is None else "; the person is you"
    return f"the tube before the bend: left from the carriage, right from above{you}"


def _head(program: BendProgram) -> Element:
    output = program.profile.output
    headings = zip(output.headings, column_units(program.profile), output.columns, strict=True)
    return thead[
        tr[
            (
                th(scope="col", class_=f"{SIDES[_side(column)]} of-{column}")[isolated(heading), unit and f", {unit}"]
                for heading, unit, column in headings
            ),
            th(".picture", scope="col")[_picture_words(program)],
            th(".done", scope="col")["done"],
        ]
    ]


def _side(column: Column) -> str:
    return "l" if column in TEXT_COLUMNS else "r"


def _step_body(program: BendProgram, step: BendStep, numbers: SheetNumbers, picture: Element) -> Element:
    """What must be done before this bend, its numbers with the picture, and what to know of it."""
    columns = program.profile.output.columns
    cells = machine_cells(program.machine_steps[step.number - 1], program.profile)
    width = len(columns) + 2
    return tbody[
        (tr(".notice")[td(colspan=width)[isolated(notice)]] for notice in notices(program, step)),
        tr(".numbers")[
            [CELLS[_side(column)][isolated(cell)] for cell, column in zip(cells, columns, strict=True)],
            td(".picture", rowspan=2)[rendered(picture)],
            td(".done", rowspan=2)[write_in()],
        ],
        tr(".notes")[
            td(colspan=len(columns))[
                p[_die_note(program, step), " · ".join(_trust_notes(step, numbers))],
                p[" · ".join(_room_notes(program, step, numbers))],
            ]
        ],
    ]


def _die_note(program: BendProgram, step: BendStep) -> Node:
    """On which of several die sets the bend is made, where no column says so."""
    if len(program.dies) == 1 or "die" in program.profile.output.columns:
        return None
    return strong["on ", isolated(step.die)], " · "


def _trust_notes(step: BendStep, numbers: SheetNumbers) -> Iterator[str]:
    """Sense of the turn, how far the springback can be trusted, and where the weld seam lies."""
    yield turn_words(step.rotation_deg)
    yield SPRINGBACK_WORDS[step.basis.springback]
    if step.seam_deg is not None:
        yield f"seam at {numbers.angle(step.seam_deg)}°"


def _room_notes(program: BendProgram, step: BendStep, numbers: SheetNumbers) -> Iterator[str]:
    """Room that the step needs."""
    swing, height = step.swing, program.profile.carriage.centre_height
    yield f"swing {numbers.bare(swing.radius)}"
    yield f"lowest {lowest_words(swing, numbers)}"
    yield f"reach {numbers.bare(swing.reach)}"
    if height is not None:
        yield f"floor clear by {numbers.bare(height + swing.lowest)}"
