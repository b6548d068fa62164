"""What a list of steps would make, as text."""

from bendgen.records.bent_tube import BentTube, Point, Shape
from bendgen.reports.text_table import text_table
from bendgen.units import FINE_DECIMALS, RADIANS_PER_DEGREE, Units, format_length, format_number, units_from_mm

ANGLE_DECIMALS = 3  # a replay is compared with numbers, not with a protractor


def replay_text(tube: BentTube, shape: Shape, *, box: Point, blank: float | None = None, units: Units = "mm") -> str:
    """Vertices, straights, bends and overall lengths.

    Parameters
    ----------
    tube, shape : the tube as it comes off the machine, front end first
    box : overall size over the outside of the tube, along x, y and z [mm]
    blank : length sawn [mm]; None where nobody said it
    units : unit of the lengths in the text
    """
    sections = [_places(shape, units), _straights_and_bends(tube, units), _overall(tube, box, blank, units)]
    return "\n\n".join(sections) + "\n"


def developed_length(tube: BentTube) -> float:
    """Straights and arcs along the axis [mm]."""
    return sum(tube.straights) + sum(bend.clr * bend.angle_deg * RADIANS_PER_DEGREE for bend in tube.bends)


def _places(shape: Shape, units: Units) -> str:
    if shape.vertices is None:
        title, name, places = "Ends and tangent points (a bend of 180° or more has no vertex)", "point", shape.points
    else:
        title, name, places = "Vertices", "vertex", shape.vertices
    rows = [[str(number), *(_length(value, units) for value in place)] for number, place in enumerate(places, start=1)]
    return f"{title} [{units}]\n" + text_table([name, "x", "y", "z"], rows, align="rrrr", gap=3)


def _straights_and_bends(tube: BentTube, units: Units) -> str:
    rows = [
        [
            str(number),
            _length(straight, units),
            _angle(bend.rotation_deg),
            _angle(bend.angle_deg),
            _length(bend.clr, units),
        ]
        for number, (straight, bend) in enumerate(zip(tube.straights, tube.bends, strict=False), start=1)
    ]
    rows.append(["rear", _length(tube.straights[-1], units), "", "", ""])
    headings = ["bend", f"straight before [{units}]", "rotation [°]", "finished angle [°]", f"formed CLR [{units}]"]
    return "Straights, rotations (clockwise seen from the carriage) and finished angles\n" + text_table(
        headings, rows, align="rrrrr", gap=3
    )


def _overall(tube: BentTube, box: Point, blank: float | None, units: Units) -> str:
    developed = developed_length(tube)
    rows = [
        ["developed length", format_length(developed, units)],
        ["blank", "not known" if blank is None else format_length(blank, units)],
        *(
            []
            if blank is None
            else [["elongation: developed length less blank", format_length(developed - blank, units)]]
        ),
        ["overall box over the OD, x · y · z", " · ".join(format_length(size, units) for size in box)],
    ]
    return "Overall\n" + text_table(["", ""], rows, align="ll", gap=3)


def _length(length: float, units: Units) -> str:
    return format_number(units_from_mm(length, units), FINE_DECIMALS[units])


def _angle(angle_deg: float) -> str:
    return format_number(angle_deg, ANGLE_DECIMALS)
