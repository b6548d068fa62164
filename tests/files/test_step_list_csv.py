"""Step lists read from CSV: ours come back as they were, others by their head row, mistakes all at once."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bendgen.errors import InputError
from bendgen.files.step_list_csv import parse_steps_csv
from bendgen.files.steps_csv import format_steps_csv
from bendgen.records.bend_program import BendProgram
from bendgen.records.step_list import ListedStep, StepList

HEAD = "feed_mm,rotation_deg,bend_deg\n"


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    feed=st.floats(-1e6, 1e6),
    rotation=st.floats(-180, 180, exclude_min=True),
    bend=st.floats(0, 360, exclude_min=True, exclude_max=True),
)
def test_ours_come_back_to_the_last_digit(
    example_program: BendProgram, feed: float, rotation: float, bend: float
) -> None:
    first, second = example_program.steps
    second = replace(second, feed=feed, rotation_deg=rotation, bend_deg=bend)
    read = parse_steps_csv(format_steps_csv(replace(example_program, steps=(first, second)), "0a1b2c3d"), "a.csv")
    assert read.id == "0a1b2c3d"
    assert read.steps[1] == ListedStep(number=2, die="d50-r100", feed=feed, rotation_deg=rotation, bend_deg=bend)


def test_it_does_not_say_what_it_cannot_know(example_program: BendProgram) -> None:
    read = parse_steps_csv(format_steps_csv(example_program, "0a1b2c3d"), "a.csv")
    assert (read.angles, read.blank, read.front_trim, read.rear_trim, read.tube) == (None, None, None, None, None)


def test_a_list_of_feed_rotation_and_bend_only() -> None:
    step = ListedStep(number=1, feed=120.0, rotation_deg=0.0, bend_deg=92.0)
    second = ListedStep(number=2, feed=80.5, rotation_deg=-90.0, bend_deg=45.0)
    assert parse_steps_csv(HEAD + "120,0,92\n80.5,-90,45\n", "a.csv") == StepList(steps=(step, second))


def test_inches_in_other_order_with_other_columns() -> None:
    read = parse_steps_csv(
        "remark,Bend_deg, FEED_IN ,rotation_deg,number\ntop,90,4 1/2,360,10\n,45,2.5,-270,20\n", "a.csv"
    )
    first, second = read.steps
    assert (first.number, first.rotation_deg, first.bend_deg) == (10, 360.0, 90.0)
    assert first.feed == pytest.approx(4.5 * 25.4)
    assert (second.number, second.rotation_deg) == (20, -270.0)
    assert second.feed == 2.5 * 25.4


@pytest.mark.parametrize(
    "text",
    [
        "\ufeff" + HEAD + "120,0,90\n",
        HEAD.replace("\n", "\r\n") + "120,0,90\r\n",
        HEAD + "120,0,90",
        "\n" + HEAD + "\n120,0,90\n\n,,\n",
        HEAD + '"120","0"," 90 "\n',
        HEAD + "+1.2e2,.0,90.\n",
    ],
    ids=["byte order mark", "CRLF", "no last line end", "empty lines", "quotes", "ways to write a number"],
)
def test_what_spreadsheets_and_people_do(text: str) -> None:
    step = ListedStep(number=1, feed=120.0, rotation_deg=0.0, bend_deg=90.0)
    assert parse_steps_csv(text, "a.csv").steps == (step,)


def test_a_head_alone_is_a_blank() -> None:
    assert parse_steps_csv(HEAD, "a.csv").steps == ()


BAD_LISTS: list[tuple[str, list[str]]] = [
    (
        "",
        ["a.csv: expected a head row with the columns feed_mm (or feed_in), rotation_deg and bend_deg, found nothing"],
    ),
    (
        "feed,rotation,bend\n1,2,3\n",
        [
            "a.csv: line 1: expected a column feed_mm or feed_in, found 'feed, rotation, bend'",
            "a.csv: line 1: expected a column rotation_deg, found 'feed, rotation, bend'",
            "a.csv: line 1: expected a column bend_deg, found 'feed, rotation, bend'",
        ],
    ),
    (
        "feed_mm;rotation_deg;bend_deg\n1,250;2;3\n",
        [
            "a.csv: line 2: expected a decimal point, or a number that shows that its comma is none between thousands, "
            "found '1,250'",
        ],
    ),
    (
        "feed_mm,rotation_deg,bend_deg\n1,5,2,3\n",
        [
            "a.csv: line 2: expected 3 cells, as many as the head row has, found 4; a decimal comma makes "
            "two cells of one",
        ],
    ),
    (
        "feed_mm,feed_in,rotation_deg,bend_deg,bend_deg\n",
        [
            "a.csv: line 1: expected only one of the columns feed_mm and feed_in, found both",
            "a.csv: line 1: expected one column bend_deg, found 2 of them",
        ],
    ),
    (
        HEAD + "120,0,90\nabc,,NaN\n\n1e7,361,360\n120,0\n1_0,٣,-5\n",
        [
            "a.csv: line 3, column feed_mm: expected a number, found 'abc'",
            "a.csv: line 3, column rotation_deg: expected a number from -360 to 360, found ''",
            "a.csv: line 3, column bend_deg: expected a number greater than 0 and less than 360, found 'NaN'",
            "a.csv: line 5, column feed_mm: expected a number of at most 1,000,000, found 10000000.0",
            "a.csv: line 5, column rotation_deg: expected a number from -360 to 360, found 361",
            "a.csv: line 5, column bend_deg: expected a number greater than 0 and less than 360, found 360",
            "a.csv: line 6: expected 3 cells, as many as the head row has, found 2",
            "a.csv: line 7, column feed_mm: expected a number, found '1_0'",
            "a.csv: line 7, column rotation_deg: expected a number from -360 to 360, found '٣'",
            "a.csv: line 7, column bend_deg: expected a number greater than 0 and less than 360, found -5.0",
        ],
    ),
    (
        HEAD + f"{'9' * 5000},0,90\n",
        [f"a.csv: line 2, column feed_mm: expected a number, found '{'9' * 56}…"],
    ),
    (
        "feed_in,rotation_deg,bend_deg\n40000,0,90\n",
        ["a.csv: line 2, column feed_in: expected a length of at most 39,370 in, found 40000"],
    ),
    (
        "number,feed_mm,rotation_deg,bend_deg\n1,10,0,90\n3,10,0,90\n2,10,0,90\n,10,0,90\n1.5,10,0,90\n",
        [
            "a.csv: line 5, column number: expected a whole number from 1 to 1,000,000, found ''",
            "a.csv: line 6, column number: expected a whole number from 1 to 1,000,000, found 1.5",
            "a.csv: line 4, column number: expected a number greater than 3, found 2",
        ],
    ),
    (
        "feed_mm,rotation_deg,bend_deg,id\n10,0,90,0a1b2c3d\n10,0,90,ffffffff\n10,0,90,\n",
        [
            "a.csv: line 3, column id: expected '0a1b2c3d', the id of the first step, found 'ffffffff'",
            "a.csv: line 4, column id: expected '0a1b2c3d', the id of the first step, found nothing",
        ],
    ),
    (
        "die,feed_mm,rotation_deg,bend_deg\nd50\u202e,10,0,90\n",
        ["a.csv: line 2, column die: expected a text without control or text-direction characters, found 'd50\\u202e'"],
    ),
    (HEAD + '10,0,"90\n', ["a.csv: line 2: expected CSV, found a syntax error: unexpected end of data"]),
    (
        HEAD + f'10,0,"{"x" * 200_000}"\n',
        [
            "a.csv: line 2: expected CSV, found a syntax error: field larger than field limit (131072)",
        ],
    ),
]


@pytest.mark.parametrize(("text", "messages"), BAD_LISTS)
def test_bad_lists(text: str, messages: list[str]) -> None:
    with pytest.raises(InputError) as caught:
        parse_steps_csv(text, "a.csv")
    assert str(caught.value).splitlines() == messages


@settings(max_examples=200)
@given(st.text(alphabet='0123456789.,-+e"\n\r;\t abc\x00\ufeff\u202e', max_size=60), st.sampled_from(["", HEAD]))
def test_any_text_is_read_or_refused(text: str, head: str) -> None:
    message = "a.csv: "
    try:
        parse_steps_csv(head + text, "a.csv")
    except InputError as error:
        message = str(error)
    assert message.startswith("a.csv: ")
