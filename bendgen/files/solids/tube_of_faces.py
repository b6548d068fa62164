"""A tube from the faces of a solid, or of several that meet at mitres."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from bendgen.files.solids.bore import bore_of_tube
from bendgen.files.solids.chain import Link, chain_of_pieces
from bendgen.files.solids.chain_axis import ChainAxis, axis_of_chain
from bendgen.files.solids.faces import Face
from bendgen.files.solids.pieces import NoTubeError, pieces_of_faces, tube_faces
from bendgen.files.solids.tolerances import Tolerances
from bendgen.files.solids.tube_ends import EndReach, end_reach
from bendgen.files.solids.wall_checks import check_all_round, check_open, check_outside, check_wall


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TubeOfFaces:
    """A tube as found: radii outside and of the bore (0: none), axis, reach at both ends, other faces in its wall."""

    radius: float
    bore: float
    axis: ChainAxis
    reaches: tuple[EndReach, EndReach]
    others: tuple[Face, ...]
    misfit: float


def tube_of_faces(faces: Sequence[Face], tolerances: Tolerances) -> TubeOfFaces:
    """Tube that the faces are, every one of them.

    Raises
    ------
    NoTubeError    why they are none
    """
    radius, outside = tube_faces(faces, tolerances)
    if not outside:
        raise NoTubeError(_nothing_round_text(faces))
    pieces = pieces_of_faces(outside, tolerances)
    links = chain_of_pieces(pieces, radius, tolerances)
    bore, inside = bore_of_tube(faces, [link.piece for link in links], radius, tolerances)
    skins = {face.number for face in (*outside, *inside)}
    others = [face for face in faces if face.number not in skins]
    reaches = _reaches(links, faces, skins, radius + tolerances.slack)
    axis = _extended(axis_of_chain(links), reaches)
    misfit = max(piece.misfit for piece in pieces)
    spine = axis.spine()
    if np.all(axis.clr > 0.0):
        check_outside(outside, spine, radius, tolerances, misfit=misfit)
        check_wall([*others, *inside], spine, (bore, radius), tolerances)
    else:
        corner = radius * _corner_share(axis)
        check_wall(outside, spine, (radius, corner), tolerances)
        check_wall([*others, *inside], spine, (bore, corner), tolerances)
    if bore:
        check_open(others, spine, bore, tolerances)
    check_all_round([link.piece for link in links])
    return TubeOfFaces(radius=radius, bore=bore, axis=axis, reaches=reaches, others=tuple(others), misfit=misfit)


def _nothing_round_text(faces: Sequence[Face]) -> str:
    fitted = sum("B_SPLINE" in face.kind for face in faces)
    also = f", and {fitted} approximated ones that are near to neither" if fitted else ""
    return f"no face that is a cylinder or a bend{also}"


def _corner_share(axis: ChainAxis) -> float:
    """How much farther than its radius the outer edge of the sharpest mitre lies from the corner of the axes."""
    return float(1.0 / np.cos(0.5 * axis.angles[axis.clr == 0.0].max()))


def _reaches(links: Sequence[Link], faces: Sequence[Face], skins: set[int], radius: float) -> tuple[EndReach, EndReach]:
    """Reach at the front and at the rear."""
    first, last = links[0], links[-1]
    return (
        end_reach(first.ends()[0], first.piece, faces, skins, radius),
        end_reach(last.ends()[1], last.piece, faces, skins, radius),
    )


def _extended(axis: ChainAxis, reaches: tuple[EndReach, EndReach]) -> ChainAxis:
    """Axis with both ends where the solid ends."""
    starts, ends = axis.starts.copy(), axis.ends.copy()
    starts[0] -= reaches[0].beyond * axis.directions[0]
    ends[-1] += reaches[1].beyond * axis.directions[-1]
    return replace(axis, starts=starts, ends=ends)
