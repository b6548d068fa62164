"""From the wish to bends, and what is no wish at all."""

from dataclasses import replace

import pytest

from bendgen.bending.hands import mirror_part, reverse_part
from bendgen.bending.layout import layout_of_part
from bendgen.errors import GeometryError
from bendgen.records.part import Centreline, Part, Vertex, WantedSteps
from bendgen.records.tube import Perforation


def through(part: Part, *corners: tuple[float, float, float], merge_below: float | None = None) -> Part:
    vertices = tuple(Vertex(x=x, y=y, z=z) for x, y, z in corners)
    return replace(part, centreline=Centreline(vertices=vertices, merge_below_deg=merge_below))


@pytest.mark.parametrize(
    ("corners", "message", "vertex"),
    [
        (((0, 0, 0),), "a centreline needs at least two vertices", None),
        (((0, 0, 0), (1, 0, 0), (1, 0, 0)), "vertices 2 and 3 are the same point", 3),
        (((0, 0, 0), (9, 0, 0), (3, 0, 0)), "vertex 2: the path folds straight back on itself", 2),
        # The mark at vertex 2 is taken out first; people still count it.
        (((0, 0, 0), (5, 0, 0), (9, 0, 0), (3, 0, 0)), "vertex 3: the path folds straight back on itself", 3),
    ],
)
def test_no_tube_at_all(
    dryer_part: Part, corners: tuple[tuple[float, float, float], ...], message: str, vertex: int | None
) -> None:
    with pytest.raises(GeometryError) as refused:
        layout_of_part(through(dryer_part, *corners))
    assert str(refused.value) == message
    assert refused.value.vertex == vertex


def test_no_wish(dryer_part: Part) -> None:
    with pytest.raises(GeometryError) as refused:
        layout_of_part(replace(dryer_part, centreline=None))
    assert str(refused.value).startswith("the part asks for nothing")


def test_a_blank_is_a_legal_part(dryer_part: Part) -> None:
    layout = layout_of_part(through(dryer_part, (0, 0, 0), (400, 300, 0)))
    assert layout.angles_deg.size == 0
    assert layout.segment_lengths is not None
    assert layout.segment_lengths.tolist() == [500.0]
    blank = layout_of_part(replace(dryer_part, centreline=None, steps=WantedSteps(bends=(), rear=500.0)))
    assert blank.straights is not None
    assert blank.straights.tolist() == [500.0]


def test_small_turns_are_merged_where_the_part_says_so(dryer_part: Part) -> None:
    # A turn of 0.57° at 100, then 90° at 200.
    corners = ((0.0, 0.0, 0.0), (100.0, 1.0, 0.0), (200.0, 1.0, 0.0), (200.0, 300.0, 0.0))
    assert layout_of_part(through(dryer_part, *corners)).angles_deg.size == 2
    merged = layout_of_part(through(dryer_part, *corners, merge_below=1.0))
    assert merged.angles_deg.size == 1
    assert merged.kept == (0, 2, 3)
    ((straight, distance),) = merged.mark_distances
    assert straight == 1
    assert distance == pytest.approx(100.005, abs=1e-3)


def test_a_slow_curve_is_not_merged_away_at_once(dryer_part: Part) -> None:
    # Turns of 5° one after the other: leaving out the straightest makes its neighbours turn more than the 6° allowed.
    corners = ((0.0, 0, 0), (100, 0, 0), (199.62, 8.716, 0), (298.1, 26.08, 0), (394.69, 51.96, 0))
    merged = layout_of_part(through(dryer_part, *corners, merge_below=6.0))
    assert merged.angles_deg.size >= 1
    assert merged.angles_deg.min() >= 6.0


def test_a_reversed_perforated_tube_has_its_plain_ends_exchanged(dryer_part: Part) -> None:
    holes = Perforation(hole=3.0, pitch=5.0, pattern="60", plain_front=40.0, plain_rear=70.0)
    perforated = replace(dryer_part, tube=replace(dryer_part.tube, perforated=True, perforation=holes))
    turned = reverse_part(perforated).tube.perforation
    assert turned is not None
    assert (turned.plain_front, turned.plain_rear) == (70.0, 40.0)
    assert mirror_part(perforated).tube.perforation == holes


def test_a_bendless_step_part_is_the_same_from_both_ends(dryer_part: Part) -> None:
    blank = replace(dryer_part, centreline=None, steps=WantedSteps(bends=(), rear=500.0))
    assert reverse_part(blank).steps == blank.steps


def test_trim_goes_with_its_end(dryer_part: Part) -> None:
    part = replace(dryer_part, trim="front", front_trim=12.0)
    turned = reverse_part(part)
    assert (turned.trim, turned.front_trim, turned.rear_trim) == ("rear", None, 12.0)
