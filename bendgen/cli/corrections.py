"""What `bendgen compare` does once a cause is known: a new issue, the steps that remain, trial bends."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from bendgen.cli.exits import BAD_INPUT, leave
from bendgen.cli.issue_files import write_issue
from bendgen.cli.program import program_or_refusal

if TYPE_CHECKING:
    from bendgen.records.bend_program import BendProgram
    from bendgen.records.comparison import Comparison
    from bendgen.records.correction import Correction
    from bendgen.records.foretold import Foretold
    from bendgen.records.machine import MachineProfile
    from bendgen.records.measured import MeasuredPiece
    from bendgen.records.part import Part


def refuse_slips(comparisons: "Sequence[Comparison]", measured: Path) -> None:
    """Correct and teach nothing by readings that may be slips of the pen: every tube of the lot would follow them."""
    slips = [(one.piece, slip) for one in comparisons for slip in one.slips]
    if slips:
        places = "; ".join(
            (f"line {slip.line}, " if slip.line else "") + f"{slip.check} of piece {piece}" for piece, slip in slips
        )
        leave(
            BAD_INPUT,
            f"{measured}: {places}: expected no reading that looks like a slip of the pen, to correct or teach by; put "
            "it right, or take the line out",
        )


def correct(
    foretold: "Foretold", pieces: "Sequence[MeasuredPiece]", wish: Path, machine: Path, out: Path, made: int | None
) -> None:
    """Write the program anew as the pieces teach it, or print the steps that remain after `made` bends."""
    from bendgen.bending.comparison import compare_piece, mean_piece
    from bendgen.bending.correction import correction_of, not_by_commands
    from bendgen.files.profile_folder import read_profile
    from bendgen.reports.correction_text import before_correcting, nothing_to_correct

    profile = read_profile(machine)
    part = _part_as_bent(wish, foretold, profile)
    comparison = compare_piece(foretold, mean_piece(pieces))
    correction, reasons = correction_of(foretold, comparison), not_by_commands(comparison)
    if not correction.causes:
        typer.echo(nothing_to_correct(reasons))
        return
    if reasons:
        typer.echo(before_correcting(reasons))
    if made is None:
        _write_corrected(part, profile, correction, out)
    else:
        _print_remaining(part, profile, foretold, correction, made)


def _part_as_bent(wish: Path, foretold: "Foretold", profile: "MachineProfile") -> "Part":
    """The part in the hand and from the end that the sheet says, with what that sheet allowed for already."""
    from dataclasses import replace

    from bendgen.bending.correction import correction_so_far
    from bendgen.bending.hands import as_bent
    from bendgen.bending.same_program import difference
    from bendgen.files.part_file import read_part

    part = as_bent(read_part(wish), mirrored=foretold.mirrored, from_rear=foretold.from_rear)
    if part.route is not None:  # the route that was bent stands: a correction must not look for another
        part = replace(_planned(part, profile).part, route=None)
    part = replace(part, correction=correction_so_far(foretold))
    program = _planned(part, profile)
    changed = difference(program, foretold)
    if changed is not None:
        leave(
            BAD_INPUT,
            f"{wish}: expected the part, and the machine, that issue {foretold.issue} of {foretold.number} was made "
            f"from, found {changed}; what was measured says nothing about others",
        )
    return part


def _planned(part: "Part", profile: "MachineProfile") -> "BendProgram":
    from bendgen.bending.planning import plan_part

    return program_or_refusal(plan_part(part, profile))


def _write_corrected(part: "Part", profile: "MachineProfile", correction: "Correction", out: Path) -> None:
    """Issue anew, with a number above that of the sheet it replaces, wherever that one lies."""
    from dataclasses import replace

    from bendgen.files.output_names import next_issue

    program = _planned(replace(part, correction=correction), profile)
    issue = max(next_issue(out, program.part), correction.replaces_issue + 1)
    write_issue(program, out, issue=issue, force=False, show="line")
    typer.echo(f"destroy issue {correction.replaces_issue}, sheet id {correction.replaces_id}")


def _print_remaining(
    part: "Part", profile: "MachineProfile", foretold: "Foretold", correction: "Correction", made: int
) -> None:
    from dataclasses import replace

    from bendgen.bending.remaining import off_the_wanted, plan_remaining
    from bendgen.reports.correction_text import remaining_text

    plan = plan_remaining(part, profile, foretold, correction, made)
    without_cures = tuple(replace(finding, cures=()) for finding in plan.findings)  # they would change the part's file
    program = program_or_refusal(replace(plan, findings=without_cures))
    typer.echo(remaining_text(program, made, off_the_wanted(program, foretold)))


def teach(foretold: "Foretold", pieces: "Sequence[MeasuredPiece]", file: Path) -> None:
    """Write the measured angles as trial bends, in a new file."""
    from bendgen.files.taught_csv import format_taught_csv
    from bendgen.files.whole_files import write_whole_files

    write_whole_files({file: format_taught_csv(foretold, tuple(pieces))})
    typer.echo(f"wrote {file}: read it with bendgen trials")
