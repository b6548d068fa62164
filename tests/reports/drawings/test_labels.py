"""Room for words."""

import numpy as np

from bendgen.reports.drawings.labels import Box, FreeSpace, inked

FRAME = Box(left=0.0, top=0.0, right=60.0, bottom=40.0)
NO_INK = np.empty((0, 2))


def overlap(a: Box, b: Box) -> bool:
    return min(a.right, b.right) > max(a.left, b.left) and min(a.bottom, b.bottom) > max(a.top, b.top)


def test_words_stand_beside_what_they_name_and_not_on_it() -> None:
    box = FreeSpace(FRAME, NO_INK).place((30.0, 20.0), 10.0, 4.0)
    assert not (box.left < 30.0 < box.right and box.top < 20.0 < box.bottom)
    assert abs(box.centre[0] - 30.0) < 10.0
    assert abs(box.centre[1] - 20.0) < 10.0


def test_many_words_at_one_place_cover_neither_each_other_nor_a_blocked_box() -> None:
    space, blocked = FreeSpace(FRAME, NO_INK), Box(left=20.0, top=0.0, right=60.0, bottom=15.0)
    space.block(blocked)
    boxes = [space.place((30.0, 20.0), 10.0, 4.0) for _ in range(18)]
    taken = [blocked, *boxes]
    assert not any(overlap(a, b) for i, a in enumerate(taken) for b in taken[:i])
    assert all(box.left >= 0.0 and box.top >= 0.0 and box.right <= 60.0 and box.bottom <= 40.0 for box in boxes)


def test_words_keep_off_lines() -> None:
    line = inked(np.array([(0.0, 22.0), (60.0, 22.0)]))
    box = FreeSpace(FRAME, line, 1.0).place((30.0, 22.0), 10.0, 4.0)
    assert box.bottom <= 21.5 or box.top >= 22.5


def test_a_line_is_sampled_without_gaps_from_end_to_end() -> None:
    places = inked(np.array([(0.0, 0.0), (10.0, 0.0), (10.0, 0.2)]), 0.9)
    assert np.linalg.norm(np.diff(places, axis=0), axis=1).max() <= 0.9
    np.testing.assert_allclose(places[[0, -1]], [(0.0, 0.0), (10.0, 0.2)])
