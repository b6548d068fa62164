"""Options of `bendgen offset`, and where each stands in a part's file."""

from typing import Annotated

import typer

from bendgen.cli import part_options

OPTION_OF_PLACE = {
    **part_options.OPTION_OF_PLACE,
    "offset.rise": "--rise",
    "offset.front.out": "--front-out",
    "offset.front.clock": "--front-clock",
    "offset.rear.out": "--rear-out",
    "offset.rear.clock": "--rear-clock",
    "offset.length": "--length",
    "offset.shortest_end": "--end",
    "offset.angle": "--angle",
    "offset.between": "--between",
    "offset.prefer": "--gentle",
}

Od = Annotated[str, typer.Option("--od", metavar="LENGTH", help="Outside diameter of the tube.")]
Wall = Annotated[str, typer.Option("--wall", metavar="LENGTH", help="Wall of the tube.")]
Material = Annotated[str, typer.Option("--material", metavar="NAME", help="Material, as tables name it.")]

Length = Annotated[str, typer.Option("--length", metavar="LENGTH", help="Finished length, along the end axes.")]
End = Annotated[str, typer.Option("--end", metavar="LENGTH", help="Shortest straight to leave at either end.")]
Rise = Annotated[str | None, typer.Option("--rise", metavar="LENGTH", help="Distance between the end axes.")]
FrontOut = Annotated[
    str | None,
    typer.Option("--front-out", metavar="LENGTH", help="Or, instead: the front end off a common axis by so much …"),
]
FrontClock = Annotated[
    float | None,
    typer.Option(
        "--front-clock",
        metavar="DEGREES",
        help="… at this clock position: 0 is up, clockwise positive, seen from the rear end, as from the carriage.",
    ),
]
RearOut = Annotated[str | None, typer.Option("--rear-out", metavar="LENGTH", help="The same for the rear end.")]
RearClock = Annotated[
    float | None,
    typer.Option("--rear-clock", metavar="DEGREES", help="The same for the rear end."),
]

Angle = Annotated[
    float | None, typer.Option("--angle", metavar="DEGREES", help="Finished angle of both bends, at most 90.")
]
Between = Annotated[
    str | None, typer.Option("--between", metavar="LENGTH", help="Or, instead: the straight between the bends.")
]
Gentle = Annotated[bool, typer.Option("--gentle", help="Or, instead: the gentlest bends that leave the ends.")]
