"""The outside of a tube, piece by piece: faces on one axis are one straight or one bend, however they are split."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bendgen.files.solids.axis_index import AxisIndex
from bendgen.files.solids.edge_curves import WIDEST_STEP
from bendgen.files.solids.faces import Face
from bendgen.files.solids.tolerances import Tolerances
from bendgen.geometry.axis_refinement import refined_axis
from bendgen.geometry.tube_axes import ArcAxis, LineAxis, TubeAxis, TubeSurface, distances_from
from bendgen.geometry.vectors import Array, cross, lengths

MOST_PIECES = 2000
NO_GAP = 1.01 * WIDEST_STEP  # between the ends of a bend; points along it are no nearer to each other


class NoTubeError(ValueError):
    """Why a solid is no tube that can be bent, in words that follow "found"."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class End:
    """An end of a piece: (3,) point on its axis, (3,) direction out of the piece."""

    point: Array
    direction: Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Piece:
    """One straight or bend of a tube.

    span : first and last position on a line [mm] or angle on a circle [rad]
    misfit : of its surfaces [mm]
    seamless : a bend that shows its two ends only, so that either way round may be meant
    """

    axis: TubeAxis
    span: tuple[float, float]
    faces: tuple[Face, ...]
    misfit: float
    seamless: bool = False

    def ends(self) -> tuple[End, End]:
        """First and last end."""
        first, last = self.span
        if isinstance(self.axis, LineAxis):
            ahead = self.axis.direction
            return End(point=self.axis.at(first), direction=-ahead), End(point=self.axis.at(last), direction=ahead)
        return (
            End(point=self.axis.at(first), direction=-self.axis.tangent(first)),
            End(point=self.axis.at(last), direction=self.axis.tangent(last)),
        )

    def length(self) -> float:
        """Length along the axis [mm]."""
        extent = self.span[1] - self.span[0]
        return extent if isinstance(self.axis, LineAxis) else extent * self.axis.clr


