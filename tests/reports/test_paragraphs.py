"""Running text in lines of a fixed-width font."""

from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.reports.paragraphs import LEFT_TO_RIGHT_MARK, left_to_right, paragraph
from bendgen.reports.text_table import display_width


def test_lines_break_between_words() -> None:
    assert paragraph("one two three", width=10, first="- ") == "- one two\n  three"


def test_a_word_longer_than_a_line_is_broken() -> None:
    assert paragraph("abcdefgh ij", width=4) == "abcd\nefgh\nij"


def test_spaces_between_words_stay_and_empty_text_is_a_line() -> None:
    assert paragraph("a   b", width=10) == "a   b"
    assert paragraph("", width=10, first="name") == "name"
    assert paragraph("one\ntwo", width=10, first="- ") == "- one\n  two"


def test_a_number_keeps_its_unit() -> None:
    assert paragraph("travels 3100 mm; so", width=14) == "travels\n3100 mm; so"
    assert paragraph("some 3.5 in or", width=9) == "some\n3.5 in or"
    assert paragraph("3.5 inner", width=5) == "3.5\ninner"


def test_wide_and_combining_characters_count_as_they_show() -> None:
    assert paragraph("乾燥機", width=4) == "乾燥\n機"
    assert paragraph("e\u0301" * 4, width=4) == "e\u0301" * 4


@given(text=st.text(alphabet=st.characters(categories=["L", "N", "P", "Zs"]), max_size=80), width=st.integers(4, 30))
@settings(max_examples=200)
def test_every_character_is_kept_and_every_line_fits(text: str, width: int) -> None:
    lines = paragraph(text, width=width).splitlines()
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(display_width(line) <= width for line in lines)


def test_only_leftward_letters_are_closed_with_a_mark() -> None:
    assert left_to_right("d50-r100 °") == "d50-r100 °"
    assert left_to_right("חמישים 50") == f"חמישים 50{LEFT_TO_RIGHT_MARK}"
