"""Whether a solid is nothing but the tube that was read from it: every point of every face lies in the tube's wall."""

from collections.abc import Sequence

import numpy as np

from bendgen.files.solids.chain import piece_text, place_text
from bendgen.files.solids.faces import Face
from bendgen.files.solids.pieces import NoTubeError, Piece
from bendgen.files.solids.tolerances import Tolerances
from bendgen.geometry.spine_distances import Spine, spine_distances
from bendgen.geometry.tube_axes import turns_about
from bendgen.geometry.vectors import Array
from bendgen.units import DEGREES_PER_RADIAN

ALL_ROUND = 0.1  # of the radius; the middle of a face that goes all round the axis is no farther from it
WIDEST_OPENING = np.pi * 2.0 / 3.0  # rad; slots and cuts are narrower, and what bends must hold its shape


def check_outside(faces: Sequence[Face], spine: Spine, radius: float, tolerances: Tolerances, *, misfit: float) -> None:
    """Raise NoTubeError unless every point of the tube's outside faces is at its radius from the axis read.

    misfit : of the outside faces [mm]
    """
    numbers, points = _numbered_points(faces)
    if not len(points):
        raise NoTubeError("round faces that have no edges")
    off = np.abs(spine_distances(points, spine) - radius)
    strict = tolerances.join_fitted(misfit, misfit)
    exact = np.concatenate([face.are_exact() for face in faces])
    excess = off - np.where(exact, strict, max(strict, tolerances.slack))
    worst = int(np.argmax(excess))
    if not excess[worst] <= 0.0:
        raise NoTubeError(
            f"an axis that does not fit the faces: #{numbers[worst]} is {off[worst]:.3g} mm off at "
            f"{place_text(points[worst])}"
        )


def check_all_round(pieces: Sequence[Piece]) -> None:
    """Raise NoTubeError for a piece whose faces leave much of the way round its axis open, as a gutter's do.

    pieces : in the order of the chain; of the first and last a skew cut may leave little, but not of all of them
    """
    gaps = [_widest_opening(piece) for piece in pieces]
    inner = slice(1, -1) if min(gaps) <= WIDEST_OPENING else slice(None)
    for piece, gap in zip(pieces[inner], gaps[inner], strict=True):
        if gap > WIDEST_OPENING:
            open_deg = gap * DEGREES_PER_RADIAN
            raise NoTubeError(f"faces that leave {open_deg:.0f}° of the way round open, in {piece_text(piece)}")


def _widest_opening(piece: Piece) -> float:
    """Widest angle round a piece's axis [rad] at which none of its faces has a point."""
    turns = np.sort(turns_about(piece.axis, np.vstack([face.points() for face in piece.faces])))
    return float(np.diff(turns, append=turns[:1] + 2.0 * np.pi).max(initial=0.0))


def check_wall(faces: Sequence[Face], spine: Spine, wall: tuple[float, float], tolerances: Tolerances) -> None:
    """Raise NoTubeError for faces that stand out of the tube or into its bore.

    Parameters
    ----------
    wall : radius of the bore, 0 for a bar, and of the outside
    """
    numbers, points = _numbered_points(faces)
    distance = spine_distances(points, spine)
    inner, outer = wall
    outlying = (distance > outer + tolerances.slack) | (distance < inner - tolerances.slack)
    if not np.any(outlying):
        return
    wrong = sorted(set(numbers[outlying].tolist()))
    kinds = {face.number: face.kind for face in faces}
    named = ", ".join(f"#{number} ({kinds[number]})" for number in wrong[:3])
    more = f" and {len(wrong) - 3} more" if len(wrong) > 3 else ""
    where = place_text(points[int(np.argmax(outlying))])
    raise NoTubeError(f"{len(wrong)} faces that are not in the tube's wall, near {where}: {named}{more}")


def check_open(faces: Sequence[Face], spine: Spine, radius: float, tolerances: Tolerances) -> None:
    """Raise NoTubeError for a face that closes the bore: all round its edge it is as far from the axis as the bore.

    A face at an end that is open has its edge at the bore and another outside; one of its halves is not all round.

    Parameters
    ----------
    faces : those that are neither the tube's outside nor its bore
    radius : of the bore
    """
    flat = [face for face in faces if face.surface is None and len(face.points())]
    if not flat:
        return
    listed = [face.points() for face in flat]
    off = np.abs(spine_distances(np.vstack(listed), spine) - radius)
    first_points = np.cumsum([0, *(len(points) for points in listed[:-1])])
    middles = np.array([points.mean(axis=0) for points in listed])
    closing = np.maximum.reduceat(off, first_points) <= tolerances.slack
    closing &= spine_distances(middles, spine) <= ALL_ROUND * radius
    for index in np.flatnonzero(closing)[:1]:
        raise NoTubeError(f"a bore that is closed by #{flat[index].number} at {place_text(middles[index])}")


def _numbered_points(faces: Sequence[Face]) -> tuple[Array, Array]:
    """Number of its face for each point, (n,), and the points, (n, 3)."""
    listed = [face.points() for face in faces]
    numbers = np.repeat([face.number for face in faces], [len(points) for points in listed])
    return numbers, np.vstack([np.empty((0, 3)), *listed])
