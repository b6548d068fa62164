"""What a program foretells, taken out of it."""

from bendgen.records.bend_program import BendProgram
from bendgen.records.foretold import Foretold, ForetoldStep


def foretold_of_program(program: BendProgram, *, program_id: str = "", issue: int = 0) -> Foretold:
    """Part of a program that its JSON file holds too; id and issue are known only once it is written."""
    part, output = program.part, program.profile.output
    return Foretold(
        program_id=program_id,
        issue=issue,
        name=part.name,
        number=part.number,
        revision=part.revision,
        machine=program.profile.name,
        units=output.units,
        mirrored=part.mirrored,
        from_rear=part.from_rear,
        tube=part.tube,
        feed=output.feed,
        rotation=output.rotation,
        blank=program.blank,
        steps=tuple(
            ForetoldStep(
                number=step.number,
                die=step.die,
                feed=step.feed,
                rotation_deg=step.rotation_deg,
                bend_deg=step.bend_deg,
                elongation=step.elongation,
                slope=step.slope,
                straights_held=step.width_change is not None,
            )
            for step in program.steps
        ),
        wanted=program.wanted,
        wanted_tube=program.wanted_tube,
        predicted=program.predicted,
        finished=program.finished,
        tolerance=part.tolerance,
        checks=program.checks,
        corrections=() if part.correction is None else part.correction.bends,
    )
