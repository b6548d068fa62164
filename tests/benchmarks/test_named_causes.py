"""How often the cause named is the one planted, 400 cases of each; on demand, for it takes minutes.

.venv/bin/pytest -m benchmark tests/benchmarks/test_named_causes.py -n 2 -s
"""

from collections.abc import Callable

import pytest

from tests.bending.test_causes import FAULTS, Planted, Shop, named_without_fault, rightly_named

pytestmark = pytest.mark.benchmark
CASES = 400


@pytest.mark.parametrize("plant", FAULTS)
def test_the_cause_named_is_the_one_planted(plant: Callable[[Shop], Planted]) -> None:
    share, others = rightly_named(plant, CASES)
    print(f"{plant.__name__}: {share:.1%} right, else {dict(others)}")  # noqa: T201 - the figure is what one runs it for
    assert share >= 0.95


def test_next_to_nothing_is_named_where_nothing_is_wrong() -> None:
    share = named_without_fault(CASES)
    print(f"named without fault: {share:.1%}")  # noqa: T201 - the figure is what one runs it for
    assert share <= 0.05
