"""`bendgen program`."""

import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import nullcontext
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from bendgen.cli.exits import BAD_INPUT, DONE, LIMIT_BROKEN
from bendgen.cli.issue_files import SheetForms, Show, write_issue
from bendgen.cli.options import Json, Machine, Quiet
from bendgen.cli.page_printer import page_printer

if TYPE_CHECKING:
    from bendgen.records.bend_program import BendProgram, Plan
    from bendgen.records.machine import MachineProfile
    from bendgen.records.part import Part

Parts = Annotated[list[Path], typer.Argument(metavar="PART…", help="Part files, TOML; one or many.")]
OutFolder = Annotated[Path, typer.Option("--out", metavar="DIR", help="Folder for the files; made if missing.")]
Force = Annotated[bool, typer.Option("--force", help="Replace the files of an issue that was written before.")]
Issue = Annotated[
    int | None,
    typer.Option(
        "--issue", metavar="N", min=1, help="Number of this issue; else one more than the last in the folder."
    ),
]
Mirror = Annotated[bool, typer.Option("--mirror", help="Make the opposite hand of every part.")]
FromRear = Annotated[bool, typer.Option("--from-rear", help="Bend from the other end: the last vertex goes first.")]
NoPage = Annotated[bool, typer.Option("--no-html", help="Leave out the sheet as a page for screen and printer.")]
AxisCsv = Annotated[bool, typer.Option("--axis-csv", help="Write the predicted axis, too, as a CSV of vertices.")]
AxisDxf = Annotated[
    bool, typer.Option("--axis-dxf", help="Write the predicted axis, too, as a drawing to lay over the part's own.")
]
Pdf = Annotated[bool, typer.Option("--pdf", help="Also print that page to PDF; needs the extra pdf and chromium.")]


def program(
    parts: Parts,
    machine: Machine,
    out: OutFolder = Path(),
    force: Force = False,
    issue: Issue = None,
    mirror: Mirror = False,
    from_rear: FromRear = False,
    no_html: NoPage = False,
    pdf: Pdf = False,
    axis_csv: AxisCsv = False,
    axis_dxf: AxisDxf = False,
    quiet: Quiet = False,
    json: Json = False,
) -> None:
    """Make the steps for a bender, and a check sheet to hang beside it, from wanted tubes.

    Each part that can be bent gets five files: the steps as this machine wants them (.machine.csv), the same in
    neutral form (.steps.csv, .steps.json) and the sheet, as text (.sheet.txt) and as a page for screen and printer
    (.sheet.html; with --pdf printed too, .sheet.pdf). Each other part gets every limit it breaks, and what would cure
    it. Exit status: 0 written, 1 a part breaks a limit, 2 bad input.
    """
    from bendgen.files.output_names import refuse_shared_names
    from bendgen.files.profile_folder import read_profile
    from bendgen.files.program_files import refuse_existing_issues
    from bendgen.reports.program_summary import summary_line

    profile = read_profile(machine)
    readable = list(_readable(parts, mirror=mirror, from_rear=from_rear))
    refuse_shared_names((str(path), part) for path, part in readable)
    if issue is not None and not force:
        refuse_existing_issues((part for _, part in readable), out, issue=issue)
    results = Counter(unreadable=len(parts) - len(readable))
    show: Show = "json" if json else "nothing" if quiet else "line"
    with page_printer() if pdf else nullcontext() as print_page:
        forms = SheetForms(page=not no_html, print_page=print_page, axis_csv=axis_csv, axis_dxf=axis_dxf)
        for count, (path, part) in enumerate(readable, start=1):
            _show_progress(count, len(readable), path, quiet=quiet)
            plan = _plan(path, part, profile)
            if plan is None:
                results["unreadable"] += 1
            elif plan.program is None:
                results["refused"] += 1
                print_refusal(_with_unit_slip(path, plan), json=json)
            else:
                results["trial_pieces"] += bool(plan.program.trial_piece)
                results["written"] += 1
                write_issue(plan.program, out, issue=issue, force=force, forms=forms, show=show)
    if len(parts) > 1 and not quiet and not json:
        names = ("written", "trial_pieces", "refused", "unreadable")
        typer.echo(summary_line(**{name: results[name] for name in names}))
    raise typer.Exit(BAD_INPUT if results["unreadable"] else LIMIT_BROKEN if results["refused"] else DONE)


def _readable(paths: Sequence[Path], *, mirror: bool, from_rear: bool) -> Iterator[tuple[Path, "Part"]]:
    """Parts that can be read, as they will be bent; the mistakes of the others go to stderr."""
    from bendgen.bending.hands import as_bent
    from bendgen.errors import InputError
    from bendgen.files.part_file import read_part

    for path in paths:
        try:
            part = read_part(path)
        except InputError as error:
            typer.echo(str(error), err=True)
            continue
        yield path, as_bent(part, mirrored=mirror, from_rear=from_rear)


def _plan(path: Path, part: "Part", profile: "MachineProfile") -> "Plan | None":
    """Plan of a part; None, and a line on stderr, where its vertices or the profile's tooling allow none."""
    from bendgen.bending.planning import plan_part
    from bendgen.errors import BendgenError

    try:
        return plan_part(part, profile)
    except BendgenError as error:
        typer.echo(f"{path}: {error}", err=True)
        return None


def program_or_refusal(plan: "Plan") -> "BendProgram":
    """Program of a plan; where the part breaks a limit, those limits are printed and the command ends."""
    if plan.program is None:
        print_refusal(plan, json=False)
        raise typer.Exit(LIMIT_BROKEN)
    return plan.program


def _with_unit_slip(path: Path, plan: "Plan") -> "Plan":
    """Refused plan which asks whether the unit is right, where the same file in the other unit could be bent."""
    from dataclasses import replace

    from bendgen.bending.hands import as_bent
    from bendgen.bending.unit_slip import unit_slip
    from bendgen.errors import InputError
    from bendgen.files.part_file import read_part

    part = plan.part
    try:
        other = read_part(path, units="mm" if part.units == "in" else "in")
    except InputError:  # a number that the other unit makes too large
        return plan
    slip = unit_slip(part, as_bent(other, mirrored=part.mirrored, from_rear=part.from_rear), plan.profile)
    return replace(plan, findings=(*plan.findings, slip)) if slip else plan


def print_refusal(plan: "Plan", *, json: bool) -> None:
    """Print the limits that a part breaks, with their cures."""
    from bendgen.files.findings_json import format_findings_json
    from bendgen.reports.findings_text import findings_text
    from bendgen.reports.program_summary import refused_line

    if json:
        typer.echo(format_findings_json(plan), nl=False)
    else:
        typer.echo(f"{refused_line(plan.part, plan.findings)}\n\n{findings_text(plan.findings)}\n")


def _show_progress(count: int, total: int, path: Path, *, quiet: bool) -> None:
    """Overwrite one line of a terminal; a file that collects stderr gets none of it."""
    if total > 1 and not quiet and sys.stderr.isatty():
        typer.echo(f"\r{count} of {total}: {path}\x1b[K", err=True, nl=False)
        if count == total:
            typer.echo("\r\x1b[K", err=True, nl=False)
