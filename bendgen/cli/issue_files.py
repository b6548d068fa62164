"""The files of one issue: what a program becomes on disk, and what is said of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import typer

from bendgen.cli.page_printer import Paper, PrintPage
from bendgen.units import Units

if TYPE_CHECKING:
    from bendgen.records.bend_program import BendProgram

Show = Literal["line", "json", "nothing"]
PAPERS: dict[Units, Paper] = {"mm": "A4", "in": "Letter"}


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetForms:
    """What is written besides steps and the sheet as text.

    page : the sheet as HTML; print_page: prints that as PDF, None for no PDF
    axis_csv, axis_dxf : the predicted axis
    """

    page: bool = True
    print_page: PrintPage | None = None
    axis_csv: bool = False
    axis_dxf: bool = False


def write_issue(
    program: "BendProgram",
    folder: Path,
    *,
    issue: int | None = None,
    force: bool = False,
    forms: SheetForms = SheetForms(),
    show: Show = "line",
) -> None:
    """Write the files of one program and print what `show` asks for."""
    from bendgen.bending.uncertainty import with_uncertainty
    from bendgen.files.output_names import next_issue
    from bendgen.files.program_files import write_program
    from bendgen.files.steps_json import program_id
    from bendgen.reports.program_summary import written_line

    program = with_uncertainty(program)
    issue = issue or next_issue(folder, program.part)
    tied_by = program_id(program, issue)
    sheets = _sheets(program, forms, program_id=tied_by, issue=issue)
    files = write_program(program, folder, issue=issue, sheets=sheets, force=force)
    if show == "json":
        typer.echo(files[-1].read_text(encoding="utf-8"), nl=False)
    elif show == "line":
        typer.echo(written_line(program, program_id=tied_by, issue=issue, files=[str(file) for file in files]))


def _sheets(program: "BendProgram", forms: SheetForms, *, program_id: str, issue: int) -> dict[str, str | bytes]:
    """The sheet in every form asked for; what only the page needs is loaded only for who wants it."""
    from bendgen.bending.check_values import wanted_readings
    from bendgen.bending.foretold import foretold_of_program
    from bendgen.files.output_names import SHEET_PAGE, SHEET_PDF, SHEET_TEXT
    from bendgen.reports.check_sheet import check_sheet

    wanted = wanted_readings(foretold_of_program(program))
    text = check_sheet(program, program_id=program_id, issue=issue, wanted=wanted)
    sheets: dict[str, str | bytes] = {SHEET_TEXT: text}
    if forms.page or forms.print_page:
        page = _page(program, program_id=program_id, issue=issue, wanted=wanted)
        sheets |= {SHEET_PAGE: page} if forms.page else {}
    if forms.print_page:
        sheets[SHEET_PDF] = forms.print_page(page, PAPERS[program.profile.output.units])
    return sheets | _axis_files(program, forms)


def _axis_files(program: "BendProgram", forms: SheetForms) -> dict[str, str | bytes]:
    """The predicted axis in every form asked for."""
    files: dict[str, str | bytes] = {}
    if forms.axis_csv:
        from bendgen.files.drawings.axis_csv import format_axis_csv
        from bendgen.files.output_names import AXIS_CSV

        files[AXIS_CSV] = format_axis_csv(program)
    if forms.axis_dxf:
        from bendgen.files.drawings.axis_dxf import format_axis_dxf
        from bendgen.files.output_names import AXIS_DXF

        files[AXIS_DXF] = format_axis_dxf(program)
    return files


def _page(program: "BendProgram", *, program_id: str, issue: int, wanted: Sequence[float]) -> str:
    """The sheet as HTML."""
    from bendgen.bending.lying import lying_before_bends
    from bendgen.reports.page.sheet_page import sheet_page

    lying = lying_before_bends(program)
    return sheet_page(program, program_id=program_id, issue=issue, wanted=wanted, lying=lying)
