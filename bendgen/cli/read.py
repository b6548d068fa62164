"""`bendgen read`."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from bendgen.cli import part_options
from bendgen.cli import read_options as option
from bendgen.units import units_from_mm

if TYPE_CHECKING:
    from bendgen.files.new_part import Typed
    from bendgen.records.found_tube import FoundTube

File = Annotated[Path, typer.Argument(metavar="FILE", help="Points in a CSV: vertices, with a CLR or without.")]


def read(
    file: File,
    units: option.DrawnIn = None,
    decimal: option.Decimal = None,
    columns: option.Columns = None,
    from_rear: option.FromRear = False,
    write: part_options.Write = None,
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

    found = read_tube(file, Answers(units=units, decimal=decimal, columns=columns))
    if from_rear:
        found = from_other_end(found)
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
    bends = bends_of_found(found)
    if write is not None:
        _write(found, typed, write)
    typer.echo(found_text(str(file), found, bends, turned=from_rear), nl=False)
    if write is not None:
        typer.echo(f"\n{write}: written{part_options.placeholders_left(typed)}")


def _write(found: "FoundTube", typed: "dict[str, Typed | None]", path: Path) -> None:
    """Write a part of the tube; what the file does not show of it, options must say."""
    from bendgen.files.found_wish import wish_data
    from bendgen.files.new_file import write_new_file
    from bendgen.files.new_part import parse_typed_part, part_data

    shown = {"tube.od": found.od, "tube.wall": found.wall}
    lengths = {place: units_from_mm(mm, found.units) for place, mm in shown.items() if mm is not None}
    tube = {place: lengths.get(place) if typed[place] is None else typed[place] for place in option.TUBE_PLACES}
    missing = [part_options.OPTION_OF_PLACE[place] for place, value in tube.items() if value is None]
    if missing:
        raise typer.BadParameter(f"a part file names its tube: say {', '.join(missing)}")
    data = {**part_data(typed | tube, found.units), **wish_data(found, found.units)}
    parse_typed_part(data, part_options.OPTION_OF_PLACE)
    write_new_file(path, data)
