"""`bendgen compare`."""

from pathlib import Path
from typing import Annotated

import typer

from bendgen.cli.exits import DONE, LIMIT_BROKEN
from bendgen.cli.options import Json

Steps = Annotated[Path, typer.Argument(metavar="STEPS", help="The .steps.json that the pieces were bent from.")]
Measured = Annotated[Path, typer.Argument(metavar="MEASURED", help="What was measured, CSV; one piece or many.")]


def compare(steps: Steps, measured: Measured, json: Json = False) -> None:
    """Hold measured pieces against the program they were bent from, and name what explains a miss.

    MEASURED has the columns check, value and unit, one reading a line, each check named as on the sheet; or x_mm,
    y_mm and z_mm, points along the axis from end to end, vertices where a column vertex numbers them. Columns piece
    and lot tell pieces apart. diameter-largest-2 and diameter-smallest-2 are diameters in bend 2. Exit status: 0 all
    in tolerance, 1 a reading is out, 2 bad input.
    """
    from bendgen.bending.comparison import compare_piece
    from bendgen.bending.series import series_of
    from bendgen.files.comparison_json import format_comparison_json
    from bendgen.files.foretold_json import read_foretold
    from bendgen.files.measured_csv import read_measured
    from bendgen.reports.comparison_text import comparison_text
    from bendgen.reports.series_text import series_text

    foretold = read_foretold(steps)
    comparisons = [compare_piece(foretold, piece) for piece in read_measured(measured, foretold)]
    series = series_of(comparisons)
    if json:
        typer.echo(format_comparison_json(foretold, comparisons, series), nl=False)
    else:
        text = comparison_text(foretold, comparisons)
        typer.echo("\n".join(filter(None, (text, series_text(series, foretold.units)))), nl=False)
    raise typer.Exit(DONE if all(comparison.in_tolerance for comparison in comparisons) else LIMIT_BROKEN)
