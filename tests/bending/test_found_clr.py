"""Fitted CLR and die sets: which comes near enough to take its place, by hand."""

from dataclasses import replace
from pathlib import Path

import pytest

from bendgen.bending.found_clr import on_die_sets
from bendgen.files.profile_folder import read_profile
from bendgen.records.found_tube import FoundTube
from bendgen.records.part import Centreline, Vertex, WantedBend, WantedSteps

PROFILE = read_profile(Path(__file__).parents[2] / "machine_profiles" / "bay2")  # OD 50 on CLR 75 and 100
HALF_WIDTH = 0.05


def fitted(*clr: float | None, within: float = HALF_WIDTH) -> FoundTube:
    inner = [Vertex(x=300.0 * (n // 2), y=300.0 * ((n + 1) // 2), z=0.0, clr=r) for n, r in enumerate(clr, start=1)]
    vertices = (Vertex(x=0.0, y=0.0, z=0.0), *inner, Vertex(x=900.0, y=900.0, z=0.0))
    wish = Centreline(vertices=vertices)
    return FoundTube(kind="points along the axis", units="mm", wish=wish, clr_within=(within,) * len(clr))


def radii(found: FoundTube) -> list[float | None]:
    assert isinstance(found.wish, Centreline)
    return [vertex.clr for vertex in found.wish.vertices[1:-1]]


def test_a_die_set_takes_the_place_of_a_fit_and_is_told() -> None:
    found = on_die_sets(fitted(99.97, 75.02), 50.0, PROFILE, named=None)
    assert radii(found) == [100.0, 75.0]
    assert [sentence for _, sentence in found.understood] == [
        "bend 1: 'd50-r100', CLR 100 mm, in place of the fitted CLR of 99.97 mm ± 0.05 mm",
        "bend 2: 'd50-r75', CLR 75 mm, in place of the fitted CLR of 75.02 mm ± 0.05 mm",
    ]


@pytest.mark.parametrize(("clr", "expected"), [(100.0999, 100.0), (100.1001, 100.1001), (99.9001, 100.0)])
def test_how_near_is_near(clr: float, expected: float) -> None:
    """Twice the half width, and no farther."""
    assert radii(on_die_sets(fitted(clr), 50.0, PROFILE, named=None)) == [expected]


def test_exact_points_still_give_a_die_set_its_hundredth() -> None:
    assert radii(on_die_sets(fitted(100.009, within=0.0), 50.0, PROFILE, named=None)) == [100.0]


def test_two_die_sets_as_near_are_told_and_none_is_taken() -> None:
    found = on_die_sets(fitted(88.0, within=8.0), 50.0, PROFILE, named=None)
    assert radii(found) == [None]
    (words,) = found.understood
    assert words[1] == (
        "bend 1: left open, 'd50-r100' and 'd50-r75' come near the fitted CLR of 88 mm ± 8 mm: name the one meant"
    )
    assert radii(on_die_sets(fitted(88.0, within=8.0), 50.0, PROFILE, named="d50-r75")) == [75.0]


def test_a_clr_that_nothing_shows_stays_open() -> None:
    assert radii(on_die_sets(fitted(None, 100.0), 50.0, PROFILE, named=None)) == [None, 100.0]


def test_a_clr_that_the_file_says_is_left_alone() -> None:
    said = replace(fitted(100.04), clr_within=())
    assert on_die_sets(said, 50.0, PROFILE, named=None) == said


def test_no_die_set_for_another_od() -> None:
    assert radii(on_die_sets(fitted(100.04), 42.4, PROFILE, named=None)) == [100.04]


def test_bends_given_as_steps() -> None:
    wish = WantedSteps(bends=(WantedBend(straight=200.0, rotation_deg=0.0, angle_deg=175.0, clr=100.03),), rear=300.0)
    found = on_die_sets(replace(fitted(100.0), wish=wish), 50.0, PROFILE, named=None)
    assert isinstance(found.wish, WantedSteps)
    assert found.wish.bends[0].clr == 100.0
