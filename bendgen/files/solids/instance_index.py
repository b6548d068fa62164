"""Where each instance of an ISO 10303-21 file stands in its text, found on whole arrays of bytes at once."""

import re
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

SEMICOLON, QUOTE, HASH, EQUALS, SPACE, ZERO = b";'#= 0"
MOST_DIGITS = 18
BLANKS_AT_ONCE = 8  # rounds over all statements; the few with more blanks than that are looked at one by one

_BLANKS = re.compile(r"[\x00- ]*")
_END_OF_SECTION = re.compile(r"ENDSEC\s*")
_NEXT_SECTION = re.compile(r"DATA\s*(?:\([^;]*\)\s*)?")

Codes = NDArray[np.uint8]
Places = NDArray[np.int64]
Flags = NDArray[np.bool_]


class NoInstanceError(ValueError):
    """Where in the text something else stands than an instance, or one whose number another has; then its number."""

    def __init__(self, position: int, twice: int | None = None) -> None:
        super().__init__(position)
        self.position = position
        self.twice = twice


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class InstanceIndex:
    """Instances in the order of the file.

    numbers : of the instances
    starts, ends : where what stands behind `#12=` begins, and its semicolon
    rows : place in these lists by number
    """

    numbers: list[int]
    starts: list[int]
    ends: list[int]
    rows: dict[int, int]


def index_of_instances(text: str, position: int) -> InstanceIndex:
    """Index of all instances in the DATA sections of a file, the first of which begins at `position`.

    text : one character for each byte of the file, without comments

    Raises
    ------
    NoInstanceError    where something else stands, or for the second of one number
    """
    codes = np.frombuffer(text.encode("latin-1"), dtype=np.uint8)
    starts, ends = _statements(codes, position, text)
    numbers, bodies, sound = _numbered(codes, starts, text)
    kept = _rows_of_instances(text, (starts, ends), sound)
    if kept is None:
        raise NoInstanceError(int(ends[-1]) + 1 if len(ends) else position)
    starts, ends, numbers, bodies = starts[kept], ends[kept], numbers[kept], bodies[kept]
    order = np.argsort(numbers, kind="stable")
    again = order[1:][np.diff(numbers[order]) == 0]
    if len(again):
        raise NoInstanceError(int(starts[again.min()]), int(numbers[again.min()]))
    listed = numbers.tolist()
    rows = dict(zip(listed, range(len(listed)), strict=True))
    return InstanceIndex(numbers=listed, starts=bodies.tolist(), ends=ends.tolist(), rows=rows)


def _statements(codes: Codes, position: int, text: str) -> tuple[Places, Places]:
    """Where every statement begins, blanks left out, and its semicolon; those in quoted texts end nothing."""
    ends = position + np.flatnonzero(codes[position:] == SEMICOLON)
    quotes = position + np.flatnonzero(codes[position:] == QUOTE)
    ends = ends[np.searchsorted(quotes, ends) % 2 == 0]
    return _after_blanks(codes, np.concatenate(([position], ends[:-1] + 1))[: len(ends)], text), ends


def _numbered(codes: Codes, starts: Places, text: str) -> tuple[Places, Places, Flags]:
    """Number of each statement, where its body begins, and whether it is `#12=` and a body at all.

    No step leads beyond a statement, as its semicolon is neither a digit nor a blank.
    """
    sound = codes[starts] == HASH
    first = starts + sound
    places, numbers = first, np.zeros_like(starts)
    for _ in range(MOST_DIGITS):
        digits = codes[places] - ZERO  # what stands before the zero comes out above nine, these being unsigned
        is_digit = digits < 10
        if not is_digit.any():
            break
        numbers = np.where(is_digit, 10 * numbers + digits, numbers)
        places = places + is_digit
    sound &= places > first
    places = _after_blanks(codes, places, text)
    sound &= codes[places] == EQUALS
    return numbers, _after_blanks(codes, places + sound, text), sound


def _after_blanks(codes: Codes, places: Places, text: str) -> Places:
    """First place from each on that is no blank."""
    for _ in range(BLANKS_AT_ONCE):
        blank = codes[places] <= SPACE
        if not blank.any():
            return places
        places = places + blank
    for row in np.flatnonzero(codes[places] <= SPACE).tolist():
        found = _BLANKS.match(text, int(places[row]))
        places[row] = found.end() if found else places[row]
    return places


def _rows_of_instances(text: str, statements: tuple[Places, Places], sound: Flags) -> Flags | None:
    """Which statements are instances: all up to the end of the last section, but for what ends and begins one.

    Returns None where no section ends.
    """
    starts, ends = statements
    kept = sound.copy()
    begin = 0  # of a section, as a row
    for row in np.flatnonzero(~sound).tolist():
        if row < begin:
            continue
        if not _END_OF_SECTION.fullmatch(text, starts[row], ends[row]):
            raise NoInstanceError(int(starts[row]))
        begin = row + 2
        if begin > len(starts) or not _NEXT_SECTION.fullmatch(text, starts[row + 1], ends[row + 1]):
            kept[row:] = False
            return kept
    return None
