"""Files of points along an axis: told from vertices, fitted, and refused where they follow no tube."""

import numpy as np
import pytest

from bendgen.bending.found_bends import bends_of_found
from bendgen.errors import InputError
from bendgen.files.axis_points import may_follow_axis
from bendgen.files.foreign_csv import parse_foreign_csv
from bendgen.files.points_csv import parse_points
from bendgen.records.found_tube import Answers, FoundTube
from bendgen.records.part import Centreline, WantedSteps
from tests.sampled_axis import sampled_axis

TWO_BENDS = sampled_axis([300.0, 150.0, 200.0], [(0.0, 90.0, 100.0), (90.0, 60.0, 100.0)], 5.0)
HOOP = sampled_axis([300.0, 500.0, 300.0], [(0.0, 175.0, 60.0), (90.0, 70.0, 60.0)], 5.0)
AXIS = Answers(points="axis")


def text_of(points: np.ndarray) -> str:
    return "x_mm,y_mm,z_mm\n" + "".join(f"{x:.6f},{y:.6f},{z:.6f}\n" for x, y, z in points)


def parsed(text: str, answers: Answers) -> FoundTube:
    return parse_points(parse_foreign_csv(text, "a.csv", answers), "a.csv", answers)


def test_vertices_and_clr() -> None:
    found = parsed(text_of(TWO_BENDS), AXIS)
    assert found.kind == "points along the axis, in a CSV"
    bends = bends_of_found(found)
    assert bends.straights == pytest.approx([300.0, 150.0, 200.0], abs=1e-4)
    assert bends.angles_deg == pytest.approx([90.0, 60.0], abs=1e-5)
    assert bends.rotations_deg == pytest.approx([0.0, 90.0], abs=1e-5)
    assert bends.clr == pytest.approx([100.0, 100.0], abs=1e-4)


def test_a_bend_near_half_a_turn_makes_steps() -> None:
    found = parsed(text_of(HOOP), AXIS)
    assert isinstance(found.wish, WantedSteps)
    assert [bend.angle_deg for bend in found.wish.bends] == pytest.approx([175.0, 70.0], abs=1e-5)
    assert found.wish.rear == pytest.approx(300.0, abs=1e-4)


def test_how_well_they_fit_is_told() -> None:
    moved = TWO_BENDS.copy()
    moved[10] += (0.05, -0.05, 0.05)
    understood = dict(parsed(text_of(moved), AXIS).understood)
    assert understood["points"] == f"{len(moved)} along the axis, fitted with straights and arcs"
    assert "in line 12; " in understood["misfit"]


def test_the_clr_may_be_left_to_the_die_set() -> None:
    found = parsed(text_of(TWO_BENDS), Answers(points="axis", leave_clr=True))
    assert isinstance(found.wish, Centreline)
    assert {vertex.clr for vertex in found.wish.vertices} == {None}


def test_slow_turns_are_asked_about() -> None:
    with pytest.raises(InputError) as caught:
        parsed(text_of(TWO_BENDS), Answers())
    assert str(caught.value) == (
        "a.csv: expected vertices or axis by --points: they turn so slowly that they could be either, "
        f"found {len(TWO_BENDS)} points"
    )


@pytest.mark.parametrize(("points", "slow"), [(4, False), (5, True)])
def test_three_slow_turns_in_a_row_may_be_a_bend(points: int, *, slow: bool) -> None:
    turns = np.radians(5.0 * np.arange(points - 1))
    steps = 10.0 * np.column_stack((np.cos(turns), np.sin(turns), np.zeros(points - 1)))
    assert may_follow_axis(np.concatenate((np.zeros((1, 3)), steps.cumsum(axis=0)))) == slow


def test_more_points_than_a_part_has_vertices_follow_an_axis() -> None:
    found = parsed(text_of(sampled_axis([600.0], [], 0.5)), Answers())
    assert isinstance(found.wish, Centreline)
    assert len(found.wish.vertices) == 2


def test_more_vertices_than_a_part_may_have() -> None:
    with pytest.raises(InputError, match="expected at most 1,000 vertices, found 1,201"):
        parsed(text_of(sampled_axis([600.0], [], 0.5)), Answers(points="vertices"))


def test_points_that_follow_no_tube() -> None:
    turn = np.linspace(0.3, 6.0, 200)[:, None]
    spiral = np.hstack((turn**2 * np.cos(turn), turn**2 * np.sin(turn), turn)) * 40.0
    with pytest.raises(InputError) as caught:
        parsed(text_of(spiral), Answers(points="axis", within=0.05))
    assert str(caught.value) == (
        "a.csv: expected points that follow straights and arcs to within 0.05 mm, or to within more by --within, "
        "found points that do not"
    )


def test_points_that_scatter_too_much_are_told_by_how_much() -> None:
    moved = TWO_BENDS.copy()
    moved[10] += (0.3, 0.0, 0.4)
    with pytest.raises(
        InputError, match=r"within 0.3 mm, or .*, found points up to 0\.[345]\d* mm off, the worst in line 12$"
    ):
        parsed(text_of(moved), AXIS)


@pytest.mark.parametrize("noise", [0.0, 0.02])
def test_a_corner_is_no_bend(noise: float) -> None:
    corner = np.array([(min(i, 100) * 2.0, max(i - 100, 0) * 2.0, 0.0) for i in range(201)])
    corner += np.random.default_rng(5).normal(0.0, noise, corner.shape)
    with pytest.raises(InputError) as caught:
        parsed(text_of(corner), AXIS)
    assert str(caught.value).startswith(
        "a.csv: expected an arc at bend 1, or corners by --points vertices, found a corner of "
    )


@pytest.mark.parametrize("noise", [0.0, 0.02])
def test_a_clr_that_points_do_not_show_is_left_to_the_die_set(noise: float) -> None:
    bends = [(0.0, 60.0, 100.0), (180.0, 3.0, 100.0)]
    found = parsed(text_of(sampled_axis([300.0, 350.0, 300.0], bends, 1.0, noise=noise)), AXIS)
    clr = bends_of_found(found).clr
    assert clr[0] == pytest.approx(100.0, abs=0.2)
    assert (clr[1] is None) == (noise > 0.0)
    assert len(bends_of_found(found).clr_within) == 2
