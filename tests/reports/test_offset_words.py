"""A solved offset in words."""

from dataclasses import replace

import pytest

from bendgen.records.bend_program import BendProgram
from bendgen.records.offset import EndOffCentre, OffsetAnswer, OffsetSolution, OffsetWish
from bendgen.reports.offset_text import offset_text
from bendgen.reports.offset_words import CLOCK_VIEW, clock_words, plane_sentences
from tests.pages import bare_text_of

WISH = OffsetWish(rise=40.0, length=520.0, shortest_end=60.0)
ANSWER = OffsetAnswer(angle_deg=16.5, between=110.0, front_straight=177.0, rear_straight=177.0, run=166.0)
SOLUTION = OffsetSolution(
    rise=40.0,
    answer=ANSWER,
    gentlest=replace(ANSWER, angle_deg=5.875, between=379.0),
    tightest=replace(ANSWER, angle_deg=16.6),
    rise_per_tenth_degree=0.29,
    front_turns_to_deg=0.0,
    rear_turns_to_deg=180.0,
    die="d50-r100",
)


@pytest.mark.parametrize(
    ("clock_deg", "words"),
    [
        (0.0, "12 o'clock (straight up)"),
        (180.0, "6 o'clock (straight down)"),
        (-180.0, "6 o'clock (straight down)"),
        (90.0, "3 o'clock (90.00° clockwise from up)"),
        (-90.0, "9 o'clock (90.00° counterclockwise from up)"),
        (152.764, "about 5 o'clock (152.76° clockwise from up)"),
        (-27.236, "about 11 o'clock (27.24° counterclockwise from up)"),
        (0.004, "12 o'clock (straight up)"),
        (0.006, "about 12 o'clock (0.01° clockwise from up)"),
        (14.9, "about 12 o'clock (14.90° clockwise from up)"),
        (-179.0, "about 6 o'clock (179.00° counterclockwise from up)"),
    ],
)
def test_clock_positions(clock_deg: float, words: str) -> None:
    assert clock_words(clock_deg) == words


def test_both_ends_are_seen_from_the_rear_one() -> None:
    # By hand: somebody at the rear end has the front axis 20 mm up and the rear axis 30 mm to the right. Away from the
    # front axis the tube goes right by 30 and down by 20, 90° and atan(20 / 30) = 33.69° clockwise from up.
    wish = OffsetWish(
        front=EndOffCentre(out=20.0, clock_deg=0.0),
        rear=EndOffCentre(out=30.0, clock_deg=90.0),
        length=520.0,
        shortest_end=60.0,
    )
    solution = replace(SOLUTION, front_turns_to_deg=123.690, rear_turns_to_deg=-56.310)
    assert list(plane_sentences(wish, solution)) == [
        f"{CLOCK_VIEW} Up is the clock position 0 of the part's file.",
        "From its rear end the tube turns off towards about 10 o'clock (56.31° counterclockwise from up).",
        "From its front end the tube turns off towards about 4 o'clock (123.69° clockwise from up).",
    ]


def test_the_text(example_program: BendProgram) -> None:
    program = replace(example_program, findings=())
    assert offset_text(program, WISH, SOLUTION, units="mm") == (
        "rise             40.00 mm\n"
        "finished length  520.00 mm\n"
        "each bend        16.50° finished; the second goes the opposite way\n"
        "straight         110.00 mm between the bends\n"
        "front end        177.00 mm of straight left\n"
        "rear end         177.00 mm of straight left\n"
        "run              166.00 mm along the end axes, from the first bend's start to the second one's end\n"
        "if it is off     0.1° more at both bends makes 0.29 mm more rise\n"
        "to command       92.7°, springback on a row of the table, measured on trial bends\n"
        "die set          d50-r100\n"
        "table            tables/d50-r100_304l_1.5_2026-03-14.toml\n"
        "\n"
        "What fits\n"
        "            angle   straight between    each end         run\n"
        "--------   ------   ----------------   ---------   ---------\n"
        "gentlest    5.88°          379.00 mm   177.00 mm   166.00 mm\n"
        "this one   16.50°          110.00 mm   177.00 mm   166.00 mm\n"
        "tightest   16.60°          110.00 mm   177.00 mm   166.00 mm\n"
        "\n"
        "Clock positions are seen from the rear end, looking along the tube to the front, as from the\n"
        "carriage. Up is where the rise goes.\n"
        "From its rear end the tube turns off towards 6 o'clock (straight down).\n"
        "From its front end the tube turns off towards 12 o'clock (straight up).\n"
    )


def test_the_sheet_of_an_offset_has_a_section_for_it(example_program: BendProgram) -> None:
    part = replace(example_program.part, centreline=None, offset=WISH)
    program = replace(example_program, part=part, offset=SOLUTION)
    sheet = bare_text_of(program)
    _, section = sheet.split("OFFSET, BEFORE ROUNDING TO THE MACHINE\n")
    assert "  each bend       16.50° finished; the second goes the opposite way\n" in section
    assert "  this one   16.50°           110.0 mm   177.0 mm   166.0 mm\n" in section
    assert "  - From its front end the tube turns off towards 12 o'clock (straight up).\n" in section
    assert max(map(len, sheet.splitlines())) <= 88


def test_other_sheets_have_none(example_program: BendProgram) -> None:
    assert "OFFSET, BEFORE" not in bare_text_of(example_program)


def test_a_straight_tube_has_no_range_and_no_plane(blank_program: BendProgram) -> None:
    straight = OffsetAnswer(angle_deg=0.0, between=0.0, front_straight=260.0, rear_straight=260.0, run=0.0)
    solution = replace(SOLUTION, rise=0.0, answer=straight, gentlest=straight, tightest=straight)
    assert offset_text(blank_program, replace(WISH, rise=0.0), solution, units="in") == (
        "rise             0.000 in\n"
        "finished length  20.472 in\n"
        "bends            none: both ends are in line, a straight tube\n"
    )
