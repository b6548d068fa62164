"""What somebody with a CAD kernel would write to have the same of a solid: `python kernel_reading.py FILE`.

Prints OD, wall, and along the tube the length of every straight and the angle [°] and CLR of every bend, as JSON. It
takes for granted what the reader of this tool proves: one tube, whole faces, nothing left over.
"""

import json
import math
import sys
from typing import Any

from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.GeomAbs import GeomAbs_Cylinder, GeomAbs_Torus
from OCP.STEPControl import STEPControl_Reader
from OCP.TopAbs import TopAbs_FACE
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS

JOIN = 1e-3  # mm
Piece = tuple[float, tuple[float, ...], Any, Any]  # radius, what is printed, both ends


def main() -> None:
    reader = STEPControl_Reader()
    reader.ReadFile(sys.argv[1])
    reader.TransferRoots()
    shape = reader.OneShape()
    assert BRepCheck_Analyzer(shape).IsValid()
    explorer = TopExp_Explorer(shape, TopAbs_FACE)
    to_face = getattr(TopoDS, "Face_s", None) or TopoDS.Face  # by the kernel's version
    pieces: list[Piece] = []
    while explorer.More():
        surface = BRepAdaptor_Surface(to_face(explorer.Current()))
        if surface.GetType() == GeomAbs_Cylinder:
            pieces.append(straight(surface))
        elif surface.GetType() == GeomAbs_Torus:
            pieces.append(bend(surface))
        explorer.Next()
    bent = sorted({piece[0] for piece in pieces if len(piece[1]) == 2})
    outside = [piece for piece in pieces if abs(piece[0] - bent[-1]) < JOIN]
    print(json.dumps({"od": 2.0 * bent[-1], "wall": bent[-1] - bent[0], "pieces": chain(outside)}))  # noqa: T201


def straight(surface: Any) -> Piece:  # noqa: ANN401 - the kernel has no types
    cylinder = surface.Cylinder()
    ends = [surface.Value(0.0, v) for v in (surface.FirstVParameter(), surface.LastVParameter())]
    axis = cylinder.Axis()
    on_axis = [axis.Location().Translated(moved(axis, end)) for end in ends]
    return cylinder.Radius(), (on_axis[0].Distance(on_axis[1]),), on_axis[0], on_axis[1]


def moved(axis: Any, end: Any) -> Any:  # noqa: ANN401 - the kernel has no types
    from OCP.gp import gp_Vec

    along = gp_Vec(axis.Direction())
    return along.Multiplied(gp_Vec(axis.Location(), end).Dot(along))


def bend(surface: Any) -> Piece:  # noqa: ANN401 - the kernel has no types
    torus = surface.Torus()
    first, last = surface.FirstUParameter(), surface.LastUParameter()
    ends = []
    for u in (first, last):
        opposite = [surface.Value(u, v) for v in (0.0, math.pi)]
        ends.append(opposite[0].Translated(half(opposite[0], opposite[1])))
    return torus.MinorRadius(), (math.degrees(last - first), torus.MajorRadius()), ends[0], ends[1]


def half(one: Any, other: Any) -> Any:  # noqa: ANN401 - the kernel has no types
    from OCP.gp import gp_Vec

    return gp_Vec(one, other).Multiplied(0.5)


def chain(pieces: list[Piece]) -> list[tuple[float, ...]]:
    """What is printed of each piece, end to end from the end nearer the origin."""
    ends = [end for piece in pieces for end in piece[2:]]
    free = [end for end in ends if sum(end.Distance(other) < JOIN for other in ends) == 1]
    at = min(free, key=lambda end: end.XYZ().Modulus())
    left, found = list(pieces), []
    while left:
        piece = next(piece for piece in left if min(at.Distance(end) for end in piece[2:]) < JOIN)
        left.remove(piece)
        found.append(piece[1])
        at = max(piece[2:], key=at.Distance)
    return found


if __name__ == "__main__":
    main()
