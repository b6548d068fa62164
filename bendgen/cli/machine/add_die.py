"""`bendgen machine add-die`."""

import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Annotated, Any

import typer

from bendgen.cli.exits import BAD_INPUT, leave
from bendgen.cli.machine.die_questions import QUESTIONS, MistakesIn, ask_missing, option_name, unanswered
from bendgen.cli.options import ProfileFolder
from bendgen.errors import InputError, Mistake


def _option(key: str) -> Any:  # noqa: ANN401 - what typer calls an option has no public type
    return typer.Option(option_name(key), metavar="TEXT", help=f"{QUESTIONS[key]}.", show_default=False)


def add_die(
    folder: ProfileFolder,
    *,
    die_id: Annotated[str | None, _option("id")] = None,
    tube_od: Annotated[str | None, _option("tube_od")] = None,
    clr: Annotated[str | None, _option("clr")] = None,
    clamp: Annotated[str | None, _option("clamp")] = None,
    smallest_bend: Annotated[str | None, _option("smallest_bend")] = None,
    largest_bend: Annotated[str | None, _option("largest_bend")] = None,
    pressure_die: Annotated[str | None, _option("pressure_die")] = None,
    pressure_travel: Annotated[str | None, _option("pressure_travel")] = None,
    mandrel_ahead: Annotated[str | None, _option("mandrel_ahead")] = None,
    walls: Annotated[str | None, _option("walls")] = None,
    stack: Annotated[str | None, _option("stack")] = None,
    sleeve: Annotated[str | None, _option("sleeve")] = None,
    set_up: Annotated[str | None, _option("set_up")] = None,
    units: Annotated[
        str | None, typer.Option(metavar="mm|in", help="Unit of lengths without one; else that of the machine.")
    ] = None,
) -> None:
    """Add a die set to a machine: one new file in its folder dies/.

    At a terminal it asks for what the options leave open. Lengths may be written as 110, 12.5 mm, 4 1/2 or 4-1/2 in.
    Nothing is ever overwritten.
    """
    given = {
        "id": die_id,
        "tube_od": tube_od,
        "clr": clr,
        "clamp": clamp,
        "smallest_bend": smallest_bend,
        "largest_bend": largest_bend,
        "pressure_die": pressure_die,
        "pressure_travel": pressure_travel,
        "mandrel_ahead": mandrel_ahead,
        "walls": walls,
        "stack": stack,
        "sleeve": sleeve,
        "set_up": set_up,
    }
    _add(folder, {key: answer for key, answer in given.items() if answer is not None}, units)


def _add(folder: Path, given: Mapping[str, str], units: str | None) -> None:
    """Check the folder before anything is asked, write, and say what the new die set still lacks."""
    from bendgen.files.new_die import check_new_die, die_data, read_known_dies, write_new_die
    from bendgen.reports.profile_summary import new_die_notes

    known = read_known_dies(folder)
    units = units or known.units

    def mistakes_in(answers: Mapping[str, str]) -> list[Mistake]:
        return check_new_die(die_data(answers, units), known)

    answers = _completed(given, mistakes_in) if unanswered(given) else given
    path = write_new_die(folder, die_data(answers, units), known)
    typer.echo(f"{path}: written")
    typer.echo(new_die_notes(answers["id"], absent=[key for key in QUESTIONS if key not in answers]))


def _completed(given: Mapping[str, str], mistakes_in: MistakesIn) -> Mapping[str, str]:
    """All answers, those that the options leave open asked for; what the options got wrong is said before that."""
    if not sys.stdin.isatty():
        options = ", ".join(option_name(key) for key in unanswered(given))
        leave(BAD_INPUT, f"not given: {options} (as no one is at a terminal to be asked)")
    wrong = [mistake for mistake in mistakes_in(given) if mistake.found]
    if wrong:
        raise InputError(wrong)
    return ask_missing(given, mistakes_in)
