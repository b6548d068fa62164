"""Options of `bendgen read` that would not count for the file given, or beside the others: refused, never ignored."""

from collections.abc import Mapping
from pathlib import Path

import typer

NAMES_OF_A_PART = {"part.name": "--name", "part.number": "--number", "part.revision": "--revision"}


def refuse_for_no_part(typed: Mapping[str, object]) -> None:
    """Raise BadParameter for what is said of a part file while none is written."""
    given = [option for place, option in NAMES_OF_A_PART.items() if typed[place] is not None]
    if given:
        raise typer.BadParameter(f"no part file is written: leave out {', '.join(given)}, or say --write")


def refuse_beside_each(given: Mapping[str, object]) -> None:
    """Raise BadParameter for what cannot hold for every tube of a file; given: options by name."""
    _refuse(given, "--each writes every tube of the file as it is: leave out")


def refuse_for_no_steps(file: Path, given: Mapping[str, object]) -> None:
    """Raise BadParameter for options that steps alone need, where the file holds none."""
    _refuse(given, f"{file} holds no steps; leave out what is for steps alone:")


def _refuse(given: Mapping[str, object], why: str) -> None:
    named = [option for option, value in given.items() if value not in (None, False)]
    if named:
        raise typer.BadParameter(f"{why} {', '.join(named)}")
