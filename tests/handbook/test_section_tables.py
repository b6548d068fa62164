"""Second moments of area against printed section tables; half a unit of the last printed digit.

EN 10210-2 round hollow sections, UK tables (seen). US Army pipe-pile table EI 02C097 table B-1, reprinted in
UFC 3-220-01A (seen, public domain). AISC Pipe1-1/2STD (seen).
"""

import pytest

from bendgen.geometry.power_law_tube import second_moment


def half_a_unit(printed: str) -> float:
    """Half of the last digit that is not a filling zero: 1050 with three digits is good to 5."""
    if "." in printed:
        return 0.5 * 10.0 ** -len(printed.partition(".")[2])
    return 0.5 * 10.0 ** max(0, len(printed) - 3)


def moment_of(od: float, wall: float) -> float:
    return second_moment(od / 2.0, od / 2.0 - wall)


@pytest.mark.parametrize(
    ("od", "wall", "second", "elastic"),
    [
        (42.4, 3.2, "7.62", "3.59"),
        (48.3, 3.2, "11.6", "4.80"),
        (48.3, 5.0, "16.2", "6.69"),
        (60.3, 3.6, "25.9", "8.58"),
        (76.1, 3.6, "54.0", "14.2"),
        (76.1, 5.0, "70.9", "18.6"),
        (88.9, 4.0, "96.3", "21.7"),
        (114.3, 5.0, "257", "45.0"),
        (139.7, 5.0, "481", "68.8"),
        (168.3, 6.3, "1050", "125"),
    ],
)
def test_en_10210_2(od: float, wall: float, second: str, elastic: str) -> None:
    """mm; cm⁴; cm³. The elastic modulus is the second moment over half the OD."""
    assert moment_of(od, wall) / 1e4 == pytest.approx(float(second), abs=half_a_unit(second))
    assert moment_of(od, wall) / (od / 2.0) / 1e3 == pytest.approx(float(elastic), abs=half_a_unit(elastic))


@pytest.mark.parametrize(
    ("od", "wall", "second", "elastic"),
    [
        (12.0, 0.250, "159", "26.6"),
        (12.75, 0.188, "146", "23.0"),
        (12.75, 0.375, "279", "43.8"),
        (1.900, 0.135, "0.293", "0.309"),
    ],
)
def test_inch_tables(od: float, wall: float, second: str, elastic: str) -> None:
    """in; in⁴; in³. The last row is AISC's, with its design wall."""
    assert moment_of(od, wall) == pytest.approx(float(second), abs=half_a_unit(second))
    assert moment_of(od, wall) / (od / 2.0) == pytest.approx(float(elastic), abs=half_a_unit(elastic))
