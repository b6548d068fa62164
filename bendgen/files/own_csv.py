"""Tables that this tool asks people for: trial bends, measured pieces, steps.

Their columns stand between commas; or, as spreadsheets save them where the comma is the decimal mark, between
semicolons or tabs, and then numbers may have a decimal comma.
"""

from collections.abc import Sequence

from bendgen.errors import Mistake
from bendgen.files.csv_lines import CsvLine, csv_lines
from bendgen.files.decimal_marks import has_decimal_comma, with_points

SEPARATORS = (";", "\t", "|")
WORDS = frozenset({"part", "piece", "lot", "check", "unit", "die", "material", "temper", "id", "remark"})
NO_THOUSANDS = "a decimal point, or a number that shows that its comma is none between thousands"


def own_csv_lines(text: str, file: str, expected_head: str) -> list[CsvLine]:
    """Lines that hold anything, the head first, numbers with a decimal point; raises InputError as `csv_lines` does."""
    first = text.lstrip("\ufeff\r\n").partition("\n")[0]
    separator = "," if "," in first else next((mark for mark in SEPARATORS if mark in first), ",")
    head, *lines = csv_lines(text, file, expected_head, separator=separator)
    words = [column for column, name in enumerate(head.cells) if name.casefold() in WORDS]
    if separator != "," and has_decimal_comma(lines, file, NO_THOUSANDS, words=words):
        lines = [with_points(line, words=words) for line in lines]
    return [head, *lines]


def check_width(line: CsvLine, columns: Sequence[str], file: str) -> Mistake | None:
    """A line with more or fewer cells than the head row has columns."""
    if len(line.cells) == len(columns):
        return None
    comma = "; a decimal comma makes two cells of one" if len(line.cells) > len(columns) else ""
    expected = f"{len(columns)} cells, as many as the head row has"
    return Mistake(file=file, place=f"line {line.number}", expected=expected, found=f"{len(line.cells)}{comma}")
