"""Points from any CSV: what is read, what is asked for, what is refused with its line."""

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.errors import InputError
from bendgen.files.foreign_csv import parse_foreign_csv
from bendgen.files.points_csv import parse_points
from bendgen.records.found_tube import Answers, FoundTube
from bendgen.records.part import Centreline

HEAD = "x_mm,y_mm,z_mm\n"
L_SHAPE = [0.0, 0.0, 0.0, 300.0, 0.0, 0.0, 300.0, 220.5, 0.0]
NOTHING_ANSWERED = Answers()


def parsed(text: str, answers: Answers = NOTHING_ANSWERED) -> FoundTube:
    return parse_points(parse_foreign_csv(text, "a.csv", answers), "a.csv", answers)


def coordinates(found: FoundTube) -> list[float]:
    assert isinstance(found.wish, Centreline)
    return [coordinate for v in found.wish.vertices for coordinate in (v.x, v.y, v.z)]


@pytest.mark.parametrize(
    "text",
    [
        HEAD + "0,0,0\n300,0,0\n300,220.5,0\n",
        "\ufeffX [mm]; Y [mm]; Z [mm]\r\n0;0;0\r\n300;0;0\r\n300;220,5;0\r\n",
        "x (mm)\ty (mm)\tz (mm)\n0\t0\t0\n\n3e2\t0\t0\n300\t220,5\t0\n",
        "# invented\nx/cm,y/cm,z/cm\n0,0,0\n30,0,0\n30,22.05,0\n",
        'x_m,y_m,z_m\n"0","0,0","0"\n"0,3","0","0"\n"0,3","0,2205","0"\n',
        "number,z_mm,y_mm,x_mm,remark\n1,0,0,0,front\n2,0,0,300,\n3,0,220.5,300,rear\n",
        "x_mm,y_mm\n0,0\n300,0\n300,220.5\n",
        "no,X,Y,Z\n-,[mm],mm,(mm)\n1,0,0,0\n2,300,0,0\n3,300,220.5,0\n",
    ],
    ids=["plain", "semicolons", "tabs", "comment", "quoted", "order", "flat", "units below"],
)
def test_one_path_in_many_hands(text: str) -> None:
    assert coordinates(parsed(text)) == pytest.approx(L_SHAPE)


def test_what_was_understood_and_passed_over() -> None:
    found = parsed("# by hand\nnumber;x_in;y_in\n1;0;0\n2;1,5;0\n")
    assert (found.kind, found.units) == ("vertices in a CSV", "in")
    assert found.understood == (
        ("unit", "in, from the head row"),
        ("numbers", "between semicolons, with a decimal comma"),
        ("z", "0 everywhere: the file has no such column"),
    )
    assert found.ignored == (
        "lines that begin with #: 1",
        "column 'number': neither a coordinate nor a CLR",
    )


def test_a_typographic_minus_is_a_minus() -> None:
    text = HEAD + "-0.5,0,0\n300,-12,0\n300,220.5,-3e1\n"
    assert coordinates(parsed(text.replace("-", "\u2212"))) == coordinates(parsed(text))


def test_a_row_that_is_not_of_units_alone_holds_mistakes() -> None:
    with pytest.raises(InputError, match=r"line 2, column x: expected a number, found 'mm'"):
        parsed("x,y,note\nmm,mm,both\n0,0,a\n300,0,b\n", Answers(units="mm"))


def test_a_clr_of_nothing_is_none() -> None:
    found = parsed("x_mm,y_mm,z_mm,clr\n0,0,0,\n300,0,0,100\n300,220,0,-\n0,220,0,0\n")
    assert isinstance(found.wish, Centreline)
    assert [vertex.clr for vertex in found.wish.vertices] == [None, 100.0, None, None]


@pytest.mark.parametrize(
    ("text", "answers"),
    [
        ("0,0,0\n300,0,0\n300,220.5,0\n", Answers(units="mm", columns="x,y,z")),
        ("0,0,0\n300,0,0\n300,220.5,0\n", Answers(columns="x_mm,y_mm,z_mm")),
        ("1,0,0,0\n2,300,0,0\n3,300,220.5,0\n", Answers(columns="number,x_mm,y_mm,z_mm")),
        ("x;y;z\n0;0;0\n0,300;0;0\n0,300;0,2205;0\n", Answers(units="m", decimal="comma")),
    ],
)
def test_answers(text: str, answers: Answers) -> None:
    assert coordinates(parsed(text, answers)) == pytest.approx(L_SHAPE)


def test_inch_fractions() -> None:
    """Real inputs of shops (common practice, no source); the millimetres are the fractions times 25.4."""
    found = parsed("x_in;y_in;z_in\n85-1/2 in;1-1/64 in;4'-8 3/8\"\n10 3/8 in;4 1/2;11/4\n")
    assert coordinates(found) == [2171.7, 25.796875, 1431.925, 263.525, 114.3, 69.85]


def test_a_fraction_is_no_number_of_centimetres() -> None:
    with pytest.raises(InputError) as caught:
        parsed("x_cm,y_cm,z_cm\n0,0,0\n4 1/2,0,0\n")
    assert str(caught.value) == "a.csv: line 3, column x: expected a decimal number, found '4 1/2'"


