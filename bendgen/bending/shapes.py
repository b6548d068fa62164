"""Wanted and predicted shape, one laid on the other."""

from dataclasses import dataclass

import numpy as np

from bendgen.bending.compensation import ANGLE_NOISE_DEG, HELD_UP_TO_DEG, Bends
from bendgen.bending.layout import Layout
from bendgen.bending.modelled_machine import Moves, Played, play
from bendgen.geometry.extents import overall_box
from bendgen.geometry.fillets import tangent_lengths
from bendgen.geometry.rigid_fit import rigid_fit
from bendgen.geometry.vectors import Array, cross, lengths, unit
from bendgen.records.bent_tube import Bend, BentTube, Point, Shape
from bendgen.units import RADIANS_PER_DEGREE

SIDEWAYS = 1e-6  # a component across the first straight smaller than this shows no side
NO_VERTEX_FROM_DEG = 180.0  # from here on the straights before and after a bend never meet


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Solid:
    """A bent tube of n bends in space.

    points : (2 n + 2, 3) array, ends and tangent points, front first; vertices : (n + 2, 3) array or None
    directions : (n + 1, 3) array, unit vectors along the straights
    angles : (n,) array [rad]; clr : (n,) array [mm]
    """

    points: Array
    vertices: Array | None
    directions: Array
    angles: Array
    clr: Array

    def shape(self) -> Shape:
        """Points and vertices as a record."""
        vertices = None if self.vertices is None else _points(self.vertices)
        return Shape(points=_points(self.points), vertices=vertices)


def wanted_tube(layout: Layout, bends: Bends) -> BentTube:
    """What is aimed at: around held vertices the straights that the formed radius leaves, else those asked for."""
    clr = np.where(bends.held, bends.clr, bends.die_clr)
    return bent_tube(bends.straights, layout.angles_deg, layout.rotations_deg, clr)


def bent_tube(straights: Array, angles_deg: Array, rotations_deg: Array, clr: Array) -> BentTube:
    """Record of straights (n + 1,) and bends (n,)."""
    return BentTube(
        straights=tuple(straights.tolist()),
        bends=tuple(
            Bend(angle_deg=angle, rotation_deg=rotation, clr=radius)
            for angle, rotation, radius in zip(angles_deg.tolist(), rotations_deg.tolist(), clr.tolist(), strict=True)
        ),
    )


def wanted_solid(layout: Layout, tube: BentTube) -> Solid:
    """Wanted part where the part's file puts it; steps begin where a machine drawing left would leave them."""
    angles = layout.angles_deg * RADIANS_PER_DEGREE
    clr = np.array([bend.clr for bend in tube.bends])
    if layout.vertices is None:
        return solid_of_played(play(_moves_of(tube)), layout.angles_deg, clr)
    vertices = layout.vertices
    steps = np.diff(vertices, axis=0)
    directions = steps / lengths(steps)[:, None]
    tangents = tangent_lengths(angles, clr)[:, None]
    points = np.empty((2 * len(angles) + 2, 3))
    points[[0, -1]] = vertices[[0, -1]]
    points[1:-1:2] = vertices[1:-1] - tangents * directions[:-1]
    points[2:-1:2] = vertices[1:-1] + tangents * directions[1:]
    return Solid(points=points, vertices=vertices, directions=directions, angles=angles, clr=clr)


def _moves_of(tube: BentTube) -> Moves:
    return Moves(
        feeds=np.array(tube.straights[:-1], dtype=float),
        rotations_deg=np.array([bend.rotation_deg for bend in tube.bends], dtype=float),
        angles_deg=np.array([bend.angle_deg for bend in tube.bends], dtype=float),
        clr=np.array([bend.clr for bend in tube.bends], dtype=float),
        front_trim=0.0,
        rear=tube.straights[-1],
        side="left",
    )


def solid_of_tube(tube: BentTube) -> Solid:
    """Any bent tube, made on a modelled machine that draws left."""
    moves = _moves_of(tube)
    return solid_of_played(play(moves), moves.angles_deg, moves.clr)


def solid_of_played(played: Played, angles_deg: Array, clr: Array) -> Solid:
    """The tube as the modelled machine left it."""
    return Solid(
        points=played.points,
        vertices=played.vertices if np.all(angles_deg < NO_VERTEX_FROM_DEG) else None,
        directions=played.directions,
        angles=angles_deg * RADIANS_PER_DEGREE,
        clr=clr,
    )


def laid_on(predicted: Solid, wanted: Solid) -> tuple[Solid, float]:
    """Predicted tube moved onto the wanted one, never mirrored, and the largest distance left [mm].

    Vertices and ends are compared; where a bend is too large for its vertex to be held, ends and tangent points: a
    vertex that runs away with the angle would be all that counts.
    """
    if predicted.vertices is not None and wanted.vertices is not None and compared_by_vertices(wanted.angles):
        ours, theirs = predicted.vertices, wanted.vertices
    else:
        ours, theirs = predicted.points, wanted.points
    rotation, shift = rigid_fit(ours, theirs)
    moved = Solid(
        points=predicted.points @ rotation + shift,
        vertices=None if predicted.vertices is None else predicted.vertices @ rotation + shift,
        directions=predicted.directions @ rotation,
        angles=predicted.angles,
        clr=predicted.clr,
    )
    return moved, float(lengths(ours @ rotation + shift - theirs).max())


def compared_by_vertices(angles: Array) -> bool:
    """Whether a part with those angles [rad] is laid on another by its vertices, not by its tangent points."""
    return bool(np.all(angles <= (HELD_UP_TO_DEG + ANGLE_NOISE_DEG) * RADIANS_PER_DEGREE))


def in_own_frame(solid: Solid) -> Solid:
    """The same tube with its front end at the origin, its first straight along +x, its first bend towards +y."""
    along = solid.directions[0]
    hints = (solid.directions[min(1, len(solid.directions) - 1)], solid.points[-1] - solid.points[0], *np.eye(3))
    across = (hint - (hint @ along) * along for hint in hints)
    # A first bend of half a turn points nowhere sideways: the far end tells its side; a straight tube has none.
    side = next(candidate for candidate in across if candidate @ candidate > SIDEWAYS**2)
    side = unit(side)
    axes = np.stack((along, side, cross(along, side)), axis=1)
    origin = solid.points[0]
    return Solid(
        points=(solid.points - origin) @ axes,
        vertices=None if solid.vertices is None else (solid.vertices - origin) @ axes,
        directions=solid.directions @ axes,
        angles=solid.angles,
        clr=solid.clr,
    )


def box_of_solid(solid: Solid, od: float) -> tuple[Array, Array]:
    """Smallest and largest coordinates of the tube over its outside, (3,) arrays [mm]."""
    return overall_box(solid.points, solid.directions, solid.angles, solid.clr, od)


def _points(rows: Array) -> tuple[Point, ...]:
    return tuple((x, y, z) for x, y, z in rows.tolist())
