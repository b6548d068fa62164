"""`bendgen machine proof`."""

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from bendgen.cli.options import ProfileFolder

if TYPE_CHECKING:
    from bendgen.records.machine import MachineProfile
    from bendgen.records.part import Part

Die = Annotated[str | None, typer.Option("--die", metavar="ID", help="Die set to bend it on.")]
Material = Annotated[str | None, typer.Option("--material", metavar="NAME", help="Material of the scrap tube.")]
Wall = Annotated[str | None, typer.Option("--wall", metavar="LENGTH", help="Wall of the scrap tube.")]
OutFolder = Annotated[Path, typer.Option("--out", metavar="DIR", help="Folder for the files; made if missing.")]
Passed = Annotated[bool, typer.Option("--passed", help="The piece was right: write that into the profile's folder.")]
Day = Annotated[
    datetime | None,
    typer.Option("--date", metavar="YYYY-MM-DD", formats=["%Y-%m-%d"], help="Day of the proof; default: today."),
]
Force = Annotated[bool, typer.Option("--force", help="With --passed: replace an earlier proof.")]


def proof(
    folder: ProfileFolder,
    die: Die = None,
    material: Material = None,
    wall: Wall = None,
    out: OutFolder = Path(),
    passed: Passed = False,
    date: Day = None,
    force: Force = False,
) -> None:
    """Make a scrap piece that shows whether the profile says rightly how its machine turns and feeds.

    Unlike bends a quarter turn apart: bend it, lay it down as told, and compare. When it is right, `--passed` writes
    proof.toml; until then every sheet says that the machine was never proved.
    """
    from bendgen.files.new_proof import write_proof
    from bendgen.files.profile_folder import read_profile

    profile = read_profile(folder)
    if passed:
        day = (date or datetime.now()).date()
        typer.echo(f"{write_proof(profile, folder, proved=day, force=force)}: written")
        return
    _write_piece(_piece(profile, die, material, wall), profile, out)


def _piece(profile: "MachineProfile", die: str | None, material: str | None, wall: str | None) -> "Part":
    """Proof piece on the die set named; bad usage where die, material or wall is left open."""
    from bendgen.bending.proof_piece import proof_part
    from bendgen.records.tube import Tube
    from bendgen.units import parse_length

    ids = [known.id for known in profile.dies]
    if die not in ids:
        raise typer.BadParameter(f"one of {', '.join(ids)}", param_hint="--die")
    if material is None or wall is None:
        raise typer.BadParameter("the scrap tube's --material and --wall")
    try:
        thickness = parse_length(wall, profile.units)
    except ValueError as error:
        raise typer.BadParameter(str(error), param_hint="--wall") from None
    chosen = profile.die(die)
    tube = Tube(od=chosen.tube_od, wall=thickness, material=material)
    return proof_part(chosen, tube, profile.units)


def _write_piece(part: "Part", profile: "MachineProfile", out: Path) -> None:
    from bendgen.bending.planning import plan_part
    from bendgen.bending.proof_piece import proof_piece
    from bendgen.cli.issue_files import write_issue
    from bendgen.cli.program import program_or_refusal
    from bendgen.reports.proof_text import proof_text

    program = program_or_refusal(plan_part(part, profile))
    write_issue(program, out)
    typer.echo(f"\n{proof_text(proof_piece(program), profile)}", nl=False)
