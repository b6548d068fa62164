"""What a step list may leave open, and the options that say it."""

from dataclasses import dataclass, replace
from typing import Literal

import typer

from bendgen.records.step_list import StepList
from bendgen.records.tube import Tube
from bendgen.units import Units, parse_length


@dataclass(frozen=True, slots=True, kw_only=True)
class StepListOptions:
    """Options as typed; lengths as texts, for the machine's unit is not known when they are read."""

    angles: Literal["commanded", "finished"] | None
    blank: str | None
    rear: str | None
    od: str | None
    wall: str | None
    material: str | None
    temper: str | None
    lot: str | None
    perforated: bool
    die: str | None

    def given(self) -> list[str]:
        """Names of the options that were given."""
        fields = ("angles", "blank", "rear", "od", "wall", "material", "temper", "lot", "perforated", "die")
        return [f"--{name}" for name in fields if getattr(self, name)]


def complete_list(listed: StepList, options: StepListOptions, units: Units) -> tuple[StepList, float | None]:
    """Step list with what the options add, and the rear straight where they give it [mm].

    A list that says all by itself takes no options; nothing is guessed for one that does not.
    """
    if listed.tube is not None:
        if options.given():
            raise typer.BadParameter(f"the step list says it itself; leave out {', '.join(options.given())}")
        return listed, None
    if (options.blank is None) == (options.rear is None):
        raise typer.BadParameter("say either --blank or --rear: where does the tube end?")
    if options.angles is None:
        raise typer.BadParameter("say --angles commanded or --angles finished: what does the bend column hold?")
    steps = tuple(replace(step, die=step.die or options.die) for step in listed.steps)
    completed = replace(
        listed,
        steps=steps,
        angles=options.angles,
        blank=length_of_option("--blank", options.blank, units),
        tube=_tube(options, units),
    )
    return completed, length_of_option("--rear", options.rear, units)


def _tube(options: StepListOptions, units: Units) -> Tube:
    od, wall = length_of_option("--od", options.od, units), length_of_option("--wall", options.wall, units)
    if od is None or wall is None or options.material is None:
        needed = {"--od": od, "--wall": wall, "--material": options.material}
        missing = ", ".join(name for name, value in needed.items() if value is None)
        raise typer.BadParameter(f"the step list does not name the tube: say {missing}")
    return Tube(
        od=od,
        wall=wall,
        material=options.material,
        temper=options.temper,
        lot=options.lot,
        perforated=options.perforated,
    )


def length_of_option(name: str, text: str | None, units: Units) -> float | None:
    """Length in mm; without a unit it is in `units`. It must be greater than 0, a rear straight 0 or more."""
    if text is None:
        return None
    try:
        length = parse_length(text, units)
    except ValueError as error:
        raise typer.BadParameter(f"{name}: {error}") from None
    least = "of 0 or more" if name == "--rear" else "greater than 0"
    if length < 0.0 or (length == 0.0 and name != "--rear"):
        raise typer.BadParameter(f"{name}: expected a length {least}, found {text!r}")
    return length
