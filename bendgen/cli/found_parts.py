"""Part files of tubes that were found in files from elsewhere."""

from pathlib import Path
from typing import TYPE_CHECKING

import typer

from bendgen.cli import part_options
from bendgen.cli.read_options import TUBE_PLACES
from bendgen.units import units_from_mm

if TYPE_CHECKING:
    from bendgen.files.new_part import Typed
    from bendgen.records.found_tube import Answers, FoundTube


def write_found(found: "FoundTube", typed: "dict[str, Typed | None]", path: Path) -> None:
    """Write a part of the tube, named as the file names it; what the file does not show of it, options must say."""
    from bendgen.errors import InputError, Mistake
    from bendgen.files.found_wish import wish_data
    from bendgen.files.new_file import write_new_file
    from bendgen.files.new_part import parse_typed_part, part_data
    from bendgen.files.tube_agreement import disagreements

    typed["part.name"] = typed["part.name"] or found.name or None
    shown = {"tube.od": found.od, "tube.wall": found.wall}
    lengths = {place: units_from_mm(mm, found.units) for place, mm in shown.items() if mm is not None}
    tube = {place: lengths.get(place) if typed[place] is None else typed[place] for place in TUBE_PLACES}
    missing = [part_options.OPTION_OF_PLACE[place] for place, value in tube.items() if value is None]
    if missing:
        raise typer.BadParameter(f"a part file names its tube: say {', '.join(missing)}")
    data = {**part_data(typed | tube | {"part.quantity": found.quantity}, found.units), **wish_data(found, found.units)}
    said = parse_typed_part(data, part_options.OPTION_OF_PLACE).tube
    wrong = disagreements(found, od=said.od, wall=said.wall, units=found.units)
    mistakes = [Mistake(file=f"--{item.key}", place="", expected=item.expected, found=item.found) for item in wrong]
    if mistakes:
        raise InputError(mistakes)
    write_new_file(path, data)


def write_each(file: Path, answers: "Answers", typed: "dict[str, Typed | None]", folder: Path) -> None:
    """Write a part file for every tube in a file of solids, named after it, and say which."""
    from bendgen.files.output_names import safe_name
    from bendgen.files.solids.solid_choice import read_all_tubes

    folder.mkdir(parents=True, exist_ok=True)
    for number, found in enumerate(read_all_tubes(file, answers), start=1):
        path = folder / safe_name(f"{number}_{found.name or 'tube'}", ".toml")
        named = dict(typed)
        write_found(found, named, path)
        typer.echo(f"{path}: written{part_options.placeholders_left(named)}")
        for passed_over in found.ignored:
            typer.echo(f"  passed over: {passed_over}")
