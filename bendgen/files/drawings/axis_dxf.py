"""The predicted axis of a program as a DXF drawing, to be laid over the drawing the part came from."""

import importlib
import io
import math

import numpy as np

from bendgen.errors import OutputError
from bendgen.files.drawings.pieces import Piece
from bendgen.files.drawings.tube_pieces import pieces_of_program
from bendgen.records.bend_program import BendProgram

LAYER = "predicted"
MILLIMETRES = 4  # $INSUNITS of the DXF reference


def format_axis_dxf(program: BendProgram) -> str:
    """Lines and arcs on one layer, in mm; raises OutputError where the extra `dxf` is missing."""
    try:
        library = importlib.import_module("ezdxf")
    except ImportError:
        raise OutputError("a DXF drawing needs the extra for drawings: pip install 'bendgen[dxf]'") from None
    drawing = library.new()
    drawing.header["$INSUNITS"] = MILLIMETRES
    drawing.layers.add(LAYER)
    for piece in pieces_of_program(program):
        if piece.arc is None:
            start, end = piece.points.tolist()
            drawing.modelspace().add_line(start, end, dxfattribs={"layer": LAYER})
        else:
            _add_arc(library, drawing.modelspace(), piece)
    text = io.StringIO()
    drawing.write(text)
    return text.getvalue()


def _add_arc(library: object, space: object, piece: Piece) -> None:
    """Arc in the plane of its own that DXF wants: counterclockwise about the plane's normal."""
    assert piece.arc is not None  # whoever calls has looked
    plane = library.math.OCS(piece.arc.normal.tolist())  # type: ignore[attr-defined]
    start = np.array(plane.from_wcs(piece.points[0].tolist()).xyz)
    way = np.array(plane.from_wcs(piece.into.tolist()).xyz)
    # Counterclockwise, the centre lies to the left of the way.
    centre = start + piece.arc.radius * np.array([-way[1], way[0], 0.0])
    first = math.degrees(math.atan2(*(start - centre)[1::-1]))
    space.add_arc(  # type: ignore[attr-defined]
        centre.tolist(),
        piece.arc.radius,
        first,
        first + math.degrees(piece.arc.angle),
        dxfattribs={"layer": LAYER, "extrusion": piece.arc.normal.tolist()},
    )
