"""What a machine says of a file that is read: its form of steps, the tube they make on it, a CLR it does not make."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from bendgen.cli.read_needless import refuse_for_no_steps
from bendgen.cli.step_list_options import StepListOptions, complete_list, length_of_option

if TYPE_CHECKING:
    from bendgen.files.new_part import Typed
    from bendgen.records.found_tube import Answers, FoundTube
    from bendgen.records.step_list import ForeignSteps


OWN_FORM = ("form", "as [output] of the machine's folder has it, unit and columns too, wherever no option says another")


@dataclass(frozen=True, slots=True, kw_only=True)
class StepsAnswers:
    """What only a file of steps leaves open: its last straight or its blank, and that it is in a machine's own form."""

    rear: str | None
    blank: str | None
    own_form: bool

    def given(self) -> dict[str, object]:
        """Options by name."""
        return {"--own-form": self.own_form, "--rear": self.rear, "--blank": self.blank}


def found_in_file(
    file: Path,
    answers: "Answers",
    typed: "Mapping[str, Typed | None]",
    for_steps: StepsAnswers,
    machine: Path | None,
) -> "FoundTube":
    """Tube in the file, or the one that its steps make; typed: options by their place in a part's file."""
    from bendgen.files.tube_source import is_csv, read_source
    from bendgen.records.step_list import ForeignSteps

    if for_steps.own_form:
        if not is_csv(file):
            refuse_for_no_steps(file, for_steps.given())
        answers = _answers_of_machine(answers, machine)
    source = read_source(file, answers)
    if isinstance(source, ForeignSteps):
        if for_steps.own_form:
            source = replace(source, understood=(OWN_FORM, *source.understood))
        return _tube_of_steps(source, typed, for_steps, machine)
    refuse_for_no_steps(file, for_steps.given())
    return source


def _answers_of_machine(answers: "Answers", machine: Path | None) -> "Answers":
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


def _tube_of_steps(
    foreign: "ForeignSteps", typed: "Mapping[str, Typed | None]", for_steps: StepsAnswers, machine: Path | None
) -> "FoundTube":
    """Tube that the steps make: on the machine, or by themselves where finished bends need none."""
    from bendgen.bending.foreign_steps import needs_machine, tube_on_machine, tube_without_machine
    from bendgen.files.profile_folder import read_profile

    named = typed["part.die"]
    if named is not None and any(step.die not in (None, named) for step in foreign.steps.steps):
        raise typer.BadParameter("the steps name other die sets; leave out --die")
    if machine is not None:
        profile = read_profile(machine)
        completed, rear = complete_list(foreign.steps, _options(foreign, typed, for_steps), foreign.units)
        return tube_on_machine(foreign, completed, profile, rear=rear)
    if needs_machine(foreign):
        raise typer.BadParameter("say --machine: only its tables tell what commanded bends, or such feeds, leave")
    if for_steps.blank is not None:
        raise typer.BadParameter(
            "--blank needs --machine: only its tables tell what the bends use of it; or say --rear"
        )
    rear = length_of_option("--rear", for_steps.rear, foreign.units)
    if rear is None:
        raise typer.BadParameter("say --rear: where does the tube end?")
    return tube_without_machine(foreign, rear)


def clr_on_machine(
    found: "FoundTube", typed: "Mapping[str, Typed | None]", machine: Path | None
) -> "tuple[FoundTube, str]":
    """Tube whose fitted CLR are those of the machine's die sets, and what to know of a CLR that none of them makes.

    The lines are empty where there is nothing to know.
    """
    od = typed["tube.od"]
    od_mm = found.od if od is None else length_of_option("--od", str(od), found.units)
    if machine is None or od_mm is None:
        return found, ""
    from bendgen.bending.found_clr import on_die_sets
    from bendgen.bending.other_clr import misfit_clr_text
    from bendgen.files.profile_folder import read_profile

    profile, die = read_profile(machine), typed["part.die"]
    on_dies = on_die_sets(found, od_mm, profile, named=None if die is None else str(die))
    return on_dies, misfit_clr_text(on_dies, od_mm, profile)


def _options(foreign: "ForeignSteps", typed: "Mapping[str, Typed | None]", for_steps: StepsAnswers) -> StepListOptions:
    def text(place: str) -> str | None:
        value = typed[place]
        return None if value is None else str(value)

    return StepListOptions(
        angles=foreign.steps.angles,
        blank=for_steps.blank,
        rear=for_steps.rear,
        od=text("tube.od"),
        wall=text("tube.wall"),
        material=text("tube.material"),
        temper=text("tube.temper"),
        lot=text("tube.lot"),
        perforated=bool(typed["tube.perforated"]),
        die=text("part.die"),
    )
