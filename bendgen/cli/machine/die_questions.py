"""What a new die set needs to be told: as options, or as answers typed at a terminal."""

from collections.abc import Callable, Mapping, Sequence

import typer

from bendgen.errors import Mistake

# In the order in which they are asked and written; a limit comes after the smaller one it is compared with.
QUESTIONS = {
    "id": "Short name of the die set, for sheets and parts; its file is named after it",
    "tube_od": "Outside diameter of the tube",
    "clr": "Centreline radius (CLR) of the die",
    "clamp": "Straight that the clamp die holds ahead of a bend",
    "smallest_bend": "Smallest bend to command, in degrees",
    "largest_bend": "Largest bend to command, in degrees",
    "pressure_die": "Distance the carriage must keep from the tangent line for the pressure die",
    "pressure_travel": "Longest arc that the pressure die can follow",
    "mandrel_ahead": "Straight ahead of a bend that the mandrel needs",
    "walls": "Thinnest and thickest wall the mandrel takes, for example 1.2 to 2.0",
    "stack": "Stack it is mounted in: die sets of one stack change without a stop",
    "sleeve": "From the tangent line back, towards the carriage, to the edge of the die that an operator can see",
    "set_up": "Wiper, mandrel, lubricant and whatever else the sheet should tell the operator",
}
REQUIRED = ("id", "tube_od", "clr", "clamp", "largest_bend")

MistakesIn = Callable[[Mapping[str, str]], Sequence[Mistake]]


def option_name(key: str) -> str:
    """Name of the option that answers a question."""
    return f"--{key.replace('_', '-')}"


def unanswered(answers: Mapping[str, str]) -> list[str]:
    """Questions that must be answered and are not."""
    return [key for key in REQUIRED if key not in answers]


def ask_missing(answers: Mapping[str, str], mistakes_in: MistakesIn) -> dict[str, str]:
    """All answers in order: those given, and what is typed for the rest; an optional one may be left empty.

    mistakes_in : mistakes in the answers so far; a question is asked again where its own answer is one
    """
    typer.echo(
        "Lengths may be written as 110, 12.5 mm, 4 1/2 or 4-1/2 in. Optional: press Enter to leave out.", err=True
    )
    complete: dict[str, str] = {}
    for key in QUESTIONS:
        answer = answers[key] if key in answers else _ask(key, complete, mistakes_in)
        if answer:
            complete[key] = answer
    return complete


def _ask(key: str, so_far: Mapping[str, str], mistakes_in: MistakesIn) -> str:
    optional = key not in REQUIRED
    question = f"{QUESTIONS[key]} (optional)" if optional else QUESTIONS[key]
    while True:
        answer: str = typer.prompt(question, default="", show_default=False, err=True).strip()
        if optional and not answer:
            return answer
        wrong = [str(mistake) for mistake in mistakes_in({**so_far, key: answer}) if mistake.place.startswith(key)]
        if not wrong:
            return answer
        typer.echo("\n".join(wrong) if answer else "this one is needed", err=True)
