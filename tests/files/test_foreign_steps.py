"""Steps of somebody else's in any CSV: what is read, what is asked, what is refused."""

import pytest

from bendgen.errors import InputError
from bendgen.files.foreign_csv import parse_foreign_csv
from bendgen.files.foreign_steps import parse_foreign_steps
from bendgen.records.found_tube import Answers
from bendgen.records.step_list import ForeignSteps

SAID = Answers(feed="summed", rotation="absolute", rotation_positive="clockwise_from_carriage", angles="finished")
TEXT = "Y (in);B (deg);C (deg);R (in);remark\n4 1/2;0;90;3;a\n10,5;-90;45,5;-;\n"


def parsed(text: str, answers: Answers) -> ForeignSteps:
    return parse_foreign_steps(parse_foreign_csv(text, "a.csv", answers), "a.csv", answers)


def test_a_list_with_the_letters_of_the_axes() -> None:
    steps = parsed(TEXT, SAID)
    numbers = [number for step in steps.steps.steps for number in (step.feed, step.rotation_deg, step.bend_deg)]
    assert numbers == pytest.approx([114.3, 0.0, 90.0, 266.7, -90.0, 45.5])
    assert [radius and round(radius, 9) for radius in steps.clr] == [76.2, None]
    assert (steps.units, steps.feed, steps.rotation, steps.steps.angles) == ("in", "summed", "absolute", "finished")
    assert steps.ignored == ("column 'remark': none of feed, rotation, bend, CLR and die set",)


def test_everything_that_matters_is_asked_at_once() -> None:
    with pytest.raises(InputError) as caught:
        parsed(TEXT, Answers())
    assert str(caught.value).splitlines() == [
        "a.csv: expected incremental, summed, passed or carriage by --feed: what is the feed counted from?, "
        "found nothing that says it",
        "a.csv: expected incremental or absolute by --rotation: is the rotation counted from the bend before?, "
        "found nothing that says it",
        "a.csv: expected clockwise_from_carriage or counterclockwise_from_carriage by --rotation-positive, "
        "found nothing that says it",
        "a.csv: expected commanded or finished by --angles: is springback in the bends?, found nothing that says it",
    ]


def test_a_flat_part_needs_no_sign_of_rotation() -> None:
    with pytest.raises(InputError) as caught:
        parsed("feed_mm,rotation,bend\n100,0,90\n50,180,90\n", Answers(feed="summed", rotation="incremental"))
    assert [mistake.expected.split(" by ")[1][:8] for mistake in caught.value.mistakes] == ["--angles"]


def test_columns_named_by_an_answer_pass_over_the_rest() -> None:
    answers = Answers(
        columns="number,feed_mm,rotation,bend", feed="incremental", rotation="incremental", angles="finished"
    )
    steps = parsed("1,100,0,90,front\n2,50,180,90,rear\n", answers)
    assert [step.feed for step in steps.steps.steps] == [100.0, 50.0]
    assert steps.ignored[-1] == "column '5': none of feed, rotation, bend, CLR and die set"


def test_die_sets_that_the_list_names() -> None:
    answers = Answers(feed="incremental", rotation="incremental", angles="commanded")
    steps = parsed("feed_mm,rotation,bend,die\n100,0,90,d50-r75\n50,180,90,\n", answers)
    assert [step.die for step in steps.steps.steps] == ["d50-r75", None]
    assert steps.ignored == ()


BAD = [
    ("feed_mm,rotation,bend\n", ["a.csv: expected one step or more, found none"]),
    (
        "feed_mm,rotation,bend\n1,x,0\n1,400,90\n1,0\nnan,0,90\n",
        [
            "a.csv: line 2, column rotation: expected a number from -360 to 360, found 'x'",
            "a.csv: line 2, column bend: expected a number greater than 0 and less than 360, found '0'",
            "a.csv: line 3, column rotation: expected a number from -360 to 360, found '400'",
            "a.csv: line 4: expected 3 cells or more, found 2",
            "a.csv: line 5, column feed: expected a number, found 'nan'",
        ],
    ),
    (
        "feed,rotation,bend\n100,0,90\n",
        [
            "a.csv: line 2, column feed: expected a unit in the head row, such as x_mm, or mm, cm, m, in or ft by "
            "--units, found '100'"
        ],
    ),
    ("feed_mm,y_mm,rotation,bend\n1,1,0,90\n", ["a.csv: head row: expected one column feed, found two"]),
]


@pytest.mark.parametrize(("text", "messages"), BAD)
def test_bad_steps(text: str, messages: list[str]) -> None:
    with pytest.raises(InputError) as caught:
        parsed(text, SAID)
    assert str(caught.value).splitlines() == messages
