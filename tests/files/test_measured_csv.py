"""Measured parts from CSV: readings, vertices, points; every mistake with its line and column."""

import pytest

from bendgen.bending.foretold import foretold_of_program
from bendgen.bending.planning import plan_part
from bendgen.errors import InputError
from bendgen.files.measured_csv import parse_measured
from bendgen.records.foretold import Foretold
from bendgen.records.machine import MachineProfile
from bendgen.records.measured import Reading
from bendgen.records.part import Part


@pytest.fixture
def foretold(dryer_part: Part, metric_profile: MachineProfile) -> Foretold:
    program = plan_part(dryer_part, metric_profile).program
    assert program is not None
    return foretold_of_program(program, program_id="1234abcd", issue=1)


def test_readings_of_two_pieces_in_any_unit_and_order_of_columns(foretold: Foretold) -> None:
    text = (
        "unit,value,check,piece,lot,note\n"
        "deg,89.5,angle-1,7,A,ok\n"
        "in,5 1/4,straight-2,7,A,\n"
        "mm,133,straight-2,8,A,\n"
        "deg,,angle-1,8,A,not taken\n"
        "mm,51.5,diameter-largest-2,8,A,\n"
    )
    seventh, eighth = parse_measured(text, "m.csv", foretold)
    assert (seventh.piece, seventh.lot) == ("7", "A")
    assert seventh.readings == (
        Reading(line=2, check="angle-1", value=89.5),
        Reading(line=3, check="straight-2", value=133.35),
    )
    assert [reading.check for reading in eighth.readings] == ["straight-2", "diameter-largest-2"]


def test_vertices_and_points_along_the_axis(foretold: Foretold) -> None:
    corners = [(0, 0, 0), (12, 0, 0), (12, 12, 0), (12, 12, 3)]
    vertices = "vertex,x_in,y_in,z_in\n" + "".join(f"{i},{x},{y},{z}\n" for i, (x, y, z) in enumerate(corners, 1))
    (piece,) = parse_measured(vertices, "m.csv", foretold)
    assert piece.vertices[2] == pytest.approx((304.8, 304.8, 0.0))
    assert piece.axis == ()
    axis = "x_mm,y_mm,z_mm\n" + "".join(f"{i},0,0\n" for i in range(9))
    (piece,) = parse_measured(axis, "m.csv", foretold)
    assert len(piece.axis) == 9


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", "m.csv: expected a head row with the columns check, value, unit, or x_mm, y_mm, z_mm"),
        ("check,value\nangle-1,3\n", "m.csv: line 1: expected a head row with the columns check, value, unit"),
        (
            "check;value;unit\nangle-1;89,5;deg\nangle-2;89.5;deg\n",
            "m.csv: line 2: expected one decimal mark, found '89,5', and '89.5' in line 3",
        ),
        ("check,value,unit\n", "m.csv: expected a line for each reading or point, found only the head"),
        ("check,value,unit,unit\na,1,mm,mm\n", "m.csv: line 1: expected each column once"),
        ("check,value,unit\nangle-1,3\n", "m.csv: line 2: expected 3 cells, as many as the head row has, found 2"),
        ("check,value,unit\nangle-1,,deg\n", "m.csv: expected at least one reading, found no value"),
        ("check,value,unit\nangle-9,3,deg\n", "m.csv: line 2, column check: expected a known check of the sheet"),
        ("check,value,unit\nangle-1,3,mm\n", "m.csv: line 2, column unit: expected deg, found 'mm'"),
        (
            "check,value,unit\nangle-1,nan,deg\n",
            "m.csv: line 2, column value: expected a number of degrees, 360 at most, found 'nan'",
        ),
        (
            "check,value,unit\nstraight-2,abc,mm\n",
            "m.csv: line 2, column value: expected a length of at most 1,000,000 mm, found 'abc'",
        ),
        (
            "check,value,unit\nangle-1,9,deg\nangle-1,9,deg\n",
            "m.csv: line 3, column check: expected one reading of each",
        ),
        ("part,check,value,unit\nGD-9,angle-1,9,deg\n", "m.csv: line 2, column part: expected 'GD-118', as the step"),
        ("issue,check,value,unit\n2,angle-1,9,deg\n", "m.csv: line 2, column issue: expected '1', as the step list"),
        (
            "check,value,unit\ndiameter-largest-1,0,mm\n",
            "m.csv: line 2, column value: expected a largest diameter that an OD of 50 mm can have, 40 mm to 94.25 mm, "
            "found 0 mm",
        ),
        (
            "check,value,unit\ndiameter-smallest-2,51.6,mm\nangle-1,9,deg\ndiameter-largest-2,48.9,mm\n",
            "m.csv: line 2, column value: expected at most the largest diameter of its bend, 48.9 mm in line 4, "
            "found 51.6 mm",
        ),
        ("check,value,unit\ndiameter-largest-3,9,mm\n", "m.csv: line 2, column check: expected a bend from 1 to 2"),
        ("x_mm,y_mm,z_mm\n0,0,0\n1,0,0\n", "m.csv: line 3: expected at least 9 points along the axis"),
        ("vertex,x_mm,y_mm,z_mm\n1,0,0,0\n3,1,0,0\n", "m.csv: line 3, column vertex: expected 2, found '3'"),
        ("vertex,x_mm,y_mm,z_mm\n1,0,0,x\n", "m.csv: line 2, column z_mm: expected a number, found 'x'"),
    ],
)
def test_a_mistake_is_one_line_with_its_place(foretold: Foretold, text: str, expected: str) -> None:
    with pytest.raises(InputError) as caught:
        parse_measured(text, "m.csv", foretold)
    assert str(caught.value).splitlines()[0].startswith(expected)


