"""What counts as a number in a table from elsewhere, and lines too long to be any."""

from math import isfinite

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.errors import InputError
from bendgen.files.csv_lines import DECIMAL_NUMBER, csv_lines
from bendgen.files.foreign_csv import finite_number


@pytest.mark.parametrize("cell", ["0", "-0", "+5", "5.", ".5", "1e3", "-1.25E-2", "007"])
def test_numbers(cell: str) -> None:
    assert finite_number(cell) == float(cell)


@pytest.mark.parametrize(
    "cell", ["", ".", "nan", "inf", "-Infinity", "1e999", "1_000", "0x10", "1,5", "٣", "１", "1 2", "5°"]
)
def test_no_numbers(cell: str) -> None:
    assert finite_number(cell) is None


@settings(max_examples=100)
@given(st.text(alphabet="0123456789+-.eE_infa٣x ", max_size=6))
def test_the_quick_way_reads_what_the_pattern_does(text: str) -> None:
    cell = text.strip()
    number = DECIMAL_NUMBER.fullmatch(cell) is not None and isfinite(float(cell))
    assert (finite_number(cell) is not None) == number


@pytest.mark.parametrize("end", ["\n", "\r", "\r\n"])
def test_a_line_of_a_million_characters(end: str) -> None:
    head = f"x,y{end}"
    assert len(csv_lines(head + f"{'1' * 1000},2{end}" * 1200, "a.csv", "", separator=",")) == 1201
    with pytest.raises(InputError) as caught:
        csv_lines(f"{head}{'1' * 1_000_000}{end}", "a.csv", "", separator=",")
    assert str(caught.value) == "a.csv: expected lines of less than a million characters, found a longer one"
