"""Perforated sheet: plain geometry."""

import math

import pytest

from bendgen.geometry.perforation import ligament_efficiency, open_area_share, outer_pitch


def test_staggered_open_area_has_its_printed_factor() -> None:
    # derived: pi / (2 sqrt 3) = 0.9069
    assert open_area_share(1.0, 1.0, "60") == pytest.approx(0.9069, abs=5e-5)


@pytest.mark.parametrize(("hole", "pitch", "per_cent"), [(1 / 8, 3 / 16, 40.0), (3 / 16, 1 / 4, 51.0)])
def test_staggered_rows_of_the_industrial_perforators_handbook(hole: float, pitch: float, per_cent: float) -> None:
    # rows from memory, printed to whole per cent
    assert 100.0 * open_area_share(hole, pitch, "60") == pytest.approx(per_cent, abs=0.5)


def test_square_pattern_and_ligament() -> None:
    assert open_area_share(3.0, 5.0, "square") == pytest.approx(math.pi / 4.0 * 0.36)
    assert ligament_efficiency(3.0, 5.0) == pytest.approx(0.4)


def test_pitch_stretches_with_the_outer_fibre() -> None:
    assert outer_pitch(5.0, 0.25) == 6.25
