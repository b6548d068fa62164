"""From the wish to bends in a row: angles, rotations, and what lies between them."""

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from bendgen.bending.seam import first_rotation
from bendgen.errors import GeometryError
from bendgen.geometry.polylines import plane_rotations, segments, turning_angles
from bendgen.geometry.vectors import Array
from bendgen.records.bent_tube import Mark
from bendgen.records.part import Centreline, Part, WantedSteps
from bendgen.units import DEGREES_PER_RADIAN, RADIANS_PER_DEGREE

STRAIGHT_ON_DEG = 1e-6  # a vertex that turns less is no bend but a mark on the straight
FOLDS_BACK_DEG = 180.0 - 1e-6  # nothing bends a tube back onto itself at a point


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Layout:
    """Bends of a part with n bends, front first.

    angles_deg, rotations_deg : (n,) arrays; the first rotation is 0 unless a weld seam asks for another
    clr : CLR asked for at each bend, None where the part leaves it to the die
    segment_lengths : (n + 1,) array, vertex to vertex [mm]; None for a part given as steps
    straights : (n + 1,) array [mm]; None for a part given as vertices
    vertices : (n + 2, 3) array [mm]; None for steps
    kept : index into the part's own vertices of each vertex used
    mark_distances : (straight, distance from that straight's first vertex) of each vertex that does not turn
    """

    angles_deg: Array
    rotations_deg: Array
    clr: tuple[float | None, ...]
    segment_lengths: Array | None = None
    straights: Array | None = None
    vertices: Array | None = None
    kept: tuple[int, ...] = ()
    mark_distances: tuple[tuple[int, float], ...] = ()


def layout_of_part(part: Part) -> Layout:
    """Bends of the part's one wish.

    Raises
    ------
    GeometryError
        fewer than two vertices, equal neighbours, or a path that folds straight back
    """
    if part.centreline is not None:
        return _with_seam(layout_of_centreline(part.centreline), part.tube.seam_deg)
    if part.steps is not None:
        return _with_seam(layout_of_steps(part.steps), part.tube.seam_deg)
    raise GeometryError("the part asks for nothing: it needs a centreline or steps")


def marks_of_layout(layout: Layout, straights: Array, arcs: Array, tangents: Array) -> tuple[Mark, ...]:
    """Marks along the finished axis.

    Parameters
    ----------
    layout : with n bends
    straights : (n + 1,) array, finished [mm]
    arcs, tangents : (n,) arrays, developed and tangent length of each bend [mm]
    """
    starts = np.concatenate(([0.0], np.cumsum(straights[:-1] + arcs)))
    behind_vertex = np.concatenate(([0.0], tangents))  # a straight begins this far behind the vertex before it
    return tuple(
        Mark(straight=number, from_front=float(starts[number - 1] + distance - behind_vertex[number - 1]))
        for number, distance in layout.mark_distances
    )


def _with_seam(layout: Layout, seam_deg: float | None) -> Layout:
    """The same bends, the first one rotated to where the seam does best."""
    if seam_deg is None or not layout.angles_deg.size:
        return layout
    rotations = layout.rotations_deg.copy()
    rotations[0] = first_rotation(layout.angles_deg, rotations, seam_deg)
    return replace(layout, rotations_deg=rotations)


def layout_of_steps(steps: WantedSteps) -> Layout:
    """Bends of finished steps."""
    straights = [bend.straight for bend in steps.bends]
    # The rotation of the first bend only turns the tube in the collet; it makes no other part.
    rotations = [0.0, *(bend.rotation_deg for bend in steps.bends[1:])][: len(straights)]
    return Layout(
        angles_deg=np.array([bend.angle_deg for bend in steps.bends], dtype=float),
        rotations_deg=np.array(rotations, dtype=float),
        clr=tuple(bend.clr for bend in steps.bends),
        straights=np.array([*straights, steps.rear], dtype=float),
    )


def layout_of_centreline(centreline: Centreline) -> Layout:
    """Bends at the vertices of a path; raises GeometryError as `layout_of_part` does."""
    if len(centreline.vertices) < 2:
        raise GeometryError("a centreline needs at least two vertices")
    points = np.array([(v.x, v.y, v.z) for v in centreline.vertices], dtype=float)
    kept = _turning_vertices(points, centreline.merge_below_deg or 0.0)
    vertices = points[list(kept)]
    lengths, directions = segments(vertices)
    rotations = np.zeros(len(kept) - 2)
    if len(kept) > 3:
        rotations[1:] = plane_rotations(directions) * DEGREES_PER_RADIAN
    return Layout(
        angles_deg=turning_angles(directions) * DEGREES_PER_RADIAN,
        rotations_deg=rotations,
        clr=tuple(centreline.vertices[i].clr for i in kept[1:-1]),
        segment_lengths=lengths,
        vertices=vertices,
        kept=kept,
        mark_distances=_mark_distances(points, kept),
    )


def _turning_vertices(points: Array, merge_below_deg: float) -> tuple[int, ...]:
    """Indices of the ends and of the vertices that turn; one that is left out lets its neighbours turn anew."""
    kept = list(range(len(points)))
    threshold = max(merge_below_deg, STRAIGHT_ON_DEG) * RADIANS_PER_DEGREE
    while True:
        vertices = points[kept]
        steps = np.abs(np.diff(vertices, axis=0)).max(axis=1)
        if not steps.all():
            raise GeometryError(*_equal_neighbours(kept, int(np.argmin(steps))))
        turns = turning_angles(segments(vertices)[1])
        back = turns > FOLDS_BACK_DEG * RADIANS_PER_DEGREE
        if back.any():
            number = kept[int(np.argmax(back)) + 1] + 1
            raise GeometryError(f"vertex {number}: the path folds straight back on itself", vertex=number)
        straight_on = np.flatnonzero(turns < threshold)
        if not straight_on.size:
            return tuple(kept)
        # One at a time, the straightest first: leaving out a whole run at once would hide a slow curve.
        del kept[int(straight_on[np.argmin(turns[straight_on])]) + 1]


def _equal_neighbours(kept: list[int], position: int) -> tuple[str, int]:
    number, next_number = kept[position] + 1, kept[position + 1] + 1
    return f"vertices {number} and {next_number} are the same point", next_number


def _mark_distances(points: Array, kept: tuple[int, ...]) -> tuple[tuple[int, float], ...]:
    """Straight number and distance from that straight's first vertex of each vertex left out."""
    return tuple(
        (straight, float(np.linalg.norm(points[index] - points[first])))
        for straight, (first, last) in enumerate(pairwise(kept), start=1)
        for index in range(first + 1, last)
    )
