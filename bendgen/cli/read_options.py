"""Options of `bendgen read`, and where those that describe the part stand in its file."""

from pathlib import Path
from typing import Annotated, Literal

import typer

from bendgen.records.machine import FeedForm, RotationForm, RotationPositive
from bendgen.units import DrawnUnits, parse_length

TUBE_PLACES = ("tube.od", "tube.wall", "tube.material")

DrawnIn = Annotated[DrawnUnits | None, typer.Option("--units", help="Unit of the lengths, where the file names none.")]
OverruleUnits = Annotated[
    bool,
    typer.Option("--overrule-units", help="Drawings: --units is right, and the unit that the file names is wrong."),
]
Decimal = Annotated[
    Literal["point", "comma"] | None, typer.Option("--decimal", help="Decimal mark, where it could be either.")
]
Columns = Annotated[
    str | None,
    typer.Option(
        "--columns",
        metavar="NAMES",
        help="What the columns hold, where no head row says it: x,y,z,clr or number,x_mm,y_mm,z_mm.",
    ),
]
Points = Annotated[
    Literal["vertices", "axis"] | None,
    typer.Option("--points", help="Are the points vertices, where straights meet, or do they follow the axis?"),
]
Within = Annotated[
    str | None,
    typer.Option("--within", metavar="LENGTH", help="How far points may lie off straights and arcs; else 0.3 mm."),
]
LeaveClr = Annotated[bool, typer.Option("--leave-clr", help="Leave the CLR to the die set, whatever the file shows.")]
Feed = Annotated[FeedForm | None, typer.Option("--feed", help="Steps: what the feed is counted from.")]
Rotation = Annotated[RotationForm | None, typer.Option("--rotation", help="Steps: from the bend before, or from 0?")]
Positive = Annotated[
    RotationPositive | None, typer.Option("--rotation-positive", help="Steps: which way a positive rotation turns.")
]
Angles = Annotated[
    Literal["commanded", "finished", "views", "turns"] | None,
    typer.Option("--angles", help="Steps: what the machine is told, or what the part has? Legs: two views or turns?"),
]
Rear = Annotated[
    str | None, typer.Option("--rear", metavar="LENGTH", help="Steps: straight behind the last bend; or --blank.")
]
Blank = Annotated[str | None, typer.Option("--blank", metavar="LENGTH", help="Steps: length of the blank.")]
Machine = Annotated[
    Path | None,
    typer.Option(
        "--machine", metavar="DIR", help="Machine: its tables tell what steps leave, its die sets which CLR is made."
    ),
]
OwnForm = Annotated[
    bool, typer.Option("--own-form", help="Steps: they are in the form that machine's [output] names, commanded.")
]
FromRear = Annotated[bool, typer.Option("--from-rear", help="The file's last point is the front end.")]
Od = Annotated[str | None, typer.Option("--od", metavar="LENGTH", help="Outside diameter of the tube.")]
Wall = Annotated[str | None, typer.Option("--wall", metavar="LENGTH", help="Wall of the tube.")]
Material = Annotated[str | None, typer.Option("--material", metavar="NAME", help="Material, as tables name it.")]
Layer = Annotated[str | None, typer.Option("--layer", metavar="NAME", help="Drawings: the layer that holds the axis.")]
Solid = Annotated[
    str | None,
    typer.Option("--solid", metavar="NUMBER", help="Solids: which one, by number or name; those that meet, 1+2."),
]
MitreClr = Annotated[
    str | None, typer.Option("--clr", metavar="LENGTH", help="Solids: CLR of the bends that take the place of mitres.")
]
Each = Annotated[
    Path | None,
    typer.Option("--each", metavar="FOLDER", help="Solids: write a part file for every tube into that folder."),
]


def parse_clr(typed: str | None) -> float | None:
    """CLR in mm as typed, in mm where it names no unit; raises BadParameter for no length greater than 0."""
    if typed is None:
        return None
    try:
        clr = parse_length(typed, "mm")
    except ValueError:
        clr = 0.0
    if not clr > 0.0:
        raise typer.BadParameter(f"a length greater than 0, not {typed!r}", param_hint="--clr")
    return clr
