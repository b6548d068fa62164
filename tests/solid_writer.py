"""Files of ISO 10303-21 written for tests, by code that shares nothing with the reader. All tubes are invented.

A tube is walked piece by piece with a frame that is carried along; every piece becomes faces of a cylinder or torus,
their edges shared with the neighbours, and the ends planes. Loops are not oriented: the reader must not need them.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import make_interp_spline

Array = NDArray[np.float64]
Bend = tuple[float, float, float, float]  # straight before it, rotation [deg], angle [deg], CLR

MILLIMETRE = "( LENGTH_UNIT() NAMED_UNIT(*) SI_UNIT(.MILLI.,.METRE.) )"
UNITS = {"mm": 1.0, "in": 25.4, "cm": 10.0, "m": 1000.0}


@dataclass
class Writer:
    """Instances of a file, one after the other; lengths are written in `unit`, with so many decimals."""

    unit: str = "mm"
    decimals: int = 12
    direction_decimals: int = 12
    uncertainty: float = 1e-7
    lines: list[str] = field(default_factory=list)

    def add(self, text: str) -> str:
        """Reference to a new instance."""
        self.lines.append(f"#{len(self.lines) + 1}={text};")
        return f"#{len(self.lines)}"

    def number(self, value: float, decimals: int | None = None) -> str:
        """Number with a point."""
        text = f"{value:.{self.decimals if decimals is None else decimals}f}".rstrip("0")
        return text if text != "-0." else "0."

    def length(self, value: float) -> str:
        """Length in the file's unit."""
        return self.number(value / UNITS[self.unit])

    def point(self, at: Array) -> str:
        return self.add(f"CARTESIAN_POINT('',({','.join(self.length(c) for c in at)}))")

    def direction(self, along: Array) -> str:
        numbers = ",".join(self.number(c, self.direction_decimals) for c in along)
        return self.add(f"DIRECTION('',({numbers}))")

    def placement(self, at: Array, z: Array, x: Array) -> str:
        return self.add(f"AXIS2_PLACEMENT_3D('',{self.point(at)},{self.direction(z)},{self.direction(x)})")

    def vertex(self, at: Array) -> str:
        return self.add(f"VERTEX_POINT('',{self.point(at)})")

    def line_edge(self, one: str, other: str, a: Array, b: Array) -> str:
        along = (b - a) / np.linalg.norm(b - a)
        vector = self.add(f"VECTOR('',{self.direction(along)},1.)")
        return self.edge(one, other, self.add(f"LINE('',{self.point(a)},{vector})"))

    def circle(self, at: Array, z: Array, x: Array, radius: float) -> str:
        return self.add(f"CIRCLE('',{self.placement(at, z, x)},{self.length(radius)})")

    def edge(self, one: str, other: str, curve: str) -> str:
        return self.add(f"EDGE_CURVE('',{one},{other},{curve},.T.)")

    def face(self, loops: Sequence[Sequence[str]], surface: str, *, outward: bool) -> str:
        bounds = []
        for edges in loops:
            oriented = ",".join(self.add(f"ORIENTED_EDGE('',*,*,{edge},.T.)") for edge in edges)
            loop = self.add(f"EDGE_LOOP('',({oriented}))")
            bounds.append(self.add(f"FACE_BOUND('',{loop},.T.)"))
        return self.add(f"ADVANCED_FACE('',({','.join(bounds)}),{surface},{'.T.' if outward else '.F.'})")

    def solid(self, faces: Sequence[str], name: str = "") -> str:
        shell = self.add(f"CLOSED_SHELL('',({','.join(faces)}))")
        return self.add(f"MANIFOLD_SOLID_BREP('{name}',{shell})")

    def context(self) -> str:
        """Context with the unit of lengths, an inch or a centimetre by way of a chain."""
        units = {"mm": MILLIMETRE, "m": "( LENGTH_UNIT() NAMED_UNIT(*) SI_UNIT($,.METRE.) )"}
        if self.unit in units:
            unit = self.add(units[self.unit])
        else:
            size, base = {"in": ("25.4", MILLIMETRE), "cm": ("1.0", MILLIMETRE.replace("MILLI", "CENTI"))}[self.unit]
            measure = self.add(f"LENGTH_MEASURE_WITH_UNIT(LENGTH_MEASURE({size}),{self.add(base)})")
            exponents = self.add("DIMENSIONAL_EXPONENTS(1.,0.,0.,0.,0.,0.,0.)")
            unit = self.add(f"( CONVERSION_BASED_UNIT('UNIT',{measure}) LENGTH_UNIT() NAMED_UNIT({exponents}) )")
        measure = self.add(f"UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE({self.uncertainty:.3E}),{unit},'','')")
        return self.add(
            f"( GEOMETRIC_REPRESENTATION_CONTEXT(3) GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT(({measure})) "
            f"GLOBAL_UNIT_ASSIGNED_CONTEXT(({unit})) REPRESENTATION_CONTEXT('','') )"
        )

    def representation(self, items: Sequence[str], context: str, kind: str = "ADVANCED_BREP_SHAPE") -> str:
        return self.add(f"{kind}_REPRESENTATION('',({','.join(items)}),{context})")

    def product(self, representation: str, name: str) -> str:
        """Definition of a product that has a shape."""
        application = self.add("APPLICATION_CONTEXT('invented')")  # without the contexts a kernel reads nothing
        context = self.add(f"PRODUCT_CONTEXT('',{application},'mechanical')")
        product = self.add(f"PRODUCT('{name}','{name}','',({context}))")
        formation = self.add(f"PRODUCT_DEFINITION_FORMATION('','',{product})")
        stage = self.add(f"PRODUCT_DEFINITION_CONTEXT('part definition',{application},'design')")
        definition = self.add(f"PRODUCT_DEFINITION('','',{formation},{stage})")
        shape = self.add(f"PRODUCT_DEFINITION_SHAPE('','',{definition})")
        self.add(f"SHAPE_DEFINITION_REPRESENTATION({shape},{representation})")
        return definition

    def text(self, schema: str = "AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }") -> str:
        header = f"ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION(('invented'),'2;1');\nFILE_SCHEMA(('{schema}'));\nENDSEC;\n"
        return header + "DATA;\n" + "\n".join(self.lines) + "\nENDSEC;\nEND-ISO-10303-21;\n"


