"""Lists of points that people struggled with: straights, bends, rotations of each, worked out twice by hand elsewhere.

The numbers were posted by people who bend tube, or follow from theirs (common practice, no source).
"""

import math

import pytest

from bendgen.bending.found_bends import bends_of_found, from_other_end
from bendgen.files.foreign_csv import parse_foreign_csv
from bendgen.files.points_csv import parse_points
from bendgen.records.found_bends import FoundBends
from bendgen.records.found_tube import Answers, FoundTube
from bendgen.records.part import Centreline, WantedBend, WantedSteps


def found(points: str, clr: float, units: str = "mm", *, mirrored: bool = False) -> FoundTube:
    """Tube of points such as "(0,0,0)(820,0,0)", with one CLR at every inner vertex."""
    rows = [row.split(",") for row in points.strip("()").split(")(")]
    for row in rows:
        row[2:] = [f"{-float(row[2])}" if mirrored else row[2]] if len(row) == 3 else ["0"]
    lines = [[*row, "" if i in (0, len(rows) - 1) else str(clr)] for i, row in enumerate(rows)]
    text = f"x_{units},y_{units},z_{units},clr\n" + "".join(",".join(line) + "\n" for line in lines)
    return parse_points(parse_foreign_csv(text, "a.csv", Answers()), "a.csv", Answers())


def developed(bends: FoundBends) -> float:
    assert bends.straights is not None
    arcs = (clr * math.radians(angle) for clr, angle in zip(bends.clr, bends.angles_deg, strict=True) if clr)
    return sum(bends.straights) + sum(arcs)


def test_a_flat_s_in_a_tilted_plane() -> None:
    s = "(38.5202,-14.0264,0)(45.3142,-14.0264,0)(45.3142,-17.5214,0.9654)(48.6822,-17.5214,0.9654)"
    bends = bends_of_found(found(s, 1.0, "in"))
    assert bends.straights is not None
    assert [straight / 25.4 for straight in bends.straights] == pytest.approx([5.794, 1.62588, 2.368], abs=5e-6)
    assert bends.angles_deg == pytest.approx([90.0, 90.0])
    assert bends.rotations_deg[1] == 180.0
    assert developed(bends) / 25.4 == pytest.approx(12.92947, abs=5e-6)


FOUR_BENDS = "(0,0,0)(820,0,0)(560,760,690)(1930,760,-810)(1670,0,-120)(2490,0,-120)"


def test_rotation_sign_hand_and_end() -> None:
    bends = bends_of_found(found(FOUR_BENDS, 250.0))
    assert bends.straights == pytest.approx([498.78326, 197.9501, 951.9819, 197.9501, 498.78326], abs=5e-5)
    assert bends.angles_deg == pytest.approx([104.21342, 130.2948, 130.2948, 104.21342], abs=5e-5)
    assert bends.rotations_deg[1:] == pytest.approx([-134.21353, -39.5641, -134.21353], abs=5e-5)
    assert developed(bends) == pytest.approx(4391.9189, abs=5e-4)
    other_end = bends_of_found(from_other_end(found(FOUR_BENDS, 250.0)))
    assert other_end.rotations_deg[1:] == pytest.approx(bends.rotations_deg[:0:-1])
    mirrored = bends_of_found(found(FOUR_BENDS, 250.0, mirrored=True))
    assert mirrored.rotations_deg[1:] == pytest.approx([-rotation for rotation in bends.rotations_deg[1:]])


def test_a_hoop_of_170_degrees_from_steps() -> None:
    straights, angles = (300.0, 500.0, 500.0), (70.0, 170.0, 70.0)
    wish = WantedSteps(
        bends=tuple(
            WantedBend(straight=straight, rotation_deg=rotation, angle_deg=angle, clr=40.0)
            for straight, rotation, angle in zip(straights, (0.0, 90.0, -90.0), angles, strict=True)
        ),
        rear=300.0,
    )
    bends = bends_of_found(FoundTube(kind="steps", units="mm", wish=wish))
    assert (bends.legs, bends.straights) == (None, (300.0, 500.0, 500.0, 300.0))
    assert developed(bends) == pytest.approx(1816.4208, abs=5e-4)
    assert bends_of_found(from_other_end(FoundTube(kind="steps", units="mm", wish=wish))).rotations_deg == (
        0.0,
        -90.0,
        90.0,
    )


def test_a_pipe_run_in_whole_millimetres() -> None:
    run = "(314,-512,-145)(314,-262,-145)(14,-262,-145)(-146,-102,-145)(-44,0,0)(285,0,0)"
    bends = bends_of_found(found(run, 76.0))
    assert bends.straights == pytest.approx([174.0, 192.51977, 118.79394, 84.57658, 285.04541], abs=5e-5)
    assert bends.angles_deg == pytest.approx([90.0, 45.0, 90.0, 60.08587], abs=5e-5)
    assert bends.rotations_deg[1:] == pytest.approx([180.0, -45.14861, 35.33429], abs=5e-5)
    assert developed(bends) == pytest.approx(1233.08792, abs=5e-5)


def test_a_vertex_on_a_straight_is_a_mark() -> None:
    bends = bends_of_found(found("(0,0,0)(0,0,100)(0,0,200)(100,0,200)", 25.0))
    assert bends.merged == (2,)
    assert bends.angles_deg == pytest.approx([90.0])
    assert bends.straights == pytest.approx([175.0, 75.0])
    assert developed(bends) == pytest.approx(289.2699, abs=5e-5)


@pytest.mark.parametrize(("clr", "middle"), [(12.0, -4.0), (10.0, 0.0)])
def test_bends_that_overlap_or_just_touch(clr: float, middle: float) -> None:
    bends = bends_of_found(found("(0,0)(20,0)(20,20)(40,20)", clr))
    assert bends.straights is not None
    assert bends.straights[1] == pytest.approx(middle, abs=1e-12)
    assert bends.largest_clr == pytest.approx(10.0)


def test_without_a_clr_there_are_legs_only() -> None:
    bends = bends_of_found(found("(0,0,0)(300,0,0)(300,400,0)", 0.0))
    assert (bends.legs, bends.straights, bends.clr) == ((300.0, 400.0), None, (None,))


def test_the_other_end_goes_first() -> None:
    turned = from_other_end(found("(0,0,0)(300,0,0)(300,400,0)", 50.0))
    assert isinstance(turned.wish, Centreline)
    assert [vertex.x for vertex in turned.wish.vertices] == [300.0, 300.0, 0.0]
