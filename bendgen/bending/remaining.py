"""The steps that remain once some bends are made, so that the rest of the part still lands where it should.

What is made is laid on the wanted part by a best fit that cannot mirror. The leg behind the last bend made points
where it points: the next vertex is the place on it nearest to the wanted one, and from there the wanted vertices are
aimed at. A bend that was made is never asked for again, nor undone.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from bendgen.bending.misses import KINDS, Misses, missed_tubes
from bendgen.bending.planning import plan_part
from bendgen.errors import GeometryError
from bendgen.geometry.bent_axes import bent_axes, vertices_of_axes
from bendgen.geometry.fillets import tangent_lengths
from bendgen.geometry.rigid_fit import distances_after_fit, rigid_fit
from bendgen.geometry.vectors import Array, unit
from bendgen.records.bend_program import BendProgram, Plan
from bendgen.records.correction import BendCorrection, Correction
from bendgen.records.foretold import Foretold
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Centreline, Part, Vertex
from bendgen.units import RADIANS_PER_DEGREE


def plan_remaining(part: Part, profile: MachineProfile, foretold: Foretold, correction: Correction, made: int) -> Plan:
    """Plan of the whole part as it will be, whose steps after `made` are those that remain.

    Parameters
    ----------
    part : as it was to be bent; foretold: its program
    correction : what was learned from the bends that are made

    Raises
    ------
    GeometryError
        no bend is made or none remains; or bends of 180° and more leave no vertices to aim at
    """
    if not 1 <= made < len(foretold.steps):
        raise GeometryError(f"of {len(foretold.steps)} bends {made} are made: from 1 up to all but one can be")
    if foretold.wanted.vertices is None:
        raise GeometryError("bends of 180° and more leave no vertices to aim at: the rest cannot be solved again")
    wanted = np.array(foretold.wanted.vertices)
    path = _path(_made_vertices(foretold, correction.bends, made), wanted, made)
    clr = [None, *(_asked_clr(part, profile, step.die) for step in foretold.steps), None]
    vertices = tuple(Vertex(x=x, y=y, z=z, clr=radius) for (x, y, z), radius in zip(path.tolist(), clr, strict=True))
    whole = replace(
        part, centreline=Centreline(vertices=vertices), steps=None, offset=None, route=None, correction=correction
    )
    return plan_part(_with_blank(whole, foretold), profile)


def off_the_wanted(program: BendProgram, foretold: Foretold) -> float:
    """Largest distance of a vertex or an end from where the part was wanted, after a best fit [mm]."""
    ours, theirs = np.array(program.predicted.vertices), np.array(foretold.wanted.vertices)
    return float(distances_after_fit(ours, theirs).max())


def _asked_clr(part: Part, profile: MachineProfile, die: str) -> float | None:
    """CLR by which a bend asks for its die; a part that names its die need not."""
    return None if part.die == die else profile.die(die).clr


def _with_blank(part: Part, foretold: Foretold) -> Part:
    """The blank is in the machine: its length and its front trim stand."""
    return replace(part, blank=foretold.blank.length, front_trim=foretold.blank.front_trim, rear_trim=None)


def _made_vertices(foretold: Foretold, bends: Sequence[BendCorrection], made: int) -> Array:
    """Front end, vertices of the bends made, and a point on the leg behind them, as far on as the next vertex was."""
    tubes = missed_tubes(foretold, _misses_of_made(foretold, bends, made))
    behind = foretold.finished.bends[made]
    angle = np.array([behind.angle_deg]) * RADIANS_PER_DEGREE
    leg = foretold.finished.straights[made] + tangent_lengths(angle, np.array([behind.clr]))[0]
    straights = np.append(tubes.straights[0, :made], leg)[None]
    angles, clr = tubes.angles[:, :made], tubes.clr[:, :made]
    points, directions = bent_axes(straights, tubes.rotations[:, :made], angles, clr)
    vertices: Array = vertices_of_axes(points, directions, angles, clr)[0]
    return vertices


def _misses_of_made(foretold: Foretold, bends: Sequence[BendCorrection], made: int) -> Misses:
    """What the bends made did beyond the program; what it allowed for already, it did not miss."""
    before = foretold.corrections or (BendCorrection(),) * len(bends)
    misses = {kind: np.zeros((1, len(bends))) for kind in KINDS}
    for i in range(made):
        now, then, slope = bends[i], before[i], foretold.steps[i].slope
        lost = (now.lost_motion_deg - then.lost_motion_deg) / slope * RADIANS_PER_DEGREE
        sprung = (now.springback_deg - then.springback_deg) / slope * RADIANS_PER_DEGREE
        not_wound = lost * foretold.finished.bends[i].clr
        misses["angles"][0, i] = -lost - sprung
        misses["rotations"][0, i] = (now.rotation_deg - then.rotation_deg) * RADIANS_PER_DEGREE
        misses["feeds"][0, i] = now.feed - then.feed
        misses["arcs"][0, i] = -not_wound
        misses["used"][0, i] = -not_wound - (now.elongation - then.elongation)
    return Misses(**misses)


def _path(made_vertices: Array, wanted: Array, made: int) -> Array:
    """Vertices to aim at: those made, the next one on their last leg, and the wanted ones after it."""
    rotation, shift = rigid_fit(made_vertices, wanted[: made + 2])
    laid = made_vertices @ rotation + shift
    leg = unit(laid[-1] - laid[-2])
    following = laid[-2] + ((wanted[made + 1] - laid[-2]) @ leg) * leg
    return np.concatenate((laid[:-1], following[None], wanted[made + 2 :]))
