"""A bench on which a bent tube is measured with protractor and tape, sharing no formula with the package.

It reads what the sheet asks for by the sheet's names.
"""

import math
from itertools import pairwise

import numpy as np
from scipy.spatial.transform import Rotation

from tests.independent_bender import Array, Made


def turned_round(made: Made) -> Made:
    """The same tube with its rear end taken for its front."""
    return Made(
        points=made.points[::-1],
        directions=[-direction for direction in made.directions[::-1]],
        finished_deg=made.finished_deg[::-1],
    )


def read(made: Made, whole: Made, *, od: float, blank: float) -> dict[str, float]:
    """Readings of a sawn tube; `whole` is the same before its rear was cut."""
    legs = made.directions
    readings = {"blank": blank, "rear-cut": float(np.linalg.norm(whole.points[-1] - made.points[-1]))}
    for i, straight in enumerate(made.straights()):
        readings[f"straight-{i + 1}"] = straight
    for i, (before, after) in enumerate(pairwise(legs)):
        readings[f"angle-{i + 1}"] = between_deg(before, after)
    for i, (before, middle, after) in enumerate(zip(legs, legs[1:], legs[2:], strict=False)):
        readings[f"rotation-{i + 2}"] = plane_to_plane_deg(before, middle, after)
    corners = made.vertices()
    for end, near, far, bend in (("front", 0, 1, 1), ("rear", -1, -2, len(legs) - 1)):
        leg = float(np.linalg.norm(corners[near] - corners[far]))
        half = math.radians(readings[f"angle-{bend}"]) / 2.0
        chord = float(np.linalg.norm(made.points[2 * bend - 1] - made.points[2 * bend]))
        readings[f"apex-leg-{end}"] = leg
        readings[f"outer-apex-leg-{end}"] = leg + od / 2.0 * math.tan(half)
        straight = readings["straight-1" if end == "front" else f"straight-{len(legs)}"]
        readings[f"crown-leg-{end}"] = straight + chord / (2.0 * math.sin(half)) + od / 2.0
    return readings


def between_deg(one: Array, other: Array) -> float:
    return math.degrees(math.acos(max(-1.0, min(1.0, float(one @ other)))))


def plane_to_plane_deg(before: Array, middle: Array, after: Array) -> float:
    """Turn from the plane of one bend to the next, by projecting the legs onto a plane across the straight between."""
    near, far = -before + (before @ middle) * middle, after - (after @ middle) * middle
    up = np.cross(middle, near)
    angle = math.degrees(math.atan2(float(far @ up), float(far @ near)))
    return 180.0 if angle <= -179.999999 else angle


def read_box(made: Made, drawn: Array, *, od: float) -> dict[str, float]:
    """Overall box of a tube laid on the drawing by its vertices, `drawn`; walked along in short pieces."""
    corners = made.vertices()
    turn, _ = Rotation.align_vectors(drawn - drawn.mean(axis=0), corners - corners.mean(axis=0))
    centres, headings = [], []
    for i, (before, after) in enumerate(pairwise(made.directions)):
        begin = made.points[2 * i + 1]
        angle = math.radians(between_deg(before, after))
        inward = after - (after @ before) * before
        inward /= np.linalg.norm(inward)
        radius = float(np.linalg.norm(made.points[2 * i + 2] - begin)) / (2.0 * math.sin(angle / 2.0))
        for part in np.linspace(0.0, angle, 600):
            centres.append(begin + radius * (math.sin(part) * before + (1.0 - math.cos(part)) * inward))
            headings.append(math.cos(part) * before + math.sin(part) * inward)
    for end, heading in ((0, made.directions[0]), (-1, made.directions[-1])):
        centres.append(made.points[end])
        headings.append(heading)
    middles, ways = turn.apply(np.array(centres)), turn.apply(np.array(headings))
    reach = od / 2.0 * np.sqrt(np.maximum(1.0 - ways**2, 0.0))
    sizes = (middles + reach).max(axis=0) - (middles - reach).min(axis=0)
    return dict(zip(("box-x", "box-y", "box-z"), sizes.tolist(), strict=True))
