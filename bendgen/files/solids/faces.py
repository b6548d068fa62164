"""A solid's faces: what surface each lies on, which side of it is outside, and its edges."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from bendgen.files.solids.edge_curves import Edge, edge
from bendgen.files.solids.exchange import Exchange
from bendgen.files.solids.face_surfaces import tube_parts
from bendgen.files.solids.placements import Frame
from bendgen.files.solids.swept_surfaces import reaches_ends
from bendgen.geometry.tube_axes import LineAxis, TubeAxis, TubeSurface
from bendgen.geometry.vectors import Array

MOST_FACES = 100_000
Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Face:
    """One face, or, where a face runs along several straights and bends, one of its parts.

    kind : type of its surface in the file
    surface : None where it is neither a cylinder nor a torus
    convex : whether the outside of the solid is the side away from the surface's axis
    border : (n, 3) array of points round a part [mm]; None for a whole face
    """

    number: int
    kind: str
    surface: TubeSurface | None
    convex: bool
    edges: tuple[Edge, ...]
    border: Array | None = None

    def points(self) -> Array:
        """Points round it, (n, 3) [mm]."""
        if self.border is not None:
            return self.border
        return np.vstack([edge.points for edge in self.edges]) if self.edges else np.empty((0, 3))

    def are_exact(self) -> Flags:
        """Which of these points are given exactly; vertices and approximated curves may lie a little off a surface."""
        exact = np.zeros(len(self.points()), dtype=bool)
        if self.border is None:
            last = np.cumsum([len(edge.points) for edge in self.edges]) - 1
            for edge, end in zip(self.edges, last, strict=True):
                exact[end - len(edge.points) + 2 : end] = edge.conic
        return exact


def faces_of_solid(exchange: Exchange, number: int, mm: float) -> tuple[Face, ...]:
    """Faces of a MANIFOLD_SOLID_BREP or BREP_WITH_VOIDS; raises InputError for one of flat facets."""
    known: dict[int, Edge] = {}
    faces: list[Face] = []
    for shell, outward in _shells(exchange, number):
        for face in exchange.arguments(shell, "CLOSED_SHELL", "CONNECTED_FACE_SET").references(1):
            faces.extend(_parts_of_face(exchange, face, mm, outward=outward, known=known))
            if len(faces) > MOST_FACES:
                raise exchange.mistaken(f"#{number}", f"a solid of at most {MOST_FACES} faces", "more")
    return tuple(faces)


def moved_faces(faces: Sequence[Face], place: Frame) -> list[Face]:
    """Faces of a solid that stands in a frame, as seen from outside it."""
    edges = {edge.number: replace(edge, points=place.placed(edge.points)) for face in faces for edge in face.edges}
    return [
        replace(
            face,
            surface=None if face.surface is None else replace(face.surface, axis=_moved(face.surface.axis, place)),
            edges=tuple(edges[edge.number] for edge in face.edges),
            border=None if face.border is None else place.placed(face.border),
        )
        for face in faces
    ]


def _moved(axis: TubeAxis, place: Frame) -> TubeAxis:
    if isinstance(axis, LineAxis):
        return LineAxis(point=place.placed(axis.point[None])[0], direction=place.axes @ axis.direction)
    centre = place.placed(axis.centre[None])[0]
    return replace(axis, centre=centre, normal=place.axes @ axis.normal, start=place.axes @ axis.start)


def _shells(exchange: Exchange, number: int) -> Iterator[tuple[int, bool]]:
    """Shells of a solid, and whether the normals of their faces point outwards."""
    instance = exchange.instance(number)
    kind = "MANIFOLD_SOLID_BREP" if "MANIFOLD_SOLID_BREP" in instance else "BREP_WITH_VOIDS"
    solid = exchange.arguments(number, kind)
    shells: list[int] = [solid.reference(1)]
    if "BREP_WITH_VOIDS" in instance:
        voids = exchange.arguments(number, "BREP_WITH_VOIDS")
        shells.extend(voids.references(-1))
    for shell in shells:
        if "ORIENTED_CLOSED_SHELL" in exchange.instance(shell):
            oriented = exchange.arguments(shell, "ORIENTED_CLOSED_SHELL")
            yield oriented.reference(2), oriented.choice(3) != "F"
        else:
            yield shell, True


def _parts_of_face(
    exchange: Exchange, number: int, mm: float, *, outward: bool, known: dict[int, Edge]
) -> Iterator[Face]:
    """Face as a whole, or its parts."""
    if "ORIENTED_FACE" in exchange.instance(number):
        oriented = exchange.arguments(number, "ORIENTED_FACE")
        outward = outward == (oriented.choice(3) != "F")
        number = oriented.reference(2)
    arguments = exchange.arguments(number, "ADVANCED_FACE", "FACE_SURFACE")
    same_sense = arguments.choice(3) != "F"
    kind = ", ".join(exchange.instance(arguments.reference(2)))
    edges = tuple(_edges(exchange, arguments.references(1), mm, known))
    whole = Face(number=number, kind=kind, surface=None, convex=False, edges=edges)
    parts = tube_parts(exchange, arguments.reference(2), mm)
    if not parts or not reaches_ends(parts, whole.points()):
        yield whole
        return
    for part in parts:
        convex = part.away == (same_sense == outward)
        yield replace(whole, surface=part.surface, convex=convex, border=part.border)


def _edges(exchange: Exchange, bounds: Sequence[int], mm: float, known: dict[int, Edge]) -> Iterator[Edge]:
    """Edges of all bounds of a face; `known` are those read before, each being an edge of two faces."""
    for bound in bounds:
        loop = exchange.arguments(bound, "FACE_BOUND", "FACE_OUTER_BOUND").reference(1)
        if "VERTEX_LOOP" in exchange.instance(loop):
            continue
        for oriented in exchange.arguments(loop, "EDGE_LOOP").references(1):
            number = exchange.arguments(oriented, "ORIENTED_EDGE").reference(3)
            if number not in known:
                known[number] = edge(exchange, number, mm)
            yield known[number]
