"""A tube found in a solid as a record: vertices, straights and bends, what should be known of it."""

import math

import numpy as np

from bendgen.files.solids.instances import PlacedSolid
from bendgen.files.solids.solid_remarks import definitions, left_out
from bendgen.files.solids.tube_of_faces import TubeOfFaces
from bendgen.geometry.fillets import straights_between, tangent_lengths
from bendgen.geometry.vectors import Array
from bendgen.records.bent_tube import Point
from bendgen.records.part import Vertex, WantedBend, WantedSteps
from bendgen.records.solid_tube import SolidTube
from bendgen.units import DEGREES_PER_RADIAN

VERTICES_UP_TO = math.radians(175.0)  # beyond, a vertex runs away and straights say more


def tube_record(tube: TubeOfFaces, mitre_clr: float | None, *, number: int, solid: PlacedSolid, name: str) -> SolidTube:
    """Record of a tube; mitre_clr: CLR of bends in the place of mitres [mm]; solid: the first that it is made of."""
    axis, units = tube.axis, solid.unit.shop_units
    mitres = axis.clr == 0.0
    clr = np.where(mitres, mitre_clr or 0.0, axis.clr)
    return SolidTube(
        number=number,
        name=name,
        instances=solid.instances,
        units=units,
        od=2.0 * tube.radius,
        wall=tube.radius - tube.bore if tube.bore else None,
        vertices=_vertices(tube, clr),
        steps=None if mitre_clr is None and np.any(mitres) else _steps(tube, clr),
        ends=(_point(axis.starts[0]), _point(axis.ends[-1])),
        understood=tuple(definitions(tube, units)),
        ignored=tuple(left_out(tube, units)),
    )


def _vertices(tube: TubeOfFaces, clr: Array) -> tuple[Vertex, ...] | None:
    """Path of vertices, or None where a bend turns too far for one."""
    axis = tube.axis
    if np.any(axis.angles > VERTICES_UP_TO):
        return None
    tangents = tangent_lengths(axis.angles, axis.clr)[:, None]
    from_front = axis.ends[:-1] + tangents * axis.directions[:-1]
    from_rear = axis.starts[1:] - tangents * axis.directions[1:]
    corners = 0.5 * (from_front + from_rear)
    radii = [None, *(float(radius) or None for radius in clr), None]
    rows = np.vstack((axis.starts[:1], corners, axis.ends[-1:])).tolist()
    return tuple(Vertex(x=x, y=y, z=z, clr=radius) for (x, y, z), radius in zip(rows, radii, strict=True))


def _steps(tube: TubeOfFaces, clr: Array) -> WantedSteps:
    """Straights and bends; a bend in place of a mitre takes its tangent length off both straights."""
    axis = tube.axis
    rounded = np.where(axis.clr == 0.0, tangent_lengths(axis.angles, clr), 0.0)
    straights = straights_between(axis.straights(), rounded).tolist()
    rotations = [0.0, *(axis.rotations() * DEGREES_PER_RADIAN).tolist()]
    angles = (axis.angles * DEGREES_PER_RADIAN).tolist()
    bends = zip(straights[:-1], rotations, angles, clr.tolist(), strict=False)
    return WantedSteps(
        bends=tuple(
            WantedBend(straight=straight, rotation_deg=rotation, angle_deg=angle, clr=radius)
            for straight, rotation, angle, radius in bends
        ),
        rear=straights[-1],
    )


def _point(row: Array) -> Point:
    x, y, z = row.tolist()
    return x, y, z