def test_lengths_that_all_name_their_unit_need_no_other() -> None:
    found = parsed("x,y,z\n0,0,0\n12 mm,1 in,0\n")
    assert coordinates(found) == [0.0, 0.0, 0.0, 12.0, 25.4, 0.0]
    assert found.understood[0] == ("unit", "mm, in every cell")


QUESTIONS = [
    (
        "x,y,z\n0,0,0\n300,0,0\n300,220,0\n",
        "a.csv: line 3, column x: expected a unit in the head row, such as x_mm, or mm, cm, m, in or ft by --units, "
        "found '300'",
    ),
    (
        "0,0,0\n300,0,0\n",
        "a.csv: expected columns x, y, z (and clr, where it is known), or feed, rotation and bend, "
        "or leg, up and back, named in a head row or by --columns, found 3 without names",
    ),
    (
        "x_mm;y_mm;z_mm\n1,500;0;0\n2,250;0;0\n",
        "a.csv: line 2: expected numbers without commas, or comma by --decimal where they are decimal commas, "
        "found '1,500'",
    ),
]


@pytest.mark.parametrize(("text", "message"), QUESTIONS)
def test_what_could_mean_two_things_is_asked(text: str, message: str) -> None:
    with pytest.raises(InputError) as caught:
        parsed(text)
    assert str(caught.value) == message


BAD = [
    ("", ["a.csv: expected columns of numbers between commas, semicolons or tabs, found nothing"]),
    ("x\n", ["a.csv: expected columns of numbers between commas, semicolons or tabs, found one column"]),
    ("# 1,2\n#3,4\n", ["a.csv: expected columns of numbers between commas, semicolons or tabs, found nothing"]),
    (HEAD, ["a.csv: expected two points or more, found 0"]),
    (
        HEAD + "0,0,0\n1,0,nan\n2,inf,\n1,2\n1e400,0,0\n",
        [
            "a.csv: line 3, column z: expected a number, found 'nan'",
            "a.csv: line 4, column y: expected a number, found 'inf'",
            "a.csv: line 4, column z: expected a number, found nothing",
            "a.csv: line 5: expected 3 cells, one for each column, found 2",
            "a.csv: line 6, column x: expected a number, found '1e400'",
        ],
    ),
    (
        HEAD + "0,0,0\n100,0,0\n100,0,0\n0,100,0\n0,200,0\n0,100,0\n",
        [
            "a.csv: line 4: expected a point apart from vertex 2, found the same point",
            "a.csv: line 6: expected a turn of less than 180° at vertex 5, found a path that folds straight back "
            "from vertex 4 to 6",
        ],
    ),
    (
        "x_mm,y_mm,z_mm,clr\n0,0,0,5\n100,0,0,-5\n100,100,0,a\n",
        [
            "a.csv: line 3, column clr: expected a CLR greater than 0, found '-5'",
            "a.csv: line 4, column clr: expected a number, found 'a'",
        ],
    ),
    ("x_mm,y_in,z_mm\n0,0,0\n", ["a.csv: head row: expected one unit, found in and mm"]),
    ("x_mm,x_mm,y_mm\n0,0,0\n", ["a.csv: head row: expected one column x, found two"]),
    (
        "x_mm;y_mm;z_mm\n1,5;2.5;0\n",
        ["a.csv: line 2: expected one decimal mark, found '1,5', and '2.5' in line 2"],
    ),
    (HEAD + "0,0,0\n2e6,0,0\n", ["a.csv: line 3, column x: expected a length of at most 1,000,000 mm, found '2e6'"]),
    (
        HEAD + "".join(f"{x},0\n" for x in range(30)),
        [
            *(f"a.csv: line {line}: expected 3 cells, one for each column, found 2" for line in range(2, 22)),
            "a.csv: expected no more such lines, found 10",
        ],
    ),
    (HEAD + '0,0,"0\n', ["a.csv: line 2: expected CSV, found a syntax error: unexpected end of data"]),
]


@pytest.mark.parametrize(("text", "messages"), BAD)
def test_bad_points(text: str, messages: list[str]) -> None:
    with pytest.raises(InputError) as caught:
        parsed(text)
    assert str(caught.value).splitlines() == messages


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (f"x{'_' * 100_000}y,y,z\n1,2,3\n", "head row: expected columns x, y, z"),
        ("0," * 1_000_000, "expected lines of less than a million characters, found a longer one"),
    ],
    ids=["a heading", "a line"],
)
def test_what_is_endless_is_refused_at_once(text: str, message: str) -> None:
    start = time.process_time()
    with pytest.raises(InputError) as caught:
        parsed(text)
    assert str(caught.value).startswith(f"a.csv: {message}")
    assert time.process_time() - start < 2.0


def test_an_answer_that_the_head_row_contradicts() -> None:
    with pytest.raises(InputError, match="head row: expected --units mm, found in"):
        parsed(HEAD + "0,0,0\n1,0,0\n", Answers(units="in"))


@settings(max_examples=100)
@given(st.text(alphabet='0123456789.,-+e";\n\r\t /xyz#\x00\ufeff', max_size=60), st.sampled_from(["", HEAD, "x;y;z\n"]))
def test_any_text_is_read_or_refused(text: str, head: str) -> None:
    message = "a.csv: "
    try:
        parsed(head + text)
    except InputError as error:
        message = str(error)
    assert message.startswith("a.csv: ")
