"""Solids made by a CAD kernel, the extra `cad`: `python -m tests.files.solids.kernel_shapes FOLDER` writes the files.

The files it writes are kept in `made`, so that few tests need the kernel. All of it is invented.
"""

import math
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import numpy as np
from OCP.BRep import BRep_Builder
from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut, BRepAlgoAPI_Fuse
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakeWire,
    BRepBuilderAPI_NurbsConvert,
)
from OCP.BRepGProp import BRepGProp
from OCP.BRepOffsetAPI import BRepOffsetAPI_MakePipe
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakeCylinder
from OCP.Geom import Geom_Circle, Geom_Line, Geom_TrimmedCurve
from OCP.GeomAbs import GeomAbs_C1
from OCP.GeomConvert import GeomConvert_CompCurveToBSplineCurve
from OCP.gp import gp_Ax1, gp_Ax2, gp_Circ, gp_Dir, gp_Pnt, gp_Trsf, gp_Vec
from OCP.GProp import GProp_GProps
from OCP.Interface import Interface_Static
from OCP.ShapeCustom import ShapeCustom, ShapeCustom_RestrictionParameters
from OCP.STEPControl import STEPControl_AsIs, STEPControl_Writer
from OCP.TopAbs import TopAbs_SOLID
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS_Compound

from tests.solid_writer import REAR, START, TUBE, Arc, Array, Bend, Section, walk

Shape = Any  # the kernel's own type, which has no stubs


def _point(at: Array) -> Shape:
    return gp_Pnt(*map(float, at))


def _direction(along: Array) -> Shape:
    return gp_Dir(*map(float, along))


def _curve(one: Section, other: Section, arc: Arc | None) -> Shape:
    """Line or arc of a piece's axis."""
    if arc is None:
        length = float(np.linalg.norm(other.at - one.at))
        return Geom_TrimmedCurve(Geom_Line(_point(one.at), _direction(one.along)), 0.0, length)
    sine = float(np.cross(one.along, other.along) @ arc.axis)
    turn = math.atan2(sine, float(one.along @ other.along)) % (2.0 * math.pi)
    place = gp_Ax2(_point(arc.centre), _direction(arc.axis), _direction(one.at - arc.centre))
    return Geom_TrimmedCurve(Geom_Circle(gp_Circ(place, arc.clr)), 0.0, turn)


def _wire(bends: Sequence[Bend], rear: float, *, one_curve: bool) -> Shape:
    """Axis of a tube, edge by edge or as one B-spline."""
    sections, pieces = walk(bends, rear, START)
    curves = [_curve(sections[i], sections[i + 1], arc) for i, arc in enumerate(pieces)]
    if one_curve:
        joined = GeomConvert_CompCurveToBSplineCurve(curves[0])
        for curve in curves[1:]:
            joined.Add(curve, 1e-4, True)  # noqa: FBT003 - the kernel names no arguments
        curves = [joined.BSplineCurve()]
    maker = BRepBuilderAPI_MakeWire()
    for curve in curves:
        maker.Add(BRepBuilderAPI_MakeEdge(curve).Edge())
    return maker.Wire()


def _swept(bends: Sequence[Bend], rear: float, radius: float, *, one_curve: bool = False) -> Shape:
    circle = gp_Circ(gp_Ax2(_point(START.at), _direction(START.along)), radius)
    disc = BRepBuilderAPI_MakeFace(BRepBuilderAPI_MakeWire(BRepBuilderAPI_MakeEdge(circle).Edge()).Wire()).Face()
    return BRepOffsetAPI_MakePipe(_wire(bends, rear, one_curve=one_curve), disc).Shape()


def tube(
    bends: Sequence[Bend] = TUBE,
    rear: float = REAR,
    radii: tuple[float, float] = (19.05, 17.55),
    *,
    one_curve: bool = False,
) -> Shape:
    """Tube with a bore."""
    outer, inner = (_swept(bends, rear, radius, one_curve=one_curve) for radius in radii)
    return BRepAlgoAPI_Cut(outer, inner).Shape()


MIDDLE = START.at + 60.0 * START.along


def _with_cylinder(radius: float, length: float, along: Array, at: Array) -> Shape:
    """Tube welded to a cylinder, bored through afterwards."""
    cylinder = BRepPrimAPI_MakeCylinder(gp_Ax2(_point(at), _direction(along)), radius, length).Shape()
    return BRepAlgoAPI_Cut(BRepAlgoAPI_Fuse(tube(), cylinder).Shape(), _swept(TUBE, REAR, 17.55)).Shape()


def _slotted() -> Shape:
    across = np.cross(START.along, START.side)
    place = gp_Ax2(_point(MIDDLE - 4.0 * across), _direction(START.side), _direction(START.along))
    return BRepAlgoAPI_Cut(tube(), BRepPrimAPI_MakeBox(place, 30.0, 8.0, 80.0).Shape()).Shape()


def _drilled() -> Shape:
    """A hole of exactly the bore through the first straight, and one in the bend behind it, on that straight's axis."""
    shape = tube()
    for radius, at, along in (
        (17.55, MIDDLE - 40.0 * START.side, START.side),
        (4.0, START.at + 140.0 * START.along, START.along),
    ):
        drill = BRepPrimAPI_MakeCylinder(gp_Ax2(_point(at), _direction(along)), radius, 80.0).Shape()
        shape = BRepAlgoAPI_Cut(shape, drill).Shape()
    return shape


