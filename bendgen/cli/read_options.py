"""Options of `bendgen read`, and where those that describe the part stand in its file."""

from typing import Annotated, Literal

import typer

from bendgen.units import DrawnUnits

TUBE_PLACES = ("tube.od", "tube.wall", "tube.material")

DrawnIn = Annotated[DrawnUnits | None, typer.Option("--units", help="Unit of the lengths, where the file names none.")]
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
FromRear = Annotated[bool, typer.Option("--from-rear", help="The file's last point is the front end.")]
Od = Annotated[str | None, typer.Option("--od", metavar="LENGTH", help="Outside diameter of the tube.")]
Wall = Annotated[str | None, typer.Option("--wall", metavar="LENGTH", help="Wall of the tube.")]
Material = Annotated[str | None, typer.Option("--material", metavar="NAME", help="Material, as tables name it.")]
