"""Sizes of the rows of the steps."""

from dataclasses import replace

import pytest

from bendgen.reports.blocks import Bullets, Section
from bendgen.reports.page.step_sizes import LONG_LIST, LOWEST, TALLEST, step_sizes
from tests.pages import five_column_bender, large_bender, planned, winding_part

SHORT = Section(title="Part", passages=((Bullets(texts=("short",)),),))
LONG = replace(SHORT, passages=SHORT.passages * 400)


@pytest.mark.parametrize(("bends", "height"), [(1, TALLEST), (2, TALLEST), (9, LONG_LIST), (20, LONG_LIST)])
def test_few_pictures_are_as_tall_as_they_are_wide_and_long_lists_go_on(bends: int, height: float) -> None:
    sizes = step_sizes(planned(winding_part(bends), large_bender()), [SHORT, SHORT], [SHORT])
    assert sizes.picture[1] == height


def test_the_more_is_said_the_lower_are_the_pictures() -> None:
    program = planned(winding_part(8), large_bender())
    heights = [
        step_sizes(program, [SHORT, SHORT], [replace(SHORT, passages=SHORT.passages * times)]).picture[1]
        for times in (1, 40, 80, 400)
    ]
    assert heights == sorted(heights, reverse=True)
    assert heights[0] > heights[1] > heights[2] >= heights[3] == LOWEST


def test_crowded_rows_keep_numbers_for_arm_s_length() -> None:
    for profile in (large_bender(), five_column_bender()):
        sizes = step_sizes(planned(winding_part(8), profile), [SHORT, SHORT], [LONG])
        assert sizes.crowded
        assert sizes.numbers == 18


def test_long_names_of_dies_leave_numbers_their_room() -> None:
    program = planned(winding_part(2), five_column_bender())
    named = replace(
        program, machine_steps=tuple(replace(step, die="d50r100left" * 9) for step in program.machine_steps)
    )
    assert step_sizes(named, [SHORT, SHORT], [SHORT]).numbers >= 18


def test_numbers_of_many_places_are_written_smaller_so_that_a_row_holds_them() -> None:
    profile = five_column_bender()
    fine = replace(
        profile,
        feed=replace(profile.feed, resolution=2.54e-5),
        rotation=replace(profile.rotation, resolution_deg=1e-6),
        bend=replace(profile.bend, resolution_deg=1e-6),
    )
    sizes = step_sizes(planned(winding_part(2), fine), [SHORT, SHORT], [SHORT])
    assert sizes.numbers < 18
    assert sizes.numbers < step_sizes(planned(winding_part(2), profile), [SHORT, SHORT], [SHORT]).numbers
