import pytest

from bendgen.reports.text_table import display_width, padded, text_table


def test_columns_are_as_wide_as_their_widest_cell() -> None:
    table = text_table(["die", "OD"], [["d50-r100", "50"], ["d38", "101.6"]], align="lr")
    assert table.splitlines() == [
        "die          OD",
        "--------  -----",
        "d50-r100     50",
        "d38       101.6",
    ]


def test_no_rows_leaves_the_headings() -> None:
    assert text_table(["a", "bcd"], [], align="lr") == "a  bcd\n-  ---"


def test_empty_headings_leave_the_rows() -> None:
    assert text_table(["", ""], [["feed", "1.5"], ["bend", "90.0"]], align="lr", gap=3) == "feed    1.5\nbend   90.0"


def test_lines_end_without_spaces() -> None:
    assert text_table(["a", "b"], [["1", ""], ["", "x"]], align="ll") == "a  b\n-  -\n1\n   x"


@pytest.mark.parametrize(("rows", "align"), [([["a"]], "ll"), ([["a", "b"]], "l")])
def test_a_ragged_table_is_refused(rows: list[list[str]], align: str) -> None:
    with pytest.raises(ValueError, match="zip"):
        text_table(["one", "two"], rows, align=align)


@pytest.mark.parametrize(
    ("text", "width"),
    [
        ("Bogen", 5),
        ("e\u0301", 1),  # e with a combining acute accent
        ("管", 2),  # an ideograph
        ("ｱ", 1),  # a half-width katakana
        ("מידה", 4),  # right-to-left letters take one place each
        ("", 0),
    ],
)
def test_display_width(text: str, width: int) -> None:
    assert display_width(text) == width


def test_wide_and_combining_characters_keep_the_next_column_in_place() -> None:
    table = text_table(["", ""], [["管", "1"], ["e\u0301", "2"], ["abc", "3"]], align="lr")
    assert [display_width(line) for line in table.splitlines()] == [6, 6, 6]


def test_text_longer_than_its_place_stays_whole() -> None:
    assert padded("abcdef", 3, "r") == "abcdef"