@dataclass
class Section:
    """Frame carried along a tube: point on the axis, direction, reference square to it."""

    at: Array
    along: Array
    side: Array

    def rim(self, radius: float, turn: float) -> Array:
        """Point of the tube's surface, `turn` [rad] round from the reference."""
        return self.at + radius * self.outward(turn)

    def outward(self, turn: float) -> Array:
        out: Array = math.cos(turn) * self.side + math.sin(turn) * np.cross(self.along, self.side)
        return out


def turned(vector: Array, axis: Array, angle: float) -> Array:
    """Vector turned right-handed about a unit axis, after Rodrigues."""
    rotated: Array = (
        vector * math.cos(angle)
        + np.cross(axis, vector) * math.sin(angle)
        + axis * (axis @ vector) * (1.0 - math.cos(angle))
    )
    return rotated


@dataclass
class Arc:
    """A bend of the walk: centre, axis it turns about, CLR."""

    centre: Array
    axis: Array
    clr: float


def walk(bends: Sequence[Bend], rear: float, start: Section) -> tuple[list[Section], list[Arc | None]]:
    """Sections between pieces, and for each piece its arc, or None for a straight; straights of no length left out."""
    sections = [start]
    pieces: list[Arc | None] = []
    plane = start.side  # towards the centre of the next bend

    def go(length: float) -> None:
        last = sections[-1]
        if length:
            sections.append(Section(last.at + length * last.along, last.along, last.side))
            pieces.append(None)

    for straight, rotation, angle, clr in bends:
        go(straight)
        last = sections[-1]
        plane = turned(plane, last.along, math.radians(rotation))
        centre, axis = last.at + clr * plane, np.cross(last.along, plane)
        theta = math.radians(angle)
        sections.append(
            Section(
                centre + turned(last.at - centre, axis, theta),
                turned(last.along, axis, theta),
                turned(last.side, axis, theta),
            )
        )
        plane = turned(plane, axis, theta)
        pieces.append(Arc(centre, axis, clr))
    go(rear)
    return sections, pieces


START = Section(np.array([12.0, -7.0, 30.0]), np.array([2.0, 2.0, 1.0]) / 3.0, np.array([-1.0, 2.0, -2.0]) / 3.0)
SurfaceMaker = Callable[[Writer, Section, Section, "Arc | None", float], str]


