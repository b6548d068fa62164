"""Aligned columns of text for a fixed-width font."""

import unicodedata
from collections.abc import Sequence


def text_table(headings: Sequence[str], rows: Sequence[Sequence[str]], *, align: str, gap: int = 2) -> str:
    """Headings, a rule under each, and the rows, in columns.

    Parameters
    ----------
    headings : one text for each column; all empty: neither headings nor rule are printed
    rows : cells, already text, as many in each row as there are columns
    align : one letter for each column, `l` for left or `r` for right
    gap : spaces between two columns

    Returns
    -------
    str
        Lines joined by line feeds, without spaces at their ends and without a line feed at the end.
    """
    widths = [max(map(display_width, column)) for column in zip(headings, *rows, strict=True)]
    head = [headings, ["-" * width for width in widths]] if any(headings) else []
    return "\n".join(_line(cells, widths, align, " " * gap) for cells in [*head, *rows])


def padded(text: str, width: int, align: str) -> str:
    """`text` filled with spaces to `width` places, aligned `l` left or `r` right; longer text stays whole."""
    filling = " " * (width - display_width(text))
    return filling + text if align == "r" else text + filling


def display_width(text: str) -> int:
    """Places `text` takes in a fixed-width font: combining marks take none, wide characters two."""
    return len(text) if text.isascii() else sum(_places(character) for character in text)


def _places(character: str) -> int:
    if unicodedata.category(character) in {"Mn", "Me", "Cf"}:
        return 0
    return 2 if unicodedata.east_asian_width(character) in {"W", "F"} else 1


def _line(cells: Sequence[str], widths: Sequence[int], align: str, gap: str) -> str:
    columns = zip(cells, widths, align, strict=True)
    return gap.join(padded(cell, width, side) for cell, width, side in columns).rstrip()