def fitted(shape: Shape, degree: int, *, only_edges: bool = False) -> Shape:
    """Shape whose curves, and unless `only_edges` its surfaces too, are polynomials fitted to 0.01 mm."""
    if not only_edges:
        shape = BRepBuilderAPI_NurbsConvert(shape, True).Shape()  # noqa: FBT003 - the kernel names no arguments
    to_fitted = getattr(ShapeCustom, "BSplineRestriction_s", None) or ShapeCustom.BSplineRestriction  # by its version
    choices = ShapeCustom_RestrictionParameters()
    return to_fitted(shape, 0.01, 0.01, degree, 200, GeomAbs_C1, GeomAbs_C1, True, True, choices)  # noqa: FBT003


def _capped() -> Shape:
    cap = BRepPrimAPI_MakeCylinder(gp_Ax2(_point(START.at), _direction(START.along)), 19.05, 2.0).Shape()
    return BRepAlgoAPI_Fuse(tube(), cap).Shape()


def _moved(shape: Shape, by: tuple[float, float, float], angle: float = 0.0) -> Shape:
    turn, shift = gp_Trsf(), gp_Trsf()
    turn.SetRotation(gp_Ax1(gp_Pnt(0.0, 0.0, 0.0), gp_Dir(1.0, 1.0, 0.0)), angle)
    shift.SetTranslation(gp_Vec(*by))
    return shape.Moved(TopLoc_Location(shift.Multiplied(turn)))


def _together(shapes: Sequence[Shape]) -> Shape:
    compound, builder = TopoDS_Compound(), BRep_Builder()
    builder.MakeCompound(compound)
    for shape in shapes:
        builder.Add(compound, shape)
    return compound


def nested() -> Shape:
    """Twice a frame of a tube and a block, and once another tube."""
    first = TopExp_Explorer(tube(), TopAbs_SOLID).Current()
    second = TopExp_Explorer(tube(((50.0, 0.0, 45.0, 30.0),), 60.0, (12.0, 11.0)), TopAbs_SOLID).Current()
    block = BRepPrimAPI_MakeBox(gp_Ax2(gp_Pnt(0.0, 0.0, -300.0), gp_Dir(0.0, 0.0, 1.0)), 100.0, 50.0, 20.0).Shape()
    inner = _together([_moved(first, (10.0, 20.0, 30.0), 0.4), block])
    frames = [_moved(inner, (1000.0, 0.0, 0.0), 1.1), _moved(inner, (0.0, 1000.0, 0.0), -0.7)]
    return _together([*frames, _moved(second, (0.0, 0.0, 500.0))])


THREE_QUARTERS: tuple[Bend, ...] = ((20.0, 0.0, 270.0, 57.0),)
NO_STRAIGHTS: tuple[Bend, ...] = ((0.0, 0.0, 90.0, 57.0), (0.0, 90.0, 60.0, 57.0), (0.0, 180.0, 10.0, 57.0))
ONE_BEND: tuple[Bend, ...] = ((50.0, 0.0, 75.0, 57.0),)
KEPT: dict[str, tuple[Callable[[], Shape], str]] = {
    "three_quarters": (lambda: tube(THREE_QUARTERS, 20.0), "CM"),
    "no_straights": (lambda: tube(NO_STRAIGHTS, 0.0), "M"),
    "one_spline_face": (lambda: tube(one_curve=True), "MM"),
    "slotted": (_slotted, "MM"),
    "drilled": (_drilled, "MM"),
    "fitted": (lambda: fitted(tube(ONE_BEND, 60.0), 8), "MM"),
    "fitted_edges": (lambda: fitted(tube(), 8, only_edges=True), "MM"),
    "capped": (_capped, "MM"),
    "flanged": (lambda: _with_cylinder(35.0, 6.0, START.along, START.at), "MM"),
    "branched": (lambda: _with_cylinder(19.05, 80.0, START.side, MIDDLE), "MM"),
    "nested": (nested, "INCH"),
}


def volume(shape: Shape) -> float:
    """Volume by the kernel [mm³]."""
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, properties)
    return float(properties.Mass())


def write(shape: Shape, path: Path, unit: str = "MM") -> None:
    """Write a file; compounds become assemblies."""
    writer = STEPControl_Writer()
    Interface_Static.SetCVal_s("write.step.unit", unit)
    Interface_Static.SetIVal_s("write.step.assembly", 1)
    writer.Transfer(shape, STEPControl_AsIs)
    writer.Write(str(path))
    path.write_text(_without_makers(path.read_text(encoding="ascii")), encoding="ascii")


def _without_makers(text: str) -> str:
    """Text with the kernel's name for itself and for products replaced, wherever its lines break."""
    for name in (
        "Open CASCADE STEP translator",
        "Open CASCADE STEP processor",
        "Open CASCADE Shape Model",
        "Open CASCADE",
    ):
        text = text.replace(name, "Invented")
    return text


if __name__ == "__main__":
    for kept, (made, in_unit) in KEPT.items():
        write(made(), Path(sys.argv[1]) / f"{kept}.step", in_unit)
