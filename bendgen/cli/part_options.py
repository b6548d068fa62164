"""Options of the commands that write a part file, and where each stands in it."""

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from bendgen.files.new_part import Typed

OPTION_OF_PLACE = {
    "part.name": "--name",
    "part.number": "--number",
    "part.revision": "--revision",
    "part.die": "--die",
    "tube.od": "--od",
    "tube.wall": "--wall",
    "tube.material": "--material",
    "tube.temper": "--temper",
    "tube.lot": "--lot",
    "tube.perforated": "--perforated",
}

Temper = Annotated[str | None, typer.Option("--temper", metavar="NAME", help="Temper, as tables name it.")]
Lot = Annotated[str | None, typer.Option("--lot", metavar="NAME", help="Lot, whose own table is taken first.")]
Perforated = Annotated[bool, typer.Option("--perforated", help="The tube is perforated.")]
Die = Annotated[str | None, typer.Option("--die", metavar="ID", help="Die set; else the only one for this OD.")]
Write = Annotated[
    Path | None, typer.Option("--write", metavar="FILE", help="Write it as a part file, too; never over another.")
]
Name = Annotated[str | None, typer.Option("--name", metavar="TEXT", help="Name of that part.")]
Number = Annotated[str | None, typer.Option("--number", metavar="TEXT", help="Number of that part.")]
Revision = Annotated[str | None, typer.Option("--revision", metavar="TEXT", help="Revision of that part.")]


def typed_part(
    *, name: str | None, number: str | None, revision: str | None, die: str | None
) -> "dict[str, Typed | None]":
    """Options that describe the part, by their place in its file."""
    return {"part.name": name, "part.number": number, "part.revision": revision, "part.die": die}


def typed_tube(
    *,
    od: str | None,
    wall: str | None,
    material: str | None,
    temper: str | None,
    lot: str | None,
    perforated: bool,
) -> "dict[str, Typed | None]":
    """Options that describe the tube, by their place in a part's file."""
    return {
        "tube.od": od,
        "tube.wall": wall,
        "tube.material": material,
        "tube.temper": temper,
        "tube.lot": lot,
        "tube.perforated": perforated or None,
    }


def placeholders_left(typed: Mapping[str, object]) -> str:
    """What somebody has to fill in a part file written from options, after a semicolon; empty where nothing is left."""
    from bendgen.files.new_part import PLACEHOLDERS

    left = [f'{key} = "{text}"' for key, text in PLACEHOLDERS.items() if typed[f"part.{key}"] is None]
    return f"; replace before a program is made of it: {', '.join(left)}" if left else ""


def tell_written(path: Path, typed: "Mapping[str, Typed | None]", *, json: bool) -> None:
    """Say below the result that a part file was written, and what is missing in it; aside where the result is JSON."""
    if not json:
        typer.echo()
    typer.echo(f"{path}: written{placeholders_left(typed)}", err=json)
