"""`bendgen compare`."""

from pathlib import Path
from typing import Annotated

import typer

from bendgen.cli.exits import DONE, LIMIT_BROKEN
from bendgen.cli.options import Json, Page

Steps = Annotated[Path, typer.Argument(metavar="STEPS", help="The .steps.json that the pieces were bent from.")]
Measured = Annotated[Path, typer.Argument(metavar="MEASURED", help="What was measured, CSV; one piece or many.")]
Correct = Annotated[
    Path | None,
    typer.Option("--correct", metavar="PART", help="Issue this part anew, corrected by what was measured."),
]
OnMachine = Annotated[
    Path | None, typer.Option("--machine", metavar="DIR", help="With --correct: folder of the machine.")
]
OutFolder = Annotated[Path, typer.Option("--out", metavar="DIR", help="With --correct: folder for the files.")]
Made = Annotated[
    int | None,
    typer.Option("--made", metavar="N", min=1, help="With --correct: N bends are made; print the steps that remain."),
]
Teach = Annotated[
    Path | None, typer.Option("--teach", metavar="FILE", help="Write the angles as trial bends, a new CSV.")
]


def compare(
    steps: Steps,
    measured: Measured,
    correct: Correct = None,
    machine: OnMachine = None,
    out: OutFolder = Path(),
    made: Made = None,
    teach: Teach = None,
    html: Page = None,
    json: Json = False,
) -> None:
    """Hold measured pieces against the program they were bent from, and name what explains a miss.

    MEASURED has the columns check, value and unit, one reading a line, each check named as on the sheet; or x_mm,
    y_mm and z_mm, points along the axis from end to end, vertices where a column vertex numbers them. Columns piece
    and lot tell pieces apart. diameter-largest-2 and diameter-smallest-2 are diameters in bend 2. Exit status: 0 all
    in tolerance, 1 a reading is out, 2 bad input.
    """
    from bendgen.bending.comparison import compare_piece
    from bendgen.bending.series import series_of
    from bendgen.cli import corrections
    from bendgen.files.comparison_json import format_comparison_json
    from bendgen.files.foretold_json import read_foretold
    from bendgen.files.measured_csv import read_measured
    from bendgen.files.whole_files import refuse_existing, write_whole_files
    from bendgen.reports.comparison_report import comparison_text

    if (correct is None) != (machine is None) or (made is not None and correct is None):
        raise typer.BadParameter("a correction takes --correct and --machine, and --made only with them")
    if json and correct is not None:
        raise typer.BadParameter("--json prints a comparison; the corrected program has a JSON file of its own")
    refuse_existing([html] if html is not None else [])
    foretold = read_foretold(steps)
    pieces = read_measured(measured, foretold)
    comparisons = [compare_piece(foretold, piece) for piece in pieces]
    series = series_of(comparisons)
    shown = format_comparison_json if json else comparison_text
    typer.echo(shown(foretold, comparisons, series), nl=False)
    if html is not None:
        from bendgen.reports.page.report_page import comparison_page

        write_whole_files({html: comparison_page(foretold, comparisons, series)})
    if teach is not None or correct is not None:
        corrections.refuse_slips(comparisons, measured)
    if teach is not None:
        corrections.teach(foretold, pieces, teach)
    if correct is not None and machine is not None:
        typer.echo()
        corrections.correct(foretold, pieces, correct, machine, out, made)
    raise typer.Exit(DONE if all(comparison.in_tolerance for comparison in comparisons) else LIMIT_BROKEN)
