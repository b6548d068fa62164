"""Options of `bendgen route`, and where each stands in a part's file."""

from typing import Annotated

import typer

from bendgen.cli import part_options

OPTION_OF_PLACE = {
    **part_options.OPTION_OF_PLACE,
    "route.front.at": "--front",
    "route.front.towards": "--front-towards",
    "route.rear.at": "--rear",
    "route.rear.towards": "--rear-towards",
    "route.shortest_front": "--front-straight",
    "route.shortest_rear": "--rear-straight",
    "route.bends": "--bends",
    "route.keep_out": "--keep-out",
    "route.clearance": "--clearance",
}

Front = Annotated[str, typer.Option("--front", metavar="X,Y,Z", help="Where the front end of the tube is.")]
FrontTowards = Annotated[
    str, typer.Option("--front-towards", metavar="X,Y,Z", help="Direction in which the tube leaves it.")
]
Rear = Annotated[str, typer.Option("--rear", metavar="X,Y,Z", help="Where the rear end of the tube is.")]
RearTowards = Annotated[
    str, typer.Option("--rear-towards", metavar="X,Y,Z", help="Direction in which the tube leaves it, too.")
]
FrontStraight = Annotated[
    str, typer.Option("--front-straight", metavar="LENGTH", help="Shortest straight to leave at the front end.")
]
RearStraight = Annotated[str, typer.Option("--rear-straight", metavar="LENGTH", help="The same at the rear end.")]
Bends = Annotated[int | None, typer.Option("--bends", min=1, max=3, help="So many bends; else as few as it takes.")]
KeepOut = Annotated[
    list[str] | None,
    typer.Option("--keep-out", metavar="X,Y,Z,X,Y,Z", help="Two corners of a box to stay out of; once for each box."),
]
Clearance = Annotated[
    str | None, typer.Option("--clearance", metavar="LENGTH", help="How far the tube's outside stays away from boxes.")
]
Die = Annotated[str | None, typer.Option("--die", metavar="ID", help="Die set; else every one that takes the tube.")]


def numbers_of(text: str) -> list[str | float]:
    """Coordinates as typed, "0, 10 1/2, 3 in"; the part's reader says what is wrong with them."""
    from bendgen.files.new_file import number_or_text

    return [number_or_text(number) for number in text.split(",")]
