"""Points along tubes of up to twenty bends are read.

Scatter of more than 0.02 mm is left out: of tubes with sixteen bends and more one in a hundred is refused at 0.05 mm.
"""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.geometry.axis_fit import fitted_axis
from tests.sampled_axis import sampled_axis

FARTHEST = 0.3


@given(
    seed=st.integers(0, 2**32 - 1),
    bends=st.integers(1, 20),
    spacing=st.sampled_from([1.0, 2.0, 4.0]),
    noise=st.sampled_from([0.0, 0.002, 0.02]),
)
@settings(max_examples=30)
def test_a_tube_is_found_again(seed: int, bends: int, spacing: float, noise: float) -> None:
    rng = np.random.default_rng(seed)
    clr = float(rng.choice([40.0, 60.0, 100.0]))
    turns = [(float(rng.uniform(-180.0, 180.0)), float(rng.uniform(20.0, 120.0)), clr) for _ in range(bends)]
    straights = rng.uniform(60.0, 250.0, bends + 1).tolist()
    fit = fitted_axis(sampled_axis(straights, turns, spacing, noise=noise, seed=seed % 1000), FARTHEST)
    assert fit is not None
    assert len(fit.clr) == bends
    assert fit.distances.max() < 1e-3 + 8.0 * noise
    assert np.abs(fit.angles - np.radians([turn[1] for turn in turns])).max() < 1e-4 + 0.2 * noise
    assert (np.abs(fit.clr - clr) < 1e-3 + 3.0 * fit.clr_within).all()
