"""What routes between two ports are like: bends, straights, length, and what keeps one from fitting.

A route of n bends is a path whose first vertex lies on the axis of the front port and whose last one lies
on that of the rear port, so that every route reaches both ports exactly, whatever else is wrong with it.
"""

import math
from dataclasses import dataclass

import numpy as np

from bendgen.geometry.fillets import straights_between, tangent_lengths
from bendgen.geometry.vectors import Array, angles_between, cross, lengths

LARGEST_ANGLE = np.radians(179.0)  # a tangent length of more means nothing
CHORDS = 6  # pieces into which an arc is broken up to hold it against boxes
NEAR_ZERO = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RouteSpace:
    """Ports, what the die set makes, and what is in the way; lengths in mm, angles in rad.

    front, rear : (3,) arrays, the ends; towards_front, towards_rear : unit vectors along which the tube leaves them
    shortest : straights needed at the front, between bends, at the rear
    smallest, largest : finished angle of a bend
    angles, clr : (k,) arrays, formed radius over the finished angle
    boxes : (b, 2, 3) array, smallest and largest corners, grown by what the axis has to keep away
    """

    front: Array
    rear: Array
    towards_front: Array
    towards_rear: Array
    shortest: tuple[float, float, float]
    smallest: float
    largest: float
    angles: Array
    clr: Array
    boxes: Array

    def radii(self, angles: Array) -> Array:
        """Formed radius of bends of any shape of array."""
        return np.interp(angles, self.angles, self.clr)

    def paths(self, unknowns: Array, bends: int) -> Array:
        """Vertices (m, n + 2, 3) from the way along each port's axis and the coordinates of the vertices between."""
        paths = np.empty((len(unknowns), bends + 2, 3))
        paths[:, 0], paths[:, -1] = self.front, self.rear
        if bends:
            paths[:, 1] = self.front + unknowns[:, :1] * self.towards_front
            paths[:, -2] = self.rear + unknowns[:, 1:2] * self.towards_rear
        if bends > 2:
            paths[:, 2:-2] = unknowns[:, 2:].reshape(len(unknowns), -1, 3)
        return paths

    def needed(self, bends: int) -> Array:
        """Shortest straights of a route of so many bends, (n + 1,)."""
        front, between, rear = self.shortest
        needed = np.array([0.0, *[between] * (bends - 1), 0.0][: bends + 1])
        needed[0] += front
        needed[-1] += rear
        return needed


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Measured:
    """Measures of m routes of n bends.

    angles : (m, n) [rad]; straights : (m, n + 1); length : (m,), developed [mm]
    missing : (m, 3 n + 2) [mm], 0 where nothing is: for each straight, for each bend too small, for each too large
        (as arcs), and the way inside boxes
    """

    angles: Array
    straights: Array
    length: Array
    missing: Array


def measured_routes(space: RouteSpace, paths: Array) -> Measured:
    """Measures of routes given by their vertices, (m, n + 2, 3)."""
    steps = np.diff(paths, axis=1)
    legs = np.sqrt(np.sum(steps**2, axis=2))
    directions = leg_directions(space, steps, legs)
    flat = angles_between(directions[:, :-1].reshape(-1, 3), directions[:, 1:].reshape(-1, 3))
    angles = np.minimum(flat, LARGEST_ANGLE).reshape(len(paths), -1)
    clr = space.radii(angles)
    tangents = tangent_lengths(angles, clr)
    # A vertex behind its port makes a leg that runs back: shorter than nothing.
    legs[:, 0] = np.sum(steps[:, 0] * space.towards_front, axis=1)
    legs[:, -1] = -np.sum(steps[:, -1] * space.towards_rear, axis=1)
    straights = straights_between(legs.T, tangents.T).T
    missing = [
        np.maximum(space.needed(angles.shape[1]) - straights, 0.0),
        np.maximum(space.smallest - angles, 0.0) * clr,
        np.maximum(angles - space.largest, 0.0) * clr,
        _inside_boxes(space.boxes, paths, directions, tangents)[:, None],
    ]
    length = straights.sum(axis=1) + (clr * angles).sum(axis=1)
    return Measured(angles=angles, straights=straights, length=length, missing=np.concatenate(missing, axis=1))


def leg_directions(space: RouteSpace, steps: Array, legs: Array) -> Array:
    """Directions of the legs of routes, (m, n + 1, 3); the first and the last are those of the ports in any case.

    steps : (m, n + 1, 3), from vertex to vertex; legs : (m, n + 1), their lengths
    """
    directions = steps / np.maximum(legs, NEAR_ZERO)[:, :, None]
    directions[:, 0], directions[:, -1] = space.towards_front, -space.towards_rear
    return directions


