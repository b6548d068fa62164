"""Registers the commands, nothing else."""

import typer

app = typer.Typer(
    name="bendgen",
    help="From a wanted tube to bender steps and a check sheet.",
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    add_completion=False,
)
