"""Signed dihedral angles against published ones.

Eight points and their torsion angles as the test suites of gemmi and QCElemental print them (seen); sign by
[IUPAC2014], clockwise looking along the middle segment is positive. The last part is derived.
"""

import math

import numpy as np
import pytest

from bendgen.geometry.polylines import plane_rotations, segments
from tests.handbook.test_offset_parts import planned

POINTS = {
    "p0": (24.969, 13.428, 30.692),
    "p1": (24.044, 12.661, 29.808),
    "p2": (22.785, 13.482, 29.543),
    "p3": (21.951, 13.670, 30.431),
    "p4": (23.672, 11.328, 30.466),
    "p5": (22.881, 10.326, 29.620),
    "p6": (23.691, 9.935, 28.389),
    "p7": (22.557, 9.096, 30.459),
}


@pytest.mark.parametrize(
    ("names", "printed"),
    [
        ("p0 p1 p2 p3", -71.21515114671394),
        ("p0 p1 p4 p5", -171.94319947953642),
        ("p1 p4 p5 p6", 60.82226735264638),
        ("p1 p4 p5 p7", -177.63641151521261),
    ],
)
@pytest.mark.parametrize("order", [1, -1])
def test_printed_torsion_angles_from_either_end(names: str, printed: float, order: int) -> None:
    path = np.array([POINTS[name] for name in names.split()][::order])
    found = math.degrees(float(plane_rotations(segments(path)[1])[0]))
    assert found == pytest.approx(printed, abs=1e-11)  # some digits of double precision less than printed


def test_part_in_three_directions() -> None:
    """Derived: (0,0,0) (300,0,0) (300,200,0) (300,200,250), R 50."""
    program = planned(50.0, (0, 0, 0), (300, 0, 0), (300, 200, 0), (300, 200, 250))
    assert program.finished.straights == pytest.approx((250.0, 100.0, 200.0), abs=1e-6)
    assert [bend.angle_deg for bend in program.finished.bends] == pytest.approx([90.0, 90.0], abs=1e-9)
    assert abs(program.finished.bends[1].rotation_deg) == pytest.approx(90.0, abs=1e-9)
    blank = program.blank
    assert blank.length - blank.front_trim - blank.rear_trim == pytest.approx(707.0796327, abs=5e-8)
