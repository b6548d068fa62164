"""`bendgen read`."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from bendgen.cli import part_options
from bendgen.cli import read_options as option
from bendgen.cli.options import Json
from bendgen.cli.read_needless import refuse_beside_each, refuse_for_no_part
from bendgen.cli.read_steps import StepsAnswers, clr_on_machine, found_in_file

if TYPE_CHECKING:
    from bendgen.files.new_part import Typed
    from bendgen.records.found_tube import FoundTube

File = Annotated[
    Path,
    typer.Argument(
        metavar="FILE",
        help="CSV of vertices, points along the axis or steps; DXF drawing; solids by ISO 10303-21 (.step).",
    ),
]


def read(
    file: File,
    units: option.DrawnIn = None,
    overrule_units: option.OverruleUnits = False,
    decimal: option.Decimal = None,
    columns: option.Columns = None,
    layer: option.Layer = None,
    solid: option.Solid = None,
    clr: option.MitreClr = None,
    points: option.Points = None,
    within: option.Within = None,
    leave_clr: option.LeaveClr = False,
    feed: option.Feed = None,
    rotation: option.Rotation = None,
    rotation_positive: option.Positive = None,
    angles: option.Angles = None,
    rear: option.Rear = None,
    blank: option.Blank = None,
    machine: option.Machine = None,
    own_form: option.OwnForm = False,
    from_rear: option.FromRear = False,
    json: Json = False,
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
    from bendgen.bending.found_bends import from_other_end
    from bendgen.cli.found_parts import write_each
    from bendgen.cli.step_list_options import length_of_option
    from bendgen.records.found_tube import Answers

    answers = Answers(
        units=units,
        overrule_units=overrule_units,
        decimal=decimal,
        columns=columns,
        layer=layer,
        solid=solid,
        clr=option.parse_clr(clr),
        points=points,
        within=length_of_option("--within", within, "mm"),
        leave_clr=leave_clr,
        feed=feed,
        rotation=rotation,
        rotation_positive=rotation_positive,
        angles=angles,
    )
    typed = part_options.typed_part(name=name, number=number, revision=revision, die=die) | part_options.typed_tube(
        od=od, wall=wall, material=material, temper=temper, lot=lot, perforated=perforated
    )
    for_steps = StepsAnswers(rear=rear, blank=blank, own_form=own_form)
    if each is None:
        source = found_in_file(file, answers, typed, for_steps, machine)
        found, remarks = clr_on_machine(from_other_end(source) if from_rear else source, typed, machine)
        _write_or_refuse(found, typed, write)
        typer.echo(_text(file, found, remarks, turned=from_rear, json=json), nl=False)
        if write is not None:
            part_options.tell_written(write, typed, json=json)
        return
    given = {"--write": write, "--from-rear": from_rear, "--solid": solid, "--machine": machine, "--json": json}
    refuse_beside_each(given | for_steps.given())
    write_each(file, answers, typed, each)


def _write_or_refuse(found: "FoundTube", typed: "dict[str, Typed | None]", write: Path | None) -> None:
    """Write a part of the tube where asked to; refuse what would only stand in one where not."""
    from bendgen.cli.found_parts import write_found

    if write is None:
        refuse_for_no_part(typed)
    else:
        write_found(found, typed, write)


def _text(file: Path, found: "FoundTube", remarks: str, *, turned: bool, json: bool) -> str:
    """What was understood, for a person or another program."""
    from bendgen.bending.found_bends import bends_of_found
    from bendgen.files.found_json import format_found_json
    from bendgen.reports.found_text import found_text

    bends = bends_of_found(found)
    if json:
        return format_found_json(str(file), found, bends, turned=turned, remarks=remarks.splitlines())
    return found_text(str(file), found, bends, turned=turned) + (f"\n{remarks}\n" if remarks else "")
