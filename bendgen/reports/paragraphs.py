"""Running text broken into lines of a fixed-width font."""

import re
import unicodedata
from collections.abc import Iterator

from bendgen.reports.text_table import display_width

LEFT_TO_RIGHT_MARK = "\u200e"

# A word keeps the space behind it, so that text appears as it was written; a number keeps its unit of length.
_WORD = re.compile(r"(?:\d\S* (?:mm|in)\b\S*|\S+)\s*|\s+")


def paragraph(text: str, *, width: int, first: str = "", other: str | None = None) -> str:
    """`text` in lines of at most `width` places; a word longer than a line is broken, nothing is left out.

    first, other : what the first line and all others begin with; other: as many spaces as first is wide
    """
    other = " " * display_width(first) if other is None else other
    room = width - max(display_width(first), display_width(other))
    lines = [line for source in text.splitlines() or [""] for line in broken_lines(source, room)]
    return "\n".join(((other if number else first) + line).rstrip() for number, line in enumerate(lines))


def broken_lines(text: str, room: int) -> list[str]:
    """One line of text as lines of at most `room` places."""
    lines = [""]
    for word in _WORD.findall(text):
        for piece in _pieces(word, room):
            if lines[-1] and display_width(lines[-1] + piece.rstrip()) > room:
                lines.append("")
            lines[-1] += piece
    return [line.rstrip() for line in lines]


def _pieces(word: str, room: int) -> Iterator[str]:
    """The word whole where it fits on a line, else in pieces that do."""
    if display_width(word.rstrip()) <= room:
        yield word
        return
    piece = ""
    for character in word:
        if piece and display_width(piece + character) > room:
            yield piece
            piece = ""
        piece += character
    yield piece


def left_to_right(text: str) -> str:
    """`text`, closed with an invisible mark where it holds right-to-left letters.

    Without it a viewer that orders scripts would show the numbers of the next columns before such a text.
    """
    return text + LEFT_TO_RIGHT_MARK if written_leftwards(text) else text


def written_leftwards(text: str) -> bool:
    """Whether a text holds letters that run from right to left."""
    return not text.isascii() and any(unicodedata.bidirectional(character) in {"R", "AL", "AN"} for character in text)