def _inside_boxes(boxes: Array, paths: Array, directions: Array, tangents: Array) -> Array:
    """Length of each route that lies inside boxes, (m,); arcs as chords."""
    if not len(boxes):
        return np.zeros(len(paths))
    points = _broken_up(paths, directions, tangents)
    enters: Array = np.zeros(())
    leaves: Array = np.ones(())
    for axis, places in enumerate(points):
        first, second = _shares_of_pieces(places, boxes[:, :, axis])
        enters, leaves = np.maximum(enters, first), np.minimum(leaves, second)
    share = np.maximum(leaves - enters, 0.0).sum(axis=0)
    inside: Array = (share * np.sqrt(np.sum(np.diff(points, axis=2) ** 2, axis=0))).sum(axis=1)
    return inside


def _shares_of_pieces(places: Array, faces: Array) -> tuple[Array, Array]:
    """Where each piece of each route enters and leaves the slab between two faces of each box, as shares of its length.

    places : (m, p + 1) array, along one axis; faces : (b, 2) array, the lower and the upper one

    Returns
    -------
    two (b, m, p) arrays; along an axis that a piece does not follow, it is inside all the way or not at all
    """
    start, step = places[:, :-1], np.diff(places, axis=1)
    lower, upper = faces[:, 0, None, None], faces[:, 1, None, None]
    with np.errstate(divide="ignore", invalid="ignore"):
        first, second = (lower - start) / step, (upper - start) / step
    aside = np.abs(step) < NEAR_ZERO
    within = (start > lower) & (start < upper)
    near = np.where(aside, np.where(within, -np.inf, np.inf), np.minimum(first, second))
    far = np.where(aside, np.where(within, np.inf, -np.inf), np.maximum(first, second))
    return near, far


def _broken_up(paths: Array, directions: Array, tangents: Array) -> Array:
    """Ends and tangent points of each route of (m, n + 2, 3) vertices, with points along every arc; (3, m, p).

    Coordinates come first because numpy is slow along a last axis of three.
    """
    vertices, ways = (np.ascontiguousarray(np.moveaxis(values, 2, 0))[..., None] for values in (paths, directions))
    pieces = [vertices[:, :, 0]]
    part = np.linspace(0.0, 1.0, CHORDS + 1)
    for bend in range(tangents.shape[1]):
        vertex, tangent = vertices[:, :, bend + 1], tangents[:, bend, None]
        before, behind = vertex - tangent * ways[:, :, bend], vertex + tangent * ways[:, :, bend + 1]
        # A quadratic curve through both tangent points lies outside the arc, nearer to the vertex: on the safe side.
        pieces.append((1.0 - part) ** 2 * before + 2.0 * part * (1.0 - part) * vertex + part**2 * behind)
    return np.concatenate([*pieces, vertices[:, :, -1]], axis=2)


def meeting(space: RouteSpace) -> tuple[float, float, float]:
    """Way along each port's axis to where both come nearest, and how far apart they are there.

    Parallel axes come nearest nowhere, which counts as infinitely far apart.
    """
    across = cross(space.towards_front, space.towards_rear)
    size = float(across @ across)
    if size < NEAR_ZERO:
        return 0.0, 0.0, float("inf")
    between = space.rear - space.front
    along_front = float(cross(between, space.towards_rear) @ across) / size
    along_rear = float(cross(between, space.towards_front) @ across) / size
    return along_front, along_rear, abs(float(between @ across)) / float(np.sqrt(size))


def gap_between_axes(space: RouteSpace) -> Array:
    """Shift of the rear port, (3,), after which its axis meets that of the front port, or runs in it."""
    between = space.rear - space.front
    along_front, along_rear, apart = meeting(space)
    if math.isinf(apart):
        aside: Array = (between @ space.towards_front) * space.towards_front - between
        return aside
    gap: Array = along_front * space.towards_front - between - along_rear * space.towards_rear
    return gap


def in_line(space: RouteSpace, noise: float) -> bool:
    """Whether a straight tube joins both ports."""
    between = space.rear - space.front
    distance = float(lengths(between[None])[0])
    straight = float(lengths((between - distance * space.towards_front)[None])[0]) <= noise
    return straight and float(lengths((space.towards_front + space.towards_rear)[None])[0]) * distance <= noise