def exact_surface(writer: Writer, one: Section, _other: Section, arc: Arc | None, radius: float) -> str:
    """Cylinder or torus."""
    if arc is None:
        return writer.add(
            f"CYLINDRICAL_SURFACE('',{writer.placement(one.at, one.along, one.side)},{writer.length(radius)})"
        )
    x = (one.at - arc.centre) / arc.clr
    placement = writer.placement(arc.centre, arc.axis, x)
    return writer.add(f"TOROIDAL_SURFACE('',{placement},{writer.length(arc.clr)},{writer.length(radius)})")


@dataclass
class TubeMaker:
    """Faces of a tube: radii outside first, `parts` faces round (0: no seam at all), the maker of surfaces.

    rounded : radius by which the outer edges of both ends are rounded, straights there being longer than that
    """

    writer: Writer
    radii: Sequence[float] = (19.05, 17.55)
    parts: int = 1
    surface: SurfaceMaker = exact_surface
    rounded: float = 0.0

    def solid(self, bends: Sequence[Bend], rear: float, *, start: Section = START, name: str = "") -> str:
        sections, pieces = walk(bends, rear, start)
        return self.writer.solid(self.faces(sections, pieces), name)

    def faces(self, sections: Sequence[Section], pieces: Sequence[Arc | None]) -> list[str]:
        faces, ends = [], ([], [])  # type: tuple[list[str], tuple[list[list[str]], list[list[str]]]]
        whole = list(sections)
        for radius in self.radii:
            outside = radius == self.radii[0]
            sections = self._shortened(whole) if outside and self.rounded else whole
            corners = [self._corners(section, radius) for section in sections]
            rims = [self._rim(section, radius, own) for section, own in zip(sections, corners, strict=True)]
            for index, arc in enumerate(pieces):
                one, other = sections[index], sections[index + 1]
                long = [
                    self._along(
                        arc,
                        (one.rim(radius, turn), other.rim(radius, turn)),
                        (corners[index][part], corners[index + 1][part]),
                    )
                    for part, turn in enumerate(self._turns()[: self.parts])
                ]
                for part in range(max(1, self.parts)):
                    loop = [rims[index][part], rims[index + 1][part]]
                    if self.parts:
                        loop += [long[part], long[(part + 1) % self.parts]]
                    loops = [loop] if self.parts else [[edge] for edge in loop]
                    surface = self.surface(self.writer, one, other, arc, radius)
                    faces.append(self.writer.face(loops, surface, outward=outside))
            if outside and self.rounded:
                rims[0] = self._round(faces, whole[0], sections[0], rims[0])
                rims[-1] = self._round(faces, whole[-1], sections[-1], rims[-1])
            ends[0].append(rims[0])
            ends[1].append(rims[-1])
        for section, loops in ((whole[0], ends[0]), (whole[-1], ends[1])):
            plane = self.writer.add(f"PLANE('',{self.writer.placement(section.at, section.along, section.side)})")
            faces.append(self.writer.face(loops, plane, outward=True))
        return faces

    def _shortened(self, sections: Sequence[Section]) -> list[Section]:
        first, last = sections[0], sections[-1]
        return [
            replace(first, at=first.at + self.rounded * first.along),
            *sections[1:-1],
            replace(last, at=last.at - self.rounded * last.along),
        ]

    def _round(self, faces: list[str], end: Section, inner: Section, rim: list[str]) -> list[str]:
        """Rim of the end's plane, after the face that rounds the edge before it."""
        small = self.radii[0] - self.rounded
        edges = self._rim(end, small, self._corners(end, small))
        placement = self.writer.placement(inner.at, inner.along, inner.side)
        surface = f"TOROIDAL_SURFACE('',{placement},{self.writer.length(small)},{self.writer.length(self.rounded)})"
        faces.append(self.writer.face([rim, edges], self.writer.add(surface), outward=True))
        return edges

    def _turns(self) -> list[float]:
        return [2.0 * math.pi * part / max(1, self.parts) for part in range(max(1, self.parts))]

    def _corners(self, section: Section, radius: float) -> list[str]:
        return [self.writer.vertex(section.rim(radius, turn)) for turn in self._turns()]

    def _rim(self, section: Section, radius: float, corners: Sequence[str]) -> list[str]:
        curve = self.writer.circle(section.at, section.along, section.side, radius)
        count = len(corners)
        return [self.writer.edge(corners[part], corners[(part + 1) % count], curve) for part in range(count)]

    def _along(self, arc: Arc | None, places: tuple[Array, Array], corners: tuple[str, str]) -> str:
        """Edge from one corner to another, straight or round the axis of a bend."""
        (a, b), (first, last) = places, corners
        if arc is None:
            return self.writer.line_edge(first, last, a, b)
        centre = arc.centre + ((a - arc.centre) @ arc.axis) * arc.axis
        reach = float(np.linalg.norm(a - centre))
        return self.writer.edge(first, last, self.writer.circle(centre, arc.axis, (a - centre) / reach, reach))


