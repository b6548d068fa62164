"""Decimal commas among the vertices of a part's file: TOML reads two numbers, and the second may pass as a CLR.

What was meant cannot be told from the numbers, but from the way they are written: whoever leaves a space behind some
commas of a list and none behind others means two kinds of comma.
"""

import re
from collections.abc import Iterator, Mapping

from bendgen.errors import InputError, Mistake

TEXTS_AND_COMMENTS = re.compile(r'"(?:\\.|[^"\\\n])*"|\'[^\'\n]*\'|#[^\n]*')
LIST_OF_NUMBERS = re.compile(r"\[[ \t]*[-+.\d][-+.\d, \t]*\]")
WITHOUT_SPACE = re.compile(r"(?<![.\d])\d+,\d+(?![.\d])")  # whole numbers on both sides
EXPECTED = "a decimal point, not a comma, or the same space behind every comma"
WITH_SPACE = re.compile(r",[ \t]+[-+.\d]")


def refuse_decimal_commas(text: str, data: Mapping[str, object], file: str) -> None:
    """Raise InputError for vertices of more than three numbers, some of whose commas look like decimal ones.

    text : of the part's file; data: the same as TOML reads it
    """
    if not _has_more_than_points(data):
        return
    bare = TEXTS_AND_COMMENTS.sub(lambda found: " " * len(found[0]), text)
    mistakes = [
        Mistake(file=file, place=f"line {line}", expected=EXPECTED, found=found) for line, found in _lists(bare)
    ]
    if mistakes:
        raise InputError(mistakes)


def _has_more_than_points(data: Mapping[str, object]) -> bool:
    centreline = data.get("centreline")
    vertices = centreline.get("vertices") if isinstance(centreline, dict) else None
    return isinstance(vertices, list) and any(isinstance(vertex, list) and len(vertex) > 3 for vertex in vertices)


def _lists(text: str) -> Iterator[tuple[int, str]]:
    """Line and text of each list with commas of both kinds."""
    for found in LIST_OF_NUMBERS.finditer(text):
        if WITHOUT_SPACE.search(found[0]) and WITH_SPACE.search(found[0]):
            yield text.count("\n", 0, found.start()) + 1, found[0]
