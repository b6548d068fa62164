"""Scales of drawings; 1, 2 and 5 times powers of ten after ISO 5455, from memory."""

import pytest

from bendgen.reports.drawings.drawing_scale import drawing_scale, scale_words


@pytest.mark.parametrize(
    ("largest", "stated"),
    [
        (1.0, "1:1"),
        (0.999, "1:1.5"),
        (0.5, "1:2"),
        (0.11, "1:10"),
        (0.0999, "1:15"),
        (0.0021, "1:500"),
        (2.0, "2:1"),
        (14.0, "10:1"),
    ],
)
def test_the_next_scale_that_fits(largest: float, stated: str) -> None:
    assert drawing_scale(largest) <= largest
    assert scale_words(drawing_scale(largest)) == stated
