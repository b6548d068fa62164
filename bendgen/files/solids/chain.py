"""Pieces end to end: the one chain that a tube is, or why there is none."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from bendgen.files.solids.pieces import End, NoTubeError, Piece
from bendgen.files.solids.tolerances import MISFITS, Tolerances
from bendgen.geometry.tube_axes import LineAxis, distances_from
from bendgen.geometry.vectors import Array, angles_between, lengths

STEEPEST_MITRE = math.radians(150.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """Piece in a chain, and whether its last end comes first."""

    piece: Piece
    turned: bool

    def ends(self) -> tuple[End, End]:
        """Ends in the order of the chain."""
        first, last = self.piece.ends()
        return (last, first) if self.turned else (first, last)


def chain_of_pieces(pieces: Sequence[Piece], radius: float, tolerances: Tolerances) -> list[Link]:
    """All pieces in order, the end nearest to the file's origin first.

    Raises
    ------
    NoTubeError    pieces that branch, close to a ring, or are not all used
    """
    pieces = _the_right_way_round(list(pieces), tolerances)
    met = _meeting_ends(pieces, radius, tolerances)
    free = [end for end in range(2 * len(pieces)) if end not in met]
    chains = [_walk(start, met) for start in free]
    longest = max(chains, key=lambda chain: sum(pieces[end // 2].length() for end in chain), default=[])
    if not longest:
        raise NoTubeError("a closed ring, which has no ends")
    unused = set(range(len(pieces))) - {end // 2 for end in longest}
    if unused:
        raise NoTubeError(_left_over_text([pieces[index] for index in sorted(unused)], len(longest)))
    links = [Link(piece=pieces[end // 2], turned=bool(end % 2)) for end in longest]
    return links if _begins_nearer(links) else _reversed(links)


def _the_right_way_round(pieces: list[Piece], tolerances: Tolerances) -> list[Piece]:
    """Pieces with each bend that shows its two ends only turned to where its neighbours are."""
    for index, piece in enumerate(pieces):
        if piece.seamless:
            others = [end for other in pieces if other is not piece for end in other.ends()]
            first, last = piece.span
            outer = replace(piece, span=(last, first + 2.0 * math.pi))
            if _neighbours(outer, others, tolerances) > _neighbours(piece, others, tolerances):
                pieces[index] = outer
    return pieces


def _neighbours(piece: Piece, others: Sequence[End], tolerances: Tolerances) -> int:
    """Number of ends at the place of one of the piece's own that look at it."""
    return sum(
        float(lengths((own.point - other.point)[None])[0]) <= tolerances.join
        and float(own.direction @ other.direction) < 0.0
        for own in piece.ends()
        for other in others
    )


