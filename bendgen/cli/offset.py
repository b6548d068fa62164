"""`bendgen offset`."""

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from bendgen.cli import offset_options as option
from bendgen.cli import part_options
from bendgen.cli.exits import LIMIT_BROKEN
from bendgen.cli.options import Json, Machine

if TYPE_CHECKING:
    from bendgen.files.new_part import Typed
    from bendgen.records.bend_program import Plan


def offset(
    machine: Machine,
    od: option.Od,
    wall: option.Wall,
    material: option.Material,
    length: option.Length,
    end: option.End,
    temper: part_options.Temper = None,
    lot: part_options.Lot = None,
    perforated: part_options.Perforated = False,
    die: part_options.Die = None,
    rise: option.Rise = None,
    front_out: option.FrontOut = None,
    front_clock: option.FrontClock = None,
    rear_out: option.RearOut = None,
    rear_clock: option.RearClock = None,
    angle: option.Angle = None,
    between: option.Between = None,
    gentle: option.Gentle = False,
    json: Json = False,
    write: part_options.Write = None,
    name: part_options.Name = None,
    number: part_options.Number = None,
    revision: part_options.Revision = None,
) -> None:
    """Find two bends that bring a tube from one axis to another, in a given length.

    Prints the angle, the straight between the bends and what is left at the ends, the whole range that fits, and how
    the tube is turned into its place; where nothing fits, every single change that would. Without --angle, --between
    or --gentle it takes the shortest straight between that the clamp allows, which leaves the most at the ends.
    A length may be written as 110, 12.5 mm or 4-1/2 in; without a unit it is in the unit of the machine's folder.
    Exit status: 0 it fits, 1 it does not, 2 bad input.
    """
    typed: dict[str, Typed | None] = {
        **part_options.typed_part(name=name, number=number, revision=revision, die=die),
        **part_options.typed_tube(od=od, wall=wall, material=material, temper=temper, lot=lot, perforated=perforated),
        "offset.rise": rise,
        "offset.front.out": front_out,
        "offset.front.clock": front_clock,
        "offset.rear.out": rear_out,
        "offset.rear.clock": rear_clock,
        "offset.length": length,
        "offset.shortest_end": end,
        "offset.angle": angle,
        "offset.between": between,
        "offset.prefer": "gentle" if gentle else None,
    }
    _explore(typed, machine, write, json=json)


def _explore(typed: "Mapping[str, Typed | None]", machine: Path, write: Path | None, *, json: bool) -> None:
    """Plan the part that the options describe; write it where asked to, show it, and say what is missing in it."""
    from bendgen.bending.planning import plan_part
    from bendgen.files.new_file import write_new_file
    from bendgen.files.new_part import parse_typed_part, part_data
    from bendgen.files.profile_folder import read_profile

    profile = read_profile(machine)
    data = part_data(typed, profile.units)
    plan = plan_part(parse_typed_part(data, option.OPTION_OF_PLACE), profile)
    if plan.program is None:
        _show_refusal(plan, json=json)
        raise typer.Exit(LIMIT_BROKEN)
    if write is not None:
        write_new_file(write, data)
    _show(plan, json=json)
    if write is not None:
        part_options.tell_written(write, typed, json=json)


def _show_refusal(plan: "Plan", *, json: bool) -> None:
    from bendgen.files.findings_json import format_findings_json
    from bendgen.reports.findings_text import findings_text

    typer.echo(format_findings_json(plan) if json else f"{findings_text(plan.findings)}\n", nl=False)


def _show(plan: "Plan", *, json: bool) -> None:
    from bendgen.files.offset_json import format_offset_json
    from bendgen.reports.offset_text import offset_text

    program, wish = plan.program, plan.part.offset
    assert wish is not None  # it was asked for
    assert program is not None
    assert program.offset is not None
    if json:
        text = format_offset_json(program, program.offset)
    else:
        text = offset_text(program, wish, program.offset, units=plan.profile.units)
    typer.echo(text, nl=False)
