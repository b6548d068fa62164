"""From measured points to readings: vertices as they are, points along the axis by the lines through its straights."""

from itertools import pairwise

import numpy as np

from bendgen.bending.check_values import Tubes, check_values
from bendgen.geometry.axis_distance import Axis, fitted_to_axis, nearest_on_axis
from bendgen.geometry.fillets import straights_between, tangent_lengths
from bendgen.geometry.polylines import plane_rotations, segments, turning_angles
from bendgen.geometry.rigid_fit import distances_after_fit
from bendgen.geometry.vectors import Array, lengths
from bendgen.records.comparison import Fit, PointDeviation
from bendgen.records.foretold import Foretold
from bendgen.units import RADIANS_PER_DEGREE, Units, format_length

TOLD_BY_VERTICES = ("angle-", "rotation-", "straight-", "apex-leg-", "offset", "width-centreline")
CLEAR_OF_BENDS = 0.1  # share of a straight at either end whose points may belong to the bend
ALONG_DECIMALS: dict[Units, int] = {"mm": 0, "in": 1}  # of a place that nobody marks
FEWEST_ON_LINE = 3


def readings_of_vertices(foretold: Foretold, vertices: Array) -> dict[str, float]:
    """What the checks would read on a part with those vertices, an (n + 2, 3) array; what they cannot tell is absent.

    The radii are taken to be the predicted ones, so that straights can be told at all.
    """
    segment_lengths, directions = segments(vertices)
    angles = turning_angles(directions)
    bends = foretold.finished.bends
    arcs = np.array([bend.clr * bend.angle_deg for bend in bends]) * RADIANS_PER_DEGREE
    clr = arcs / np.maximum(angles, 1e-9)
    rotations = np.concatenate(([0.0], plane_rotations(directions))) if len(angles) else np.zeros(0)
    tubes = Tubes(
        straights=straights_between(segment_lengths, tangent_lengths(angles, clr))[None],
        rotations=rotations[None],
        angles=angles[None],
        clr=clr[None],
        elongation=np.zeros((1, len(angles))),
    )
    values = check_values(foretold, tubes)[0].tolist()
    named = zip(foretold.checks, values, strict=True)
    return {check.id: value for check, value in named if check.id.startswith(TOLD_BY_VERTICES)}


def fit_of_vertices(foretold: Foretold, vertices: Array) -> Fit:
    """Measured vertices laid on the wanted ones, and whether the mirror image would lie better."""
    wanted = np.array(foretold.wanted.vertices)
    distances = distances_after_fit(vertices, wanted)
    inner = [f"vertex {i}" for i in range(2, len(wanted))]
    names = ["front end", *inner, "rear end"]
    return Fit(
        points=tuple(PointDeviation(place=name, distance=d) for name, d in zip(names, distances.tolist(), strict=True)),
        rms=_rms(distances),
        largest=float(distances.max()),
        mirrored_rms=_rms(distances_after_fit(vertices * (-1.0, 1.0, 1.0), wanted)),
    )


def vertices_of_axis(foretold: Foretold, points: Array) -> tuple[Fit, Array | None]:
    """Points along an axis laid on the wanted axis, and the vertices that they tell.

    The first and the last point are taken for the ends. None where a straight has too few points for a line.
    """
    axis = axis_of_wanted(foretold)
    moved = fitted_to_axis(points, axis)
    nearest, pieces = nearest_on_axis(moved, axis)
    distances = lengths(moved - nearest)
    worst = int(distances.argmax())
    along = float(lengths(np.diff(moved[: worst + 1], axis=0)).sum())
    place = PointDeviation(
        place=f"{format_length(along, foretold.units, ALONG_DECIMALS[foretold.units])} from the front end",
        distance=float(distances[worst]),
    )
    fit = Fit(points=(place,), rms=_rms(distances), largest=float(distances.max()))
    lines = [_line_on_straight(moved[pieces == 2 * i], axis, i) for i in range(len(axis.directions))]
    found = [line for line in lines if line is not None]
    return fit, _corners(moved, found) if len(found) == len(lines) else None


def axis_of_wanted(foretold: Foretold) -> Axis:
    """Axis of the wanted part, where its file puts it."""
    points = np.array(foretold.wanted.points)
    way = points[1::2] - points[::2]
    length = lengths(way)
    along = np.where(length[:, None] > 0.0, way / np.maximum(length, 1e-300)[:, None], 0.0)
    bends = foretold.wanted_tube.bends
    return Axis(
        points=points,
        directions=along,
        angles=np.array([bend.angle_deg for bend in bends]) * RADIANS_PER_DEGREE,
        clr=np.array([bend.clr for bend in bends]),
    )


def _line_on_straight(points: Array, axis: Axis, i: int) -> tuple[Array, Array] | None:
    """Centre and direction of the line through the points well within straight i; None where they are too few."""
    start, end = axis.points[2 * i : 2 * i + 2]
    length = float(np.linalg.norm(end - start))
    part = (points - start) @ axis.directions[i]
    clear = points[(part > CLEAR_OF_BENDS * length) & (part < (1.0 - CLEAR_OF_BENDS) * length)]
    if len(clear) < FEWEST_ON_LINE:
        return None
    centre = clear.mean(axis=0)
    direction = np.linalg.svd(clear - centre, full_matrices=False)[2][0]
    return centre, direction * np.sign(direction @ axis.directions[i])


def _corners(points: Array, lines: list[tuple[Array, Array]]) -> Array:
    """Ends, and where neighbouring lines come nearest to each other."""
    inner = [_meeting(*one, *other) for one, other in pairwise(lines)]
    ends = [
        centre + ((end - centre) @ way) * way for end, (centre, way) in ((points[0], lines[0]), (points[-1], lines[-1]))
    ]
    return np.array([ends[0], *inner, ends[1]])


def _meeting(centre: Array, way: Array, other_centre: Array, other_way: Array) -> Array:
    """Point halfway between two lines where they come nearest."""
    apart = other_centre - centre
    cosine = float(way @ other_way)
    square = max(1.0 - cosine * cosine, np.finfo(float).tiny)
    here = (apart @ way - (apart @ other_way) * cosine) / square
    there = ((apart @ way) * cosine - apart @ other_way) / square
    middle: Array = (centre + here * way + other_centre + there * other_way) / 2.0
    return middle


def _rms(distances: Array) -> float:
    return float(np.sqrt((distances**2).mean()))
