"""Options and arguments used by more than one command."""

from pathlib import Path
from typing import Annotated

import typer

ProfileFolder = Annotated[
    Path,
    typer.Argument(metavar="DIR", help="Folder of the machine: machine.toml, dies/, tables/, materials/."),
]
Machine = Annotated[
    Path,
    typer.Option("--machine", metavar="DIR", help="Folder of the machine that will bend the part."),
]
Json = Annotated[bool, typer.Option("--json", help="Print the result as JSON, for another program to read.")]
Quiet = Annotated[bool, typer.Option("--quiet", help="Print nothing unless something is wrong.")]
Page = Annotated[
    Path | None, typer.Option("--html", metavar="FILE", help="Write the report with its drawings as a page, too.")
]
