"""`bendgen route`."""

from typing import TYPE_CHECKING

import typer

from bendgen.cli import part_options
from bendgen.cli import route_options as option
from bendgen.cli.exits import LIMIT_BROKEN
from bendgen.cli.offset_options import Material, Od, Wall
from bendgen.cli.options import Json, Machine

if TYPE_CHECKING:
    from bendgen.records.machine import MachineProfile
    from bendgen.records.route import Route


def route(
    machine: Machine,
    od: Od,
    wall: Wall,
    material: Material,
    front: option.Front,
    front_towards: option.FrontTowards,
    rear: option.Rear,
    rear_towards: option.RearTowards,
    front_straight: option.FrontStraight = "0",
    rear_straight: option.RearStraight = "0",
    bends: option.Bends = None,
    keep_out: option.KeepOut = None,
    clearance: option.Clearance = None,
    temper: part_options.Temper = None,
    lot: part_options.Lot = None,
    perforated: part_options.Perforated = False,
    die: option.Die = None,
    json: Json = False,
    write: part_options.Write = None,
    name: part_options.Name = None,
    number: part_options.Number = None,
    revision: part_options.Revision = None,
) -> None:
    """Find how a tube gets from one port to another with at most three bends.

    Prints the shortest route of every number of bends on every die set that takes the tube, fewest bends first, and
    for those that were not found what the nearest is short of. Both directions point out of their port, into the
    tube. A length may be written as 110, 12.5 mm or 4-1/2 in; without a unit it is in the unit of the machine's
    folder. Exit status: 0 a route fits, 1 none does, 2 bad input.
    """
    from bendgen.files.new_part import part_data
    from bendgen.files.profile_folder import read_profile

    typed = {
        **part_options.typed_part(name=name, number=number, revision=revision, die=die),
        **part_options.typed_tube(od=od, wall=wall, material=material, temper=temper, lot=lot, perforated=perforated),
        "route.front.at": option.numbers_of(front),
        "route.front.towards": option.numbers_of(front_towards),
        "route.rear.at": option.numbers_of(rear),
        "route.rear.towards": option.numbers_of(rear_towards),
        "route.shortest_front": front_straight,
        "route.shortest_rear": rear_straight,
        "route.clearance": clearance,
    }
    profile = read_profile(machine)
    data = part_data(typed, profile.units)
    wish = data["route"]
    assert isinstance(wish, dict)  # as its places say
    wish.update({} if bends is None else {"bends": bends})
    wish.update({"keep_out": [option.numbers_of(box) for box in keep_out]} if keep_out else {})
    fitting = _show_routes(data, profile, json=json)
    if not fitting:
        raise typer.Exit(LIMIT_BROKEN)
    if write is not None:
        from bendgen.files.new_file import write_new_file

        write_new_file(write, data)
        part_options.tell_written(write, typed, json=json)


def _show_routes(data: dict[str, object], profile: "MachineProfile", *, json: bool) -> "tuple[Route, ...]":
    """Print the routes of the part in the data, and where none fits what would let one; give those that fit."""
    from bendgen.bending.planning import plan_part
    from bendgen.bending.route import fitting_routes, routes_of_part
    from bendgen.files.new_part import parse_typed_part
    from bendgen.files.routes_json import format_routes_json
    from bendgen.reports.route_text import routes_text

    part = parse_typed_part(data, option.OPTION_OF_PLACE)
    routes = routes_of_part(part, profile)
    fitting = fitting_routes(routes)
    others = routes[len(fitting) :]
    cures = () if fitting else plan_part(part, profile).findings[0].cures
    if json:
        text = format_routes_json(routes, part, profile, cures)
    else:
        text = routes_text(fitting, others, units=profile.units, cures=cures)
    typer.echo(text, nl=False)
    return fitting
