"""What the checks of a program would read on other tubes of the same design, thousands at once.

The readings are those of `bendgen.bending.checks`; here they are functions of straights, rotations, angles, radii and
elongations, so that misses of a machine can be carried on to every reading, or looked for behind the readings.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from bendgen.bending.shapes import compared_by_vertices
from bendgen.geometry import legs
from bendgen.geometry.bent_axes import apart, bent_axes, vertices_of_axes
from bendgen.geometry.extents import overall_box
from bendgen.geometry.rigid_fit import rigid_fit
from bendgen.geometry.vectors import Array
from bendgen.records.bent_tube import BentTube
from bendgen.records.foretold import Foretold
from bendgen.units import RADIANS_PER_DEGREE

FROM_THE_BLANK = ("blank", "rear-cut")  # the sheet's own numbers: no part asks for them


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tubes:
    """m finished tubes of n bends.

    straights : (m, n + 1) array, after cutting [mm]
    rotations, angles : (m, n) arrays [rad]
    clr, elongation : (m, n) arrays [mm]
    """

    straights: Array
    rotations: Array
    angles: Array
    clr: Array
    elongation: Array


def finished_tubes(foretold: Foretold) -> Tubes:
    """The one tube that a program is to make, m = 1."""
    return _one_tube(foretold.finished, np.array([step.elongation for step in foretold.steps]))


def wanted_tubes(foretold: Foretold) -> Tubes:
    """The one tube that was aimed at, m = 1; its bends gain what the predicted ones do."""
    return _one_tube(foretold.wanted_tube, np.array([step.elongation for step in foretold.steps]))


def _one_tube(tube: BentTube, elongation: Array) -> Tubes:
    bends = np.array([(bend.rotation_deg, bend.angle_deg, bend.clr) for bend in tube.bends]).reshape(-1, 3)
    return Tubes(
        straights=np.array(tube.straights)[None],
        rotations=bends[None, :, 0] * RADIANS_PER_DEGREE,
        angles=bends[None, :, 1] * RADIANS_PER_DEGREE,
        clr=bends[None, :, 2],
        elongation=elongation[None],
    )


def check_values(foretold: Foretold, tubes: Tubes) -> Array:
    """What each of the c checks of a program reads on each tube made from its blank, an (m, c) array [mm, deg].

    NaN stands for a check of a newer version, which is not known here.

    Parameters
    ----------
    foretold : tells the checks, the blank, and where the wanted part lies
    tubes : with as many bends as the program
    """
    points, directions = bent_axes(tubes.straights, tubes.rotations, tubes.angles, tubes.clr)
    distance = apart(points, directions)
    od = foretold.tube.od
    readings = {
        **_cut_readings(foretold, tubes),
        **_bend_readings(tubes),
        **_leg_readings(tubes, od),
        "offset": distance,
        "width-outside": distance + od,
        "width-centreline": distance,
        "width-inside": distance - od,
        **_box_readings(foretold, tubes, points, directions),
    }
    unknown = np.full(len(distance), np.nan)
    return np.stack([readings.get(check.id, unknown) for check in foretold.checks], axis=1)


def wanted_readings(foretold: Foretold) -> tuple[float, ...]:
    """What each check reads on the part that was asked for [mm, deg]; tolerances count from there.

    What no part asks for, or a newer version checks, is wanted as it is predicted. Where straights are held a leg is
    only how the straight beside the bend is measured: it is wanted as long as it is on the radius that the bend forms.
    """
    on_wanted = check_values(foretold, wanted_tubes(foretold))[0].tolist()
    of_legs = _leg_readings(_wanted_as_formed(foretold), foretold.tube.od)
    on_formed = {name: float(values[0]) for name, values in of_legs.items()}
    return tuple(
        check.predicted if check.id in FROM_THE_BLANK or math.isnan(value) else on_formed.get(check.id, value)
        for check, value in zip(foretold.checks, on_wanted, strict=True)
    )


def _wanted_as_formed(foretold: Foretold) -> Tubes:
    """The tube that was aimed at, with the formed CLR where straights are held."""
    wanted, held = wanted_tubes(foretold), [step.straights_held for step in foretold.steps]
    return replace(wanted, clr=np.where(held, finished_tubes(foretold).clr, wanted.clr))


def _cut_readings(foretold: Foretold, tubes: Tubes) -> dict[str, Array]:
    """Blank, length of a part without bends, and rear cut mark to rear end."""
    blank = foretold.blank
    in_part = tubes.straights.sum(axis=1) + (tubes.clr * tubes.angles - tubes.elongation).sum(axis=1)
    return {
        "blank": np.full(len(in_part), blank.length),
        "length": tubes.straights[:, 0],
        "rear-cut": blank.length - blank.front_trim - in_part,
    }


def _bend_readings(tubes: Tubes) -> dict[str, Array]:
    readings = {}
    for i in range(tubes.angles.shape[1]):
        readings[f"straight-{i + 1}"] = tubes.straights[:, i]
        readings[f"rotation-{i + 1}"] = tubes.rotations[:, i] / RADIANS_PER_DEGREE
        readings[f"angle-{i + 1}"] = tubes.angles[:, i] / RADIANS_PER_DEGREE
    return readings


def _leg_readings(tubes: Tubes, od: float) -> dict[str, Array]:
    if not tubes.angles.shape[1]:
        return {}
    readings = {}
    for end, i in (("front", 0), ("rear", -1)):
        straight, clr, angle = tubes.straights[:, i], tubes.clr[:, i], tubes.angles[:, i]
        readings[f"apex-leg-{end}"] = legs.apex_leg(straight, clr, angle)
        readings[f"outer-apex-leg-{end}"] = legs.outer_apex_leg(straight, clr, angle, od)
        readings[f"crown-leg-{end}"] = legs.crown_leg(straight, clr, od)
    return readings


def _box_readings(foretold: Foretold, tubes: Tubes, points: Array, directions: Array) -> dict[str, Array]:
    """Overall box along the axes of the part's file, each tube laid on the wanted one."""
    wanted = foretold.wanted
    wanted_angles = np.array([bend.angle_deg for bend in foretold.wanted_tube.bends]) * RADIANS_PER_DEGREE
    if wanted.vertices is not None and compared_by_vertices(wanted_angles):
        rotation, shift = rigid_fit(
            vertices_of_axes(points, directions, tubes.angles, tubes.clr), np.array(wanted.vertices)
        )
    else:
        rotation, shift = rigid_fit(points, np.array(wanted.points))
    low, high = overall_box(points @ rotation + shift, directions @ rotation, tubes.angles, tubes.clr, foretold.tube.od)
    return {f"box-{axis}": size for axis, size in zip("xyz", (high - low).T, strict=True)}
