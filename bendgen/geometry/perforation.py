"""Perforated sheet as plain geometry; nothing here claims to know how such tube bends."""

import math
from typing import Literal

Pattern = Literal["60", "square"]


def open_area_share(hole: float, pitch: float, pattern: Pattern) -> float:
    """Share of the surface that is open [-]: round holes on a triangular or a square grid of that pitch."""
    cell = pitch * pitch * (math.sqrt(3.0) / 2.0 if pattern == "60" else 1.0)
    return math.pi / 4.0 * hole * hole / cell


def ligament_efficiency(hole: float, pitch: float) -> float:
    """Share of a row of holes that is metal [-]."""
    return (pitch - hole) / pitch


def outer_pitch(pitch: float, outer_strain: float) -> float:
    """Pitch along the outside of a bend, if holes stretch apart like the fibre they lie in."""
    return pitch * (1.0 + outer_strain)
