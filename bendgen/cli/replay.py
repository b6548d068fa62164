"""`bendgen replay`."""

from pathlib import Path
from typing import Annotated, Literal

import typer

from bendgen.cli.options import Json, Machine

Steps = Annotated[Path, typer.Argument(metavar="STEPS", help="A .steps.json, or a CSV of feed, rotation, bend.")]
AnglesHeld = Annotated[
    Literal["commanded", "finished"] | None,
    typer.Option("--angles", help="CSV: are its bends what the machine is told, or what the part has?"),
]
Blank = Annotated[str | None, typer.Option("--blank", metavar="LENGTH", help="CSV: length of the blank.")]
Rear = Annotated[
    str | None, typer.Option("--rear", metavar="LENGTH", help="CSV: or, instead, the straight behind the last bend.")
]
Od = Annotated[str | None, typer.Option("--od", metavar="LENGTH", help="CSV: outside diameter of the tube.")]
Wall = Annotated[str | None, typer.Option("--wall", metavar="LENGTH", help="CSV: wall of the tube.")]
Material = Annotated[str | None, typer.Option("--material", metavar="NAME", help="CSV: material, as tables name it.")]
Temper = Annotated[str | None, typer.Option("--temper", metavar="NAME", help="CSV: temper, as tables name it.")]
Lot = Annotated[str | None, typer.Option("--lot", metavar="NAME", help="CSV: lot, if a table serves it alone.")]
Perforated = Annotated[bool, typer.Option("--perforated", help="CSV: the tube is perforated.")]
Die = Annotated[str | None, typer.Option("--die", metavar="ID", help="CSV: die set of steps that name none.")]


def replay(
    steps: Steps,
    machine: Machine,
    angles: AnglesHeld = None,
    blank: Blank = None,
    rear: Rear = None,
    od: Od = None,
    wall: Wall = None,
    material: Material = None,
    temper: Temper = None,
    lot: Lot = None,
    perforated: Perforated = False,
    die: Die = None,
    json: Json = False,
) -> None:
    """Play a step list forward on a machine and show what it would make.

    Prints the vertices, straights, angles and overall size of the tube, and the blank it takes. A .steps.json of this
    tool says all that is needed; for any other list, options say what its columns leave open. A length may be written
    as 110, 12.5 mm or 4-1/2 in; without a unit it is in the unit of the machine's folder.
    """
    from bendgen.bending.replay import replay_steps
    from bendgen.cli.step_list_options import StepListOptions, complete_list
    from bendgen.files.profile_folder import read_profile
    from bendgen.files.replay_json import format_replay_json
    from bendgen.files.step_list_file import read_step_list
    from bendgen.reports.replay_text import replay_text

    profile = read_profile(machine)
    options = StepListOptions(
        angles=angles,
        blank=blank,
        rear=rear,
        od=od,
        wall=wall,
        material=material,
        temper=temper,
        lot=lot,
        perforated=perforated,
        die=die,
    )
    listed, rear_straight = complete_list(read_step_list(steps), options, profile.units)
    made = replay_steps(listed, profile, rear=rear_straight)
    if json:
        typer.echo(format_replay_json(made), nl=False)
    else:
        text = replay_text(made.tube, made.shape, box=made.box, blank=made.blank, units=profile.output.units)
        typer.echo(text, nl=False)