def _meeting_ends(pieces: Sequence[Piece], radius: float, tolerances: Tolerances) -> dict[int, int]:
    """Ends that meet, by number: twice the index of the piece, plus one for its last end."""
    ends = [end for piece in pieces for end in piece.ends()]
    points = np.array([end.point for end in ends]).reshape(-1, 3)
    met: dict[int, int] = {}
    worst = max((piece.misfit for piece in pieces), default=0.0)
    for join, reach in ((_meet_smoothly, tolerances.join_fitted(worst, worst)), (_meet_at_mitre, 10.0 * radius)):
        for one, other in _near_pairs(points, reach):
            if one // 2 == other // 2 or (join is _meet_at_mitre and (one in met or other in met)):
                continue
            if join((pieces[one // 2], ends[one]), (pieces[other // 2], ends[other]), radius, tolerances):
                if one in met or other in met:
                    raise NoTubeError(f"more than two pieces of tube that meet at {place_text(points[one])}")
                met[one], met[other] = other, one
    return met


def _near_pairs(points: Array, reach: float) -> Iterator[tuple[int, int]]:
    for one in range(len(points)):
        apart = lengths(points[one + 1 :] - points[one])
        for other in np.flatnonzero(apart <= reach):
            yield one, one + 1 + int(other)


PieceEnd = tuple[Piece, End]


def _meet_smoothly(one: PieceEnd, other: PieceEnd, _radius: float, tolerances: Tolerances) -> bool:
    """Whether at least one of two pieces that meet is a bend, and the other goes on in its direction."""
    if isinstance(one[0].axis, LineAxis) and isinstance(other[0].axis, LineAxis):
        return False
    misfits = one[0].misfit + other[0].misfit
    facing = one[1].direction + other[1].direction
    shortest = max(1.0, min(one[0].length(), other[0].length()))
    return float(np.sqrt(facing @ facing)) <= tolerances.direction + 2.0 * MISFITS * misfits / shortest


def _meet_at_mitre(one: PieceEnd, other: PieceEnd, radius: float, tolerances: Tolerances) -> bool:
    """Whether two straights are cut off on the plane that halves the angle between them, and meet there.

    The cut of a tube of radius r reaches r · tan(θ/2) beyond the point where the axes meet.
    """
    if not (isinstance(one[0].axis, LineAxis) and isinstance(other[0].axis, LineAxis)):
        return False
    turn = float(angles_between(one[1].direction[None], -other[1].direction[None])[0])
    if not tolerances.direction < turn < STEEPEST_MITRE:
        return False
    corner = corner_of_lines(one[0].axis, other[0].axis)
    beyond = radius * math.tan(0.5 * turn)
    gaps = [
        float(np.abs(distances_from(piece.axis, corner[None])[0]))
        + abs(float((end.point - corner) @ end.direction) - beyond)
        for piece, end in (one, other)
    ]
    return max(gaps) <= tolerances.join + tolerances.slack


def corner_of_lines(one: LineAxis, other: LineAxis) -> Array:
    """Point halfway between the nearest points of two lines that are not parallel, (3,)."""
    apart = other.point - one.point
    cosine = float(one.direction @ other.direction)
    along_one, along_other = float(apart @ one.direction), float(apart @ other.direction)
    sine_square = 1.0 - cosine**2
    on_one = one.at((along_one - cosine * along_other) / sine_square)
    on_other = other.at((cosine * along_one - along_other) / sine_square)
    return 0.5 * (on_one + on_other)


def _walk(start: int, met: dict[int, int]) -> list[int]:
    """Ends by which a chain that begins at a free end enters each of its pieces."""
    entered = [start]
    while (leaving := entered[-1] ^ 1) in met:
        entered.append(met[leaving])
    return entered


def _left_over_text(unused: Sequence[Piece], used: int) -> str:
    named = "; ".join(piece_text(piece) for piece in unused[:3])
    more = f" and {len(unused) - 3} more" if len(unused) > 3 else ""
    return f"{used} pieces end to end and, of the same radius, left over: {named}{more}"


def piece_text(piece: Piece) -> str:
    """Piece in words, with the number of its first face."""
    kind = "a straight" if isinstance(piece.axis, LineAxis) else f"a bend of CLR {piece.axis.clr:.6g} mm"
    middle = 0.5 * (piece.span[0] + piece.span[1])
    where = place_text(piece.axis.at(middle))
    return f"{kind}, {piece.length():.6g} mm long, at {where} (face #{piece.faces[0].number})"


def place_text(point: Array) -> str:
    """Coordinates for a message."""
    x, y, z = point
    return f"({x:.6g}, {y:.6g}, {z:.6g}) mm"


def _begins_nearer(links: Sequence[Link]) -> bool:
    """Whether the first end is not farther from the file's origin than the last."""
    first, last = links[0].ends()[0].point, links[-1].ends()[1].point
    return float(first @ first) <= float(last @ last) * (1.0 + 1e-9)


def _reversed(links: Sequence[Link]) -> list[Link]:
    return [replace(link, turned=not link.turned) for link in reversed(links)]
