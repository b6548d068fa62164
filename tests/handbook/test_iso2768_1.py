"""General tolerances of [ISO2768], tables 1 and 3, cell by cell.

Seen; from memory: class c below 6 mm and its angles, every class below 6 mm, angles over a leg of 400 mm.
"""

import pytest

from bendgen.bending.iso2768 import angle_tolerance_deg, length_tolerance
from bendgen.records.part import Tolerance

LENGTHS = {  # mm, by range: over 6 to 30, to 120, to 400, to 1000, to 2000, to 4000
    "f": (0.1, 0.15, 0.2, 0.3, 0.5, None),
    "m": (0.2, 0.3, 0.5, 0.8, 1.2, 2.0),
    "c": (0.5, 0.8, 1.2, 2.0, 3.0, 4.0),
    "v": (1.0, 1.5, 2.5, 4.0, 6.0, 8.0),
}
RANGES = ((6.0, 30.0), (30.0, 120.0), (120.0, 400.0), (400.0, 1000.0), (1000.0, 2000.0), (2000.0, 4000.0))
BELOW_SIX = {"f": 0.05, "m": 0.1, "c": 0.3, "v": 0.5}  # from memory
ANGLES = {  # minutes, by shorter leg: to 10 mm, to 50, to 120, to 400, over 400
    "f": (60, 30, 20, 10, 5),
    "m": (60, 30, 20, 10, 5),
    "c": (90, 60, 30, 15, 10),  # from memory
    "v": (180, 120, 60, 30, 20),
}
LEGS = ((0.0, 10.0), (10.0, 50.0), (50.0, 120.0), (120.0, 400.0), (400.0, 5000.0))


def of_class(letter: str) -> Tolerance:
    assert letter in LENGTHS
    return Tolerance(iso2768=letter, source="part")  # type: ignore[arg-type]


@pytest.mark.parametrize("letter", LENGTHS)
def test_every_length_cell(letter: str) -> None:
    tolerance = of_class(letter)
    for (low, high), printed in zip(RANGES, LENGTHS[letter], strict=True):
        if printed is not None:
            assert length_tolerance(tolerance, low + 0.001) == printed
            assert length_tolerance(tolerance, high) == printed
    assert length_tolerance(tolerance, 6.0) == BELOW_SIX[letter]


def test_longer_than_the_table_keeps_its_last_tolerance() -> None:
    """Ours: the standard leaves it open, and class f has no cell over 2000 mm."""
    assert length_tolerance(of_class("m"), 4500.0) == 2.0
    assert length_tolerance(of_class("f"), 2500.0) == 0.5


@pytest.mark.parametrize("letter", ANGLES)
def test_every_angle_cell(letter: str) -> None:
    tolerance = of_class(letter)
    for (low, high), printed in zip(LEGS, ANGLES[letter], strict=True):
        assert angle_tolerance_deg(tolerance, low + 0.001) == pytest.approx(printed / 60.0)
        assert angle_tolerance_deg(tolerance, high) == pytest.approx(printed / 60.0)


def test_numbers_of_the_part_stand_for_every_size() -> None:
    own = Tolerance(length=0.4, angle_deg=0.2, source="part")
    assert [length_tolerance(own, size) for size in (3.0, 5000.0)] == [0.4, 0.4]
    assert [angle_tolerance_deg(own, leg) for leg in (3.0, 5000.0)] == [0.2, 0.2]
