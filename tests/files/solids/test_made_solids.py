"""One invented tube in ten files that a CAD kernel wrote: OD 38.1, wall 1.5, CLR 57, straights 120 / 85 / 150 / 100 mm,
bends 90, 45, 60.5°, rotations 90 and −37°."""

import re
from pathlib import Path

import pytest

from bendgen.records.solid_tube import SolidTube
from tests.files.solids.reading import numbers_of, solids_in, tube_of

MADE = Path(__file__).parent / "made"
WITHIN = 1e-6  # mm and degrees
NUMBER = re.compile(r"-?[0-9]+\.[0-9]*(E[-+]?[0-9]+)?")


def read(name: str) -> SolidTube:
    (found,) = solids_in(MADE / f"{name}.step")
    assert isinstance(found, SolidTube), found
    return found


@pytest.mark.parametrize(
    "name",
    ["base_ap214", "chamfer", "halves", "inch", "nurbs_exact", "perforated", "reversed", "revolution", "split90"],
)
def test_the_tube_is_read_exactly(name: str) -> None:
    tube = read(name)
    straights, angles, rotations, clr = numbers_of(tube)
    assert straights == pytest.approx([120.0, 85.0, 150.0, 100.0], abs=WITHIN)
    assert angles == pytest.approx([90.0, 45.0, 60.5], abs=WITHIN)
    assert rotations == pytest.approx([90.0, -37.0], abs=WITHIN)
    assert clr == pytest.approx([57.0] * 3, abs=WITHIN)
    assert (tube.od, tube.wall) == pytest.approx((38.1, 1.5), abs=WITHIN)
    assert tube.ends[0] == pytest.approx((12.0, -7.0, 30.0), abs=WITHIN)
    assert (tube.name, tube.instances) == ("Dryer inlet pipe (invented)", 1)


@pytest.mark.parametrize("only_points", [True, False])
@pytest.mark.parametrize("name", ["base_ap214", "chamfer", "halves", "nurbs_exact", "perforated", "split90"])
def test_every_number_rounded_to_three_decimals(name: str, only_points: bool) -> None:  # noqa: FBT001 - of the case
    """Coordinates of points, or directions, knots and weights as well."""
    straights, angles, rotations, clr = numbers_of(tube_of(rounded(name, only_points=only_points)))
    assert straights == pytest.approx([120.0, 85.0, 150.0, 100.0], abs=0.002 if only_points else 0.01)
    assert angles == pytest.approx([90.0, 45.0, 60.5], abs=0.001)
    assert rotations == pytest.approx([90.0, -37.0], abs=0.001 if only_points else 0.01)
    assert clr == pytest.approx([57.0] * 3, abs=0.01)


def rounded(name: str, *, only_points: bool) -> str:
    """Text of a file with its numbers rounded, all but its uncertainty."""
    instances = (MADE / f"{name}.step").read_text(encoding="ascii").split(";")
    return ";".join(_rounded(text) if "POINT" in text or not only_points else text for text in instances)


def _rounded(text: str) -> str:
    if "LENGTH_MEASURE" in text:
        return text
    return NUMBER.sub(lambda found: f"{float(found[0]):.3f}".rstrip("0"), text)


def test_a_saddle_moves_an_end_and_no_bend() -> None:
    tube = read("coped")
    straights, angles, rotations, _ = numbers_of(tube)
    assert straights[:3] == pytest.approx([120.0, 85.0, 150.0], abs=WITHIN)
    assert angles == pytest.approx([90.0, 45.0, 60.5], abs=WITHIN)
    assert rotations == pytest.approx([90.0, -37.0], abs=WITHIN)
    farthest = "the straight goes to the farthest, bends are not affected"
    cut = f"not square, 8.79 mm from its nearest to its farthest point: {farthest}"
    assert tube.understood == (("rear cut", cut),)
    assert tube.ignored == ("round holes and cuts, Ø 50 mm",)


def test_what_is_said_of_chamfers_and_holes() -> None:
    over = "chamfered or rounded over 0.80 mm, which the straight includes"
    assert read("chamfer").understood == (("front edge", over), ("rear edge", over))
    assert read("perforated").ignored == ("round holes and cuts, Ø 8, 10, 13, 21.06 mm",)
    plain = read("base_ap214")
    assert (plain.understood, plain.ignored) == ((), ())
