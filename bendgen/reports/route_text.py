"""Routes between two ports as text: what fits, best first, or how far off the nearest is."""

from collections.abc import Sequence

from bendgen.records.findings import Cure
from bendgen.records.route import Route
from bendgen.reports.findings_text import cure_line
from bendgen.reports.paragraphs import paragraph
from bendgen.reports.text_table import text_table
from bendgen.units import FINE_DECIMALS, Units, counted, format_length, format_number, units_from_mm

ANGLE_DECIMALS = 2
WIDTH = 100


def routes_text(fitting: Sequence[Route], others: Sequence[Route], *, units: Units, cures: Sequence[Cure] = ()) -> str:
    """Routes that fit, best first, the vertices of the best, what others are short of, and what would let one fit."""
    sections = [_table(fitting, units), _vertices(fitting[0], units)] if fitting else ["No route was found that fits."]
    if others:
        lines = [_short_of(route, units) for route in others]
        sections.append("Looked for and not found, the nearest to fitting first\n" + "\n".join(lines))
    if cures:
        lines = [paragraph(cure_line(cure), width=WIDTH, first="  - ") for cure in cures]
        sections.append("Each of these by itself lets one fit\n" + "\n".join(lines))
    return "\n\n".join(sections) + "\n"


def _table(routes: Sequence[Route], units: Units) -> str:
    rows = [
        [
            str(rank),
            route.die,
            str(len(route.angles_deg)),
            _length(route.length, units),
            _list([format_number(angle, ANGLE_DECIMALS) for angle in route.angles_deg]),
            _list([_length(straight, units) for straight in route.straights]),
        ]
        for rank, route in enumerate(routes, start=1)
    ]
    headings = ["rank", "die set", "bends", f"length [{units}]", "finished angles [°]", f"straights [{units}]"]
    return "Routes that fit, best first: fewest bends, then shortest\n" + text_table(
        headings, rows, align="rlrrll", gap=3
    )


def _vertices(route: Route, units: Units) -> str:
    rows = [
        [str(number), *(_length(coordinate, units) for coordinate in vertex)]
        for number, vertex in enumerate(route.vertices, start=1)
    ]
    return f"Vertices of the first [{units}]\n" + text_table(["vertex", "x", "y", "z"], rows, align="rrrr", gap=3)


def _short_of(route: Route, units: Units) -> str:
    bends = counted(len(route.angles_deg), "bend")
    return f"  - {bends} on {route.die}, short by {format_length(route.short_by, units)}: {'; '.join(route.missing)}"


def _list(texts: Sequence[str]) -> str:
    return " · ".join(texts)


def _length(length: float, units: Units) -> str:
    return format_number(units_from_mm(length, units), FINE_DECIMALS[units])
