"""Registers the sub-commands of `machine`, nothing else."""

import typer

from bendgen.cli.machine.add_die import add_die
from bendgen.cli.machine.check import check
from bendgen.cli.machine.proof import proof
from bendgen.cli.machine.show import show

machine = typer.Typer(
    name="machine",
    help="Look after the folder that describes a bender: its limits, die sets and trial-bend tables.",
    no_args_is_help=True,
    rich_markup_mode=None,
)
machine.command()(check)
machine.command()(show)
machine.command()(add_die)
machine.command()(proof)
