"""What stands at the machine: set-up, steps, cautions and fields for a pen, on one page for up to eight bends."""

from collections.abc import Sequence

from htpy import Element, div

from bendgen.records.bend_program import BendProgram
from bendgen.records.lying import Lying
from bendgen.reports.page.blocks import section_elements
from bendgen.reports.page.machine_page import MachinePage
from bendgen.reports.page.steps import steps_section
from bendgen.reports.page.title_block import release_fields
from bendgen.reports.sheet.numbers import numbers_of_machine


def at_the_machine(program: BendProgram, machine_page: MachinePage, lying: Sequence[Lying]) -> Element:
    """What the operator needs; lying: how the tube lies before each bend."""
    numbers, sizes = numbers_of_machine(program.profile), machine_page.sizes
    return div(class_={"body": True, "crowded": sizes is not None and sizes.crowded})[
        div(".set-up")[section_elements(machine_page.set_up)],
        None if sizes is None else steps_section(program, numbers, lying, sizes),
        div(".small-print")[section_elements(machine_page.small_print)],
        release_fields(),
    ]
