"""Legs by the angles at which two views show them, or by two turns."""

import pytest

from bendgen.bending.found_bends import bends_of_found
from bendgen.errors import InputError
from bendgen.files.foreign_csv import parse_foreign_csv
from bendgen.files.legs_csv import parse_legs
from bendgen.records.found_tube import Answers, FoundTube
from bendgen.records.part import Centreline

NOTHING_ANSWERED = Answers()
UP_AND_BACK = "leg_mm,up,back\n300,0,0\n200,15,10\n"


def parsed(text: str, answers: Answers = NOTHING_ANSWERED) -> FoundTube:
    return parse_legs(parse_foreign_csv(text, "a.csv", answers), "a.csv", answers)


@pytest.mark.parametrize(("angles", "bend"), [("views", 17.78424), ("turns", 17.96386)])
def test_fifteen_up_and_ten_back(angles: str, bend: float) -> None:
    """Tangents of two views: arctan of the root of tan² 15° + tan² 10°; two turns: arccos(cos 15° cos 10°)."""
    found = parsed(UP_AND_BACK, Answers(angles="views" if angles == "views" else "turns"))
    assert bends_of_found(found).angles_deg == pytest.approx([bend], abs=5e-6)


def test_which_is_meant_is_asked() -> None:
    with pytest.raises(InputError) as caught:
        parsed(UP_AND_BACK)
    assert str(caught.value) == (
        "a.csv: line 3: expected views or turns by --angles: are up and back seen in two views, or turned one after "
        "the other?, found a leg that does both"
    )


def test_legs_that_go_one_way_only_need_no_answer() -> None:
    found = parsed("leg_in;up;back;remark\n10;0;0;front\n4 1/2;30°;0;\n2;0;-60;rear\n")
    assert isinstance(found.wish, Centreline)
    last = found.wish.vertices[-1]
    across = 4.5 * 25.4
    assert (last.x, last.y, last.z) == pytest.approx(
        (254.0 + across * 0.75**0.5 + 25.4, -50.8 * 0.75**0.5, across / 2.0)
    )
    assert found.ignored == ("column 'remark': none of leg, up and back",)


@pytest.mark.parametrize(
    ("text", "messages"),
    [
        ("leg_mm,up,back\n", ["a.csv: expected one leg or more, found none"]),
        (
            "leg_mm,up,back\n0,0,0\n10,90,x\n10,0\n",
            [
                "a.csv: line 2, column leg: expected a length greater than 0, found '0'",
                "a.csv: line 3, column up: expected a number greater than -90 and less than 90, found '90'",
                "a.csv: line 3, column back: expected a number greater than -90 and less than 90, found 'x'",
                "a.csv: line 4: expected 3 cells or more, found 2",
            ],
        ),
    ],
)
def test_bad_legs(text: str, messages: list[str]) -> None:
    with pytest.raises(InputError) as caught:
        parsed(text)
    assert str(caught.value).splitlines() == messages