def test_all_mistakes_are_told_at_once(foretold: Foretold) -> None:
    text = "part,check,value,unit\nGD-118,angle-9,3,deg\nGD-9,angle-1,x,deg\nGD-118,straight-2,5,deg\n"
    with pytest.raises(InputError) as caught:
        parse_measured(text, "m.csv", foretold)
    assert [mistake.place for mistake in caught.value.mistakes] == [
        "line 2, column check",
        "line 3, column part",
        "line 3, column value",
        "line 4, column unit",
    ]


def test_readings_that_no_tube_can_have_are_told_all_at_once(foretold: Foretold) -> None:
    """A tube of OD 50 and wall 1.5 keeps its way around, 157 mm, within a fifth; two walls of 3 mm are the least."""
    readings = {
        "angle-1": "-89.1,deg",
        "apex-leg-front": "-300,mm",
        "diameter-largest-1": "516,mm",
        "diameter-smallest-1": "48.9,mm",
        "diameter-largest-2": "51.6,mm",
        "diameter-smallest-2": "5.16,mm",
    }
    text = "check,value,unit\n" + "".join(f"{check},{reading}\n" for check, reading in readings.items())
    with pytest.raises(InputError) as caught:
        parse_measured(text, "m.csv", foretold)
    assert [(mistake.place, mistake.expected, mistake.found) for mistake in caught.value.mistakes] == [
        ("line 2, column value", "a number of 0 or more", "'-89.1'"),
        ("line 3, column value", "a number of 0 or more", "'-300'"),
        (
            "line 4, column value",
            "a largest diameter that an OD of 50 mm can have, 40 mm to 94.25 mm",
            "516 mm",
        ),
        (
            "line 7, column value",
            # 0.8 π 50 / 2 - 51.6
            "at least 11.23 mm, or the tube is not far enough around, beside the largest diameter of its bend, 51.6 "
            "mm in line 6",
            "5.16 mm",
        ),
    ]


@pytest.mark.parametrize(
    ("largest", "smallest"),
    [("51.6", "48.9"), ("60", "37"), ("75", "4"), ("52", "25"), ("2", "1 7/8"), ("50", "50")],
)
def test_a_bend_may_be_as_bad_as_it_likes(foretold: Foretold, largest: str, smallest: str) -> None:
    unit = "in" if largest == "2" else "mm"
    diameters = f"diameter-largest-1,{largest},{unit}\ndiameter-smallest-1,{smallest},{unit}\n"
    text = f"check,value,unit\n{diameters}straight-2,-1,mm\n"
    (piece,) = parse_measured(text, "m.csv", foretold)
    assert len(piece.readings) == 3


def test_diameters_are_told_in_the_unit_of_the_machine(dryer_part: Part, inch_profile: MachineProfile) -> None:
    program = plan_part(dryer_part, inch_profile).program
    assert program is not None
    text = "check,value,unit\ndiameter-largest-1,19.6,in\n"
    with pytest.raises(InputError, match=r"an OD of 1\.969 in can have, 1\.575 in to 3\.711 in, found 19\.6 in"):
        parse_measured(text, "m.csv", foretold_of_program(program))


@pytest.mark.parametrize("separator", [";", "\t", "|"])
def test_readings_as_a_spreadsheet_saves_them_where_the_comma_is_the_decimal_mark(
    foretold: Foretold, separator: str
) -> None:
    """A lot is a word, whatever it looks like."""
    lines = ["piece,lot,check,value,unit", "1,77#31,angle-1,89#6,deg", "1,77#31,straight-2,1/2,in"]
    text = "".join(line.replace(",", separator).replace("#", ",") + "\r\n" for line in lines)
    (piece,) = parse_measured(text, "m.csv", foretold)
    assert piece.lot == "77,31"
    assert [reading.value for reading in piece.readings] == [89.6, 12.7]


def test_lines_of_another_issue_are_told_once(foretold: Foretold) -> None:
    text = "issue,check,value,unit\n2,angle-1,90,deg\n1,angle-2,90,deg\n2,straight-2,133,mm\n3,apex-leg-rear,260,mm\n"
    with pytest.raises(InputError) as refused:
        parse_measured(text, "m.csv", foretold)
    assert str(refused.value).splitlines() == [
        "m.csv: line 2, column issue: expected '1', as the step list says, found '2', and so in 1 line more",
        "m.csv: line 5, column issue: expected '1', as the step list says, found '3'",
    ]
