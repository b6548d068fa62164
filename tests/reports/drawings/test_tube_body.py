"""Which of two crossing pieces of a tube is drawn over the other."""

import numpy as np

from bendgen.reports.drawings.tube_body import tube_body
from bendgen.reports.drawings.views import View
from tests.svg_reading import path_places, read_drawing

LOOKING_DOWN = View(right=np.array([1.0, 0.0, 0.0]), up=np.array([0.0, 1.0, 0.0]), scale=0.1, origin=(0.0, 0.0))
# Along x at the bottom, up, back, and along y over the first piece at x = 500.
OVER = np.array([(0, 0, 0), (1000, 0, 0), (1000, 400, 300), (500, 400, 300), (500, -400, 300)], dtype=float)


def strokes(points: np.ndarray, od: float) -> list[np.ndarray]:
    paths = (read_drawing(element) for element in tube_body(points, od, LOOKING_DOWN))
    return [path_places(path) for path in paths if path.tag == "path"]


def test_the_nearer_piece_is_drawn_once_more_over_the_farther() -> None:
    whole, _, again, _ = strokes(OVER, 50.0)
    np.testing.assert_allclose(whole, LOOKING_DOWN.places(OVER), atol=0.006)
    assert np.allclose(again[:, 0], 50.0), "the piece along y, at x = 500"
    assert again[:, 1].min() < 0.0 < again[:, 1].max()


def test_seen_from_below_it_is_the_other_piece() -> None:
    turned = OVER * (1.0, -1.0, -1.0)
    _, _, again, _ = strokes(turned, 50.0)
    assert np.allclose(again[:, 1], 0.0), "the piece along x"


def test_what_crosses_nothing_is_drawn_once() -> None:
    assert len(strokes(OVER[:3], 50.0)) == 2


def test_a_tube_too_thin_for_two_outlines_is_one_line_with_air_beside_it() -> None:
    paths = [read_drawing(element) for element in tube_body(OVER[:3], 5.0, LOOKING_DOWN)]
    assert [path.get("stroke") for path in paths] == ["white", "black"]