def tube_faces(faces: Sequence[Face], tolerances: Tolerances) -> tuple[float, list[Face]]:
    """Radius of the tube, and the faces of its outside: of all radii of convex faces the one with most surface.

    Returns 0 and no faces where nothing is round outside.
    """
    round_faces = sorted(
        ((face.surface.radius, face) for face in faces if face.surface and face.convex), key=lambda item: item[0]
    )
    families: list[list[tuple[float, Face]]] = []
    for radius, face in round_faces:
        if families and radius - families[-1][-1][0] <= tolerances.join_fitted(_misfit(face)):
            families[-1].append((radius, face))
        else:
            families.append([(radius, face)])
    if not families:
        return 0.0, []
    largest = max(families, key=lambda family: sum(radius * _extent(face) for radius, face in family))
    middle, _ = largest[len(largest) // 2]
    return middle, [face for _, face in largest]


def _misfit(face: Face) -> float:
    return face.surface.misfit if face.surface else 0.0


def _extent(face: Face) -> float:
    """Length of a face along its axis [mm]."""
    surface = face.surface
    assert surface is not None  # only round faces are asked
    first, last, _ = _span(surface.axis, face.points())
    return last - first if isinstance(surface.axis, LineAxis) else (last - first) * surface.axis.clr


def pieces_of_faces(faces: Sequence[Face], tolerances: Tolerances) -> list[Piece]:
    """Straights and bends that the faces of one radius make, in the order of their first faces."""
    groups: list[list[Face]] = []
    axes = AxisIndex()
    for face in faces:
        assert face.surface is not None  # only round faces make a tube
        near = (groups[index] for index in axes.near(face.surface.axis, tolerances.join_fitted(_misfit(face))))
        mate = next((group for group in near if _on_one_axis(group[0], face, tolerances)), None)
        if mate is not None:
            mate.append(face)
            continue
        groups.append([face])
        axes.add(face.surface.axis)
        if len(axes) > MOST_PIECES:
            raise NoTubeError(f"more than {MOST_PIECES} straights and bends")
    return [piece for group in groups for piece in _pieces_of_group(group, tolerances)]


def _on_one_axis(one: Face, other: Face, tolerances: Tolerances) -> bool:
    assert one.surface is not None  # only round faces are grouped
    assert other.surface is not None
    points = other.points()
    allowed = tolerances.join_fitted(_misfit(one), _misfit(other)) + tolerances.tilt * reach(one.surface.axis, points)
    return same_axis(one.surface, other.surface, points, allowed)


def reach(axis: TubeAxis, points: Array) -> float:
    """How far from the point that a file names on an axis other points are [mm]: what a tilt is multiplied by."""
    middle = axis.point if isinstance(axis, LineAxis) else axis.centre
    return float(lengths(points - middle).max(initial=0.0))


def same_axis(one: TubeSurface, other: TubeSurface, points: Array, allowed: float) -> bool:
    """Whether two surfaces have one axis, as far as points of the other one reach."""
    if isinstance(one.axis, LineAxis) and isinstance(other.axis, LineAxis):
        return bool(np.all(distances_from(one.axis, other.axis.nearest(points)) <= allowed))
    if isinstance(one.axis, ArcAxis) and isinstance(other.axis, ArcAxis):
        tilt = float(np.linalg.norm(cross(one.axis.normal, other.axis.normal))) * one.axis.clr
        apart = float(np.linalg.norm(one.axis.centre - other.axis.centre))
        return max(tilt, apart, abs(one.axis.clr - other.axis.clr)) <= allowed
    return False


def _pieces_of_group(group: list[Face], tolerances: Tolerances) -> list[Piece]:
    """Pieces of faces on one axis: a bend is one; straights on one line may have a gap between them."""
    best = min(group, key=lambda face: face.surface.misfit if face.surface else math.inf)
    assert best.surface is not None
    axis = best.surface.axis
    if tolerances.tilt:
        axis = refined_axis(axis, np.vstack([face.points() for face in group]), best.surface.radius)
    misfit = max(face.surface.misfit for face in group if face.surface)
    if isinstance(axis, ArcAxis):
        first, last, seamless = _span(axis, np.vstack([face.points() for face in group]))
        if 2.0 * math.pi - (last - first) <= NO_GAP:
            raise NoTubeError("a ring, closed or nearly so")
        return [Piece(axis=axis, span=(first, last), faces=tuple(group), misfit=misfit, seamless=seamless)]
    spans = sorted(((*_span(axis, face.points())[:2], face) for face in group), key=lambda item: item[:2])
    runs: list[tuple[float, float, list[Face]]] = []
    for first, last, face in spans:
        if runs and first <= runs[-1][1] + tolerances.join_fitted(misfit):
            runs[-1] = (runs[-1][0], max(runs[-1][1], last), [*runs[-1][2], face])
        else:
            runs.append((first, last, [face]))
    return [Piece(axis=axis, span=run[:2], faces=tuple(run[2]), misfit=misfit) for run in runs]


def _span(axis: TubeAxis, points: Array) -> tuple[float, float, bool]:
    """First and last position or angle of points, and whether a bend may go either way round.

    The angles of a bend are all but the widest gap between those of its points.
    """
    if not len(points):
        return 0.0, 0.0, False
    if isinstance(axis, LineAxis):
        along = axis.positions(points)
        return float(along.min()), float(along.max()), False
    angles = np.sort(axis.angles(points))
    gaps = np.diff(angles, append=angles[0] + 2.0 * np.pi)
    widest = int(np.argmax(gaps))
    first = float(angles[(widest + 1) % len(angles)])
    extent = 2.0 * math.pi - float(gaps[widest])
    inside = np.mod(angles - first, 2.0 * np.pi)
    seamless = not np.any((inside > 0.05 * extent) & (inside < 0.95 * extent))
    return first, first + extent, seamless
