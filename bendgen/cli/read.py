"""`bendgen read`."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from bendgen.cli import part_options
from bendgen.cli import read_options as option
from bendgen.cli.found_parts import write_each, write_found

if TYPE_CHECKING:
    from bendgen.files.new_part import Typed

File = Annotated[
    Path, typer.Argument(metavar="FILE", help="Vertices in a CSV, or solids by ISO 10303-21 (.step, .stp).")
]


def read(
    file: File,
    units: option.DrawnIn = None,
    decimal: option.Decimal = None,
    columns: option.Columns = None,
    solid: option.Solid = None,
    clr: option.MitreClr = None,
    from_rear: option.FromRear = False,
    write: part_options.Write = None,
    each: option.Each = None,
    od: option.Od = None,
    wall: option.Wall = None,
    material: option.Material = None,
    temper: part_options.Temper = None,
    lot: part_options.Lot = None,
    perforated: part_options.Perforated = False,
    die: part_options.Die = None,
    name: part_options.Name = None,
    number: part_options.Number = None,
    revision: part_options.Revision = None,
) -> None:
    """Read a tube from a file that somebody else made, say what was understood, and make a part of it.

    What the file leaves open is asked for by naming the option that answers it; nothing is guessed. With --write a
    part file is written, which `bendgen program` takes. A length may be written as 110, 12.5 mm or 4-1/2 in; without a
    unit it is in the unit in which the part is written.
    """
    from bendgen.bending.found_bends import bends_of_found, from_other_end
    from bendgen.files.tube_source import read_tube
    from bendgen.records.found_tube import Answers
    from bendgen.reports.found_text import found_text

    answers = Answers(units=units, decimal=decimal, columns=columns, solid=solid, clr=option.parse_clr(clr))
    typed: dict[str, Typed | None] = {
        "part.name": name,
        "part.number": number,
        "part.revision": revision,
        "part.die": die,
        "tube.od": od,
        "tube.wall": wall,
        "tube.material": material,
        "tube.temper": temper,
        "tube.lot": lot,
        "tube.perforated": perforated or None,
    }
    if each is not None:
        write_each(file, answers, typed, each)
        return
    found = read_tube(file, answers)
    if from_rear:
        found = from_other_end(found)
    bends = bends_of_found(found)
    if write is not None:
        typed["part.name"] = typed["part.name"] or found.name or None
        write_found(found, typed, write)
    typer.echo(found_text(str(file), found, bends, turned=from_rear), nl=False)
    if write is not None:
        typer.echo(f"\n{write}: written{part_options.placeholders_left(typed)}")
