"""The axis of a found tube as a part's file holds it."""

from bendgen.records.found_tube import FoundTube
from bendgen.records.part import Centreline, Vertex, WantedBend, WantedSteps
from bendgen.units import Units, units_from_mm

WRITTEN_DIGITS = 13  # 1e-6 mm on any part; hides what a unit's factor adds to the last digits


def wish_data(found: FoundTube, units: Units) -> dict[str, dict[str, object]]:
    """`[centreline]` or `[steps]` of a part whose file is in `units`."""
    if isinstance(found.wish, Centreline):
        return {"centreline": {"vertices": [_vertex(vertex, units) for vertex in found.wish.vertices]}}
    return {"steps": _steps(found.wish, units)}


def _vertex(vertex: Vertex, units: Units) -> list[float]:
    point = [vertex.x, vertex.y, vertex.z] + ([] if vertex.clr is None else [vertex.clr])
    return [_filed(length, units) for length in point]


def _steps(steps: WantedSteps, units: Units) -> dict[str, object]:
    return {"bend": [_bend(bend, units) for bend in steps.bends], "rear": _filed(steps.rear, units)}


def _bend(bend: WantedBend, units: Units) -> dict[str, float]:
    data = {"straight": _filed(bend.straight, units), "rotation": bend.rotation_deg, "angle": bend.angle_deg}
    return data if bend.clr is None else {**data, "clr": _filed(bend.clr, units)}


def _filed(length: float, units: Units) -> float:
    return float(f"{units_from_mm(length, units):.{WRITTEN_DIGITS}g}") + 0.0  # + 0.0: no -0
