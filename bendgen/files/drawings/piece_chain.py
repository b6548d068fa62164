"""Pieces put one behind the other, whatever their order and direction in the drawing."""

from collections.abc import Iterable, Sequence
from itertools import product

import numpy as np

from bendgen.errors import mistaken
from bendgen.files.drawings.pieces import Piece, place_text
from bendgen.geometry.vectors import Array
from bendgen.units import MM_PER_DRAWN_UNIT, DrawnUnits

SAME_PLACE = 0.01  # mm; ends drawn nearer than this are meant to meet (common practice, no source)
MOST_PLACES = 10  # named in one message


def chained(pieces: Sequence[Piece], file: str, units: DrawnUnits) -> list[Piece]:
    """Pieces in order from the open end that lies nearer the origin, each turned the way the path runs.

    units : of the drawing, for messages

    Raises
    ------
    InputError    every branch, or every gap, with its place; or a path that is closed
    """
    meeting = _meeting_ends(pieces)
    branches = [end for end, others in meeting.items() if len(others) > 1]
    if branches:
        ends_of_branches = _one_of_each(branches, meeting)[:MOST_PLACES]
        places = ", ".join(place_text(_place(pieces, end), units) for end in ends_of_branches)
        raise mistaken(file, "two ends, at most, to meet anywhere", f"branches at {places}")
    ends = [end for end, others in meeting.items() if not others]
    if not ends:
        raise mistaken(file, "a path with two ends", "a closed one")
    ends.sort(key=lambda end: float(np.linalg.norm(_place(pieces, end))))
    if len(ends) > 2:
        raise mistaken(file, "one path with two ends", _gaps(pieces, ends, units))
    return _followed(pieces, meeting, ends[0])


End = tuple[int, int]  # index of a piece, and 0 for its first point or -1 for its last


def _meeting_ends(pieces: Sequence[Piece]) -> dict[End, list[End]]:
    """For every end the others at its place, found by the cells of a grid that it and its neighbours lie in."""
    cells: dict[tuple[int, int, int], list[End]] = {}
    for end in product(range(len(pieces)), (0, -1)):
        cells.setdefault(_cell(_place(pieces, end)), []).append(end)
    meeting: dict[End, list[End]] = {}
    for cell, ends in cells.items():
        near = [
            other
            for step in product((-1, 0, 1), repeat=3)
            for other in cells.get((cell[0] + step[0], cell[1] + step[1], cell[2] + step[2]), ())
        ]
        for end in ends:
            place = _place(pieces, end)
            meeting[end] = [
                other
                for other in near
                if other != end and float(np.linalg.norm(_place(pieces, other) - place)) <= SAME_PLACE
            ]
    return meeting


def _cell(place: Array) -> tuple[int, int, int]:
    x, y, z = np.floor(place / SAME_PLACE).astype(int).tolist()
    return x, y, z


def _place(pieces: Sequence[Piece], end: End) -> Array:
    place: Array = pieces[end[0]].points[end[1]]
    return place


def _one_of_each(ends: Iterable[End], meeting: dict[End, list[End]]) -> list[End]:
    """One end of each place where several meet."""
    chosen: list[End] = []
    named: set[End] = set()
    for end in ends:
        if end not in named:
            chosen.append(end)
            named.update({end, *meeting[end]})
    return chosen


def _gaps(pieces: Sequence[Piece], ends: Sequence[End], units: DrawnUnits) -> str:
    """Open ends in pairs, each with the nearest of another path, the nearest pair first."""
    pairs = sorted(
        (float(np.linalg.norm(_place(pieces, a) - _place(pieces, b))), a, b)
        for number, a in enumerate(ends[:200])
        for b in ends[number + 1 : 200]
        if a[0] != b[0]
    )
    taken: set[End] = set()
    gaps: list[str] = []
    for width, a, b in pairs:
        if not taken & {a, b} and len(gaps) < len(ends) // 2 - 1:
            taken |= {a, b}
            gaps.append(
                f"a gap of {width / MM_PER_DRAWN_UNIT[units]:.3g} {units} at {place_text(_place(pieces, a), units)}"
            )
    return "; ".join(gaps[:MOST_PLACES])


def _followed(pieces: Sequence[Piece], meeting: dict[End, list[End]], start: End) -> list[Piece]:
    path = []
    end: End | None = start
    while end is not None:
        index, side = end
        path.append(pieces[index] if side == 0 else pieces[index].turned_round())
        behind = meeting[(index, -1 - side)]
        end = behind[0] if behind else None
    return path
