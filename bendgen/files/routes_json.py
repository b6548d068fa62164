"""The JSON that routes between two ports print."""

import math
from collections.abc import Iterable

from bendgen.files.findings_content import cure_items, machine_item
from bendgen.files.json_text import format_json
from bendgen.files.route_items import ROUTES_FORMAT, ROUTES_VERSION, RouteItem, RoutesFile
from bendgen.files.steps_content import tube_item
from bendgen.records.findings import Cure
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part
from bendgen.records.route import Route


def format_routes_json(routes: Iterable[Route], part: Part, profile: MachineProfile, cures: Iterable[Cure] = ()) -> str:
    """Text of the routes of a part on a machine, in the order given, format "bendgen-routes"."""
    content: RoutesFile = {
        "format": ROUTES_FORMAT,
        "version": ROUTES_VERSION,
        "tube": tube_item(part.tube),
        "machine": machine_item(profile),
        "routes": [_route_item(route) for route in routes],
        "cures": cure_items(cures),
    }
    return format_json(content)


def _route_item(route: Route) -> RouteItem:
    return {
        "die": route.die,
        "vertices": [list(vertex) for vertex in route.vertices],
        "angles": list(route.angles_deg),
        "straights": list(route.straights),
        "length": route.length if math.isfinite(route.length) else None,
        "short_by": route.short_by,
        "missing": list(route.missing),
    }