TUBE: tuple[Bend, ...] = ((120.0, 0.0, 90.0, 57.0), (85.0, 90.0, 45.0, 57.0), (150.0, -37.0, 60.5, 57.0))
REAR = 100.0


def tube_text(
    bends: Sequence[Bend] = TUBE, rear: float = REAR, *, maker: TubeMaker | None = None, start: Section = START
) -> str:
    """File of one tube."""
    made = maker or TubeMaker(Writer())
    solid = made.solid(bends, rear, start=start)
    representation = made.writer.representation([solid], made.writer.context())
    made.writer.product(representation, "Duct (invented)")
    return made.writer.text()


def fitted_surface(
    writer: Writer, one: Section, other: Section, arc: Arc | None, radius: float, *, around: int = 11, along: int = 8
) -> str:
    """Cubic B-spline surface through so many points of the cylinder or torus, which it is only nearly."""
    turns = np.linspace(0.0, 2.0 * math.pi, around)
    rows = []
    for share in np.linspace(0.0, 1.0, along):
        place = between(one, other, arc, float(share))
        rows.append([place.rim(radius, float(turn)) for turn in turns])
    return spline_surface_text(writer, np.array(rows).swapaxes(0, 1))


def between(one: Section, other: Section, arc: Arc | None, share: float) -> Section:
    """Section part of the way from one to the next."""
    if arc is None:
        return Section(one.at + share * (other.at - one.at), one.along, one.side)
    angle = share * _turn(one, other, arc)
    at = arc.centre + turned(one.at - arc.centre, arc.axis, angle)
    return Section(at, turned(one.along, arc.axis, angle), turned(one.side, arc.axis, angle))


def _turn(one: Section, other: Section, arc: Arc) -> float:
    sine = float(np.cross(one.along, other.along) @ arc.axis)
    return math.atan2(sine, float(one.along @ other.along)) % (2.0 * math.pi)


def spline_surface_text(writer: Writer, points: Array) -> str:
    """Cubic B-spline surface through an (m, k, 3) grid of points."""
    control, knots = points, []
    for _ in range(2):
        spline = make_interp_spline(np.linspace(0.0, 1.0, len(control)), control, k=3)
        control = spline.c.swapaxes(0, 1)
        knots.append(spline.t)
    return spline_surface_of_control(writer, control, (knots[0], knots[1]))


def spline_surface_of_control(writer: Writer, control: Array, knots: tuple[Array, Array]) -> str:
    """Cubic B-spline surface of an (m, k, 3) grid of control points and both its knot vectors."""
    listed = ",".join(f"({','.join(writer.point(at) for at in row)})" for row in control)
    counts = [np.unique(vector, return_counts=True) for vector in knots]
    multiplicities = ",".join(f"({','.join(str(count) for count in number)})" for _, number in counts)
    values = ",".join(f"({','.join(writer.number(value) for value in vector)})" for vector, _ in counts)
    return writer.add(
        f"B_SPLINE_SURFACE_WITH_KNOTS('',3,3,({listed}),.UNSPECIFIED.,.F.,.F.,.F.,{multiplicities},{values},.UNSPECIFIED.)"
    )


def spline_curve_text(writer: Writer, points: Array) -> str:
    """Cubic B-spline curve through (n, 3) points."""
    spline = make_interp_spline(np.linspace(0.0, 1.0, len(points)), points, k=3)
    values, counts = np.unique(spline.t, return_counts=True)
    listed = ",".join(writer.point(at) for at in spline.c)
    multiplicities, knots = ",".join(map(str, counts)), ",".join(writer.number(value) for value in values)
    return writer.add(
        f"B_SPLINE_CURVE_WITH_KNOTS('',3,({listed}),.UNSPECIFIED.,.F.,.F.,({multiplicities}),({knots}),.UNSPECIFIED.)"
    )
