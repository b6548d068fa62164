"""What a machine says of a file that is read: its form of steps, the tube they make on it, a CLR it does not make."""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from bendgen.cli.step_list_options import StepListOptions, complete_list, length_of_option

if TYPE_CHECKING:
    from bendgen.files.new_part import Typed
    from bendgen.records.found_tube import Answers, FoundTube
    from bendgen.records.step_list import ForeignSteps


def answers_of_machine(answers: "Answers", machine: Path | None) -> "Answers":
    """Answers with what the machine's own form says, wherever nobody has said otherwise."""
    from bendgen.files.profile_folder import read_profile

    if machine is None:
        raise typer.BadParameter("--own-form needs --machine: whose form is it?")
    output = read_profile(machine).output
    return replace(
        answers,
        units=answers.units or output.units,
        columns=answers.columns or ",".join(output.columns),
        feed=answers.feed or output.feed,
        rotation=answers.rotation or output.rotation,
        rotation_positive=answers.rotation_positive or output.rotation_positive,
        angles=answers.angles or "commanded",
    )


def tube_of_steps(
    foreign: "ForeignSteps",
    typed: "Mapping[str, Typed | None]",
    *,
    rear: str | None,
    blank: str | None,
    machine: Path | None,
) -> "FoundTube":
    """Tube that the steps make: on the machine, or by themselves where finished bends need none.

    typed : options by their place in a part's file
    """
    from bendgen.bending.foreign_steps import needs_machine, tube_on_machine, tube_without_machine
    from bendgen.files.profile_folder import read_profile

    if machine is not None:
        profile = read_profile(machine)
        completed, rear_straight = complete_list(foreign.steps, _options(foreign, typed, rear, blank), foreign.units)
        return tube_on_machine(foreign, completed, profile, rear=rear_straight)
    if needs_machine(foreign):
        raise typer.BadParameter("say --machine: only its tables tell what commanded bends, or such feeds, leave")
    rear_straight = length_of_option("--rear", rear, foreign.units)
    if rear_straight is None:
        raise typer.BadParameter("say --rear: where does the tube end?")
    return tube_without_machine(foreign, rear_straight)


def clr_on_machine(found: "FoundTube", typed: "Mapping[str, Typed | None]", machine: Path | None) -> str:
    """What to know of a CLR that the machine does not make, as a section to print; empty where there is nothing."""
    od = typed["tube.od"]
    od_mm = found.od if od is None else length_of_option("--od", str(od), found.units)
    if machine is None or od_mm is None:
        return ""
    from bendgen.bending.other_clr import misfit_clr_text
    from bendgen.files.profile_folder import read_profile

    text = misfit_clr_text(found, od_mm, read_profile(machine))
    return f"\n{text}\n" if text else ""


def _options(
    foreign: "ForeignSteps", typed: "Mapping[str, Typed | None]", rear: str | None, blank: str | None
) -> StepListOptions:
    def text(place: str) -> str | None:
        value = typed[place]
        return None if value is None else str(value)

    return StepListOptions(
        angles=foreign.steps.angles,
        blank=blank,
        rear=rear,
        od=text("tube.od"),
        wall=text("tube.wall"),
        material=text("tube.material"),
        temper=text("tube.temper"),
        lot=text("tube.lot"),
        perforated=bool(typed["tube.perforated"]),
        die=text("part.die"),
    )
