"""Registers the commands, nothing else."""

import typer

from bendgen.cli.compare import compare
from bendgen.cli.exits import PlainErrors
from bendgen.cli.machine.group import machine
from bendgen.cli.offset import offset
from bendgen.cli.program import program
from bendgen.cli.read import read
from bendgen.cli.replay import replay
from bendgen.cli.route import route
from bendgen.cli.trials import trials

app = typer.Typer(
    name="bendgen",
    help="From a wanted tube to bender steps and a check sheet.",
    cls=PlainErrors,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    add_completion=False,
)
app.command()(program)
app.command()(offset)
app.command()(read)
app.command()(replay)
app.command()(route)
app.command()(trials)
app.command()(compare)
app.add_typer(machine)
