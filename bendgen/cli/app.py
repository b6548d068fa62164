"""Names the commands, nothing else; each is loaded only when it is asked for."""

import typer

from bendgen.cli.exits import PlainErrors
from bendgen.cli.loaded_when_asked import LoadedWhenAsked


class Commands(LoadedWhenAsked, PlainErrors):
    """The root of all commands."""

    modules = {  # noqa: RUF012 - read only
        "program": "bendgen.cli.program",
        "offset": "bendgen.cli.offset",
        "read": "bendgen.cli.read",
        "replay": "bendgen.cli.replay",
        "route": "bendgen.cli.route",
        "trials": "bendgen.cli.trials",
        "compare": "bendgen.cli.compare",
        "machine": "bendgen.cli.machine.group",
    }


app = typer.Typer(
    name="bendgen",
    cls=Commands,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    add_completion=False,
)


@app.callback()
def bendgen() -> None:
    """From a wanted tube to bender steps and a check sheet."""
