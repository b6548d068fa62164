"""How a reader tells of the CLR of a found tube; what else it tells is seen in `tests/cli/test_read_command.py`."""

import math
from dataclasses import replace

import pytest

from bendgen.records.found_bends import FoundBends
from bendgen.records.found_tube import FoundTube
from bendgen.records.part import WantedSteps
from bendgen.reports.found_text import found_text

FOUND = FoundTube(kind="points along the axis", units="mm", wish=WantedSteps(bends=(), rear=100.0))


def text_of(clr: tuple[float | None, ...], within: tuple[float, ...] = ()) -> str:
    count = len(clr)
    straights = (100.0,) * (count + 1)
    bends = FoundBends(
        angles_deg=(45.0,) * count,
        rotations_deg=(0.0,) * count,
        clr=clr,
        clr_within=within,
        legs=None if None not in clr else straights,
        straights=straights if None not in clr else None,
    )
    return found_text("a.csv", FOUND, bends, turned=False)


@pytest.mark.parametrize(
    ("clr", "within", "words"),
    [
        ((), (), "no bend needs one"),
        ((100.0, 75.0), (), "in the file for every bend"),
        ((None, None), (), "not in the file: the die set decides"),
        ((100.0, None, None), (), "not in the file for bend 2, 3: the die set decides"),
        ((100.0,), (0.05,), "fitted to the points; ± holds 95 of 100 such fits"),
        (
            (100.0, None, None),
            (0.05, 84.0, math.inf),
            "fitted to the points; ± holds 95 of 100 such fits; "
            "too small to show through the scatter at bend 2 (± 84 mm), 3: the die set decides",
        ),
    ],
)
def test_where_the_clr_is_from(clr: tuple[float | None, ...], within: tuple[float, ...], words: str) -> None:
    assert f"\nCLR        {words}\n" in text_of(clr, within)


def test_a_fitted_clr_stands_beside_what_it_leaves_open() -> None:
    lines = text_of((99.98, None), (0.06, 84.0)).splitlines()
    first, second, rear = lines[-3:]
    assert (first.split(), second.split()) == (["1", "100.00", "0.000", "45.000", "99.98", "0.06"],
                                               ["2", "100.00", "0.000", "45.000"])  # fmt: skip
    assert rear.split() == ["rear", "100.00"]
    assert lines[-5].split()[-3:] == ["CLR", "[mm]", "±"]


def test_bends_that_overlap_are_told_the_clr_that_would_fit() -> None:
    """Legs of 20 between right angles: CLR 12 lacks 4, and 10 just fits."""
    bends = FoundBends(
        angles_deg=(90.0, 90.0),
        rotations_deg=(0.0, 180.0),
        clr=(12.0, 12.0),
        legs=(20.0, 20.0, 20.0),
        straights=(8.0, -4.0, 8.0),
        largest_clr=10.0,
    )
    text = found_text("a.csv", FOUND, bends, turned=False)
    assert "\noverlap    bends overlap by 4 mm at the worst: the CLR is too large; all could have 10 mm\n" in text
    fitting = replace(bends, clr=(10.0, 10.0), straights=(10.0, 0.0, 10.0))
    assert "overlap" not in found_text("a.csv", FOUND, fitting, turned=False)
