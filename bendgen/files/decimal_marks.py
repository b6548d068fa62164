"""Whether the numbers of a table have a decimal comma, and the same table with points."""

import re
from collections.abc import Collection, Iterator, Sequence

from bendgen.errors import mistaken
from bendgen.files.csv_lines import DECIMAL_NUMBER, CsvLine

COMMA_NUMBER = re.compile(r"[+-]?[0-9]*,[0-9]+([eE][+-]?[0-9]+)?")
COMMA_MAY_BE_THOUSANDS = re.compile(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}")


def has_decimal_comma(lines: Sequence[CsvLine], file: str, expected: str, *, words: Collection[int] = ()) -> bool:
    """Whether the numbers of a table that is not separated by commas have a decimal one.

    Parameters
    ----------
    expected : what would settle whether a comma stands between thousands
    words : columns, counted from 0, that hold no numbers

    Raises
    ------
    InputError    there are points, too; or every comma may stand between thousands
    """
    numbers = [(line.number, cell) for line in lines for cell in _cells(line, words)]
    commas = [(number, cell) for number, cell in numbers if "," in cell and COMMA_NUMBER.fullmatch(cell)]
    if not commas:
        return False
    point = next(((line, cell) for line, cell in numbers if "." in cell and DECIMAL_NUMBER.fullmatch(cell)), None)
    number, cell = commas[0]
    if point is not None:
        found = f"'{cell}', and '{point[1]}' in line {point[0]}"
        raise mistaken(file, "one decimal mark", found, place=f"line {number}")
    if all(COMMA_MAY_BE_THOUSANDS.fullmatch(cell) for _, cell in commas):
        raise mistaken(file, expected, f"'{cell}'", place=f"line {number}")
    return True


def _cells(line: CsvLine, words: Collection[int]) -> Iterator[str]:
    return (cell for column, cell in enumerate(line.cells) if column not in words)


def with_points(line: CsvLine, *, words: Collection[int] = ()) -> CsvLine:
    """The line with a decimal point in every number that has a comma."""
    cells = [
        cell.replace(",", ".") if column not in words and COMMA_NUMBER.fullmatch(cell) else cell
        for column, cell in enumerate(line.cells)
    ]
    return CsvLine(number=line.number, cells=cells)
