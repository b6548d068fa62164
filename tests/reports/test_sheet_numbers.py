"""Numbers as one sheet writes them, and words for every basis."""

from dataclasses import replace
from typing import get_args

import pytest

from bendgen.records.bend_program import BasisWord
from bendgen.records.machine import MachineProfile
from bendgen.reports.basis_words import BASIS_WORDS
from bendgen.reports.sheet.numbers import numbers_of_machine


@pytest.mark.parametrize(
    ("feed", "bend", "length", "angle"),
    [(1.0, 1.0, "12.3 mm", "45.1"), (0.1, 0.1, "12.3 mm", "45.1"), (0.01, 0.05, "12.35 mm", "45.12")],
)
def test_decimals_follow_the_machine(
    metric_profile: MachineProfile, feed: float, bend: float, length: str, angle: str
) -> None:
    profile = replace(
        metric_profile,
        feed=replace(metric_profile.feed, resolution=feed),
        bend=replace(metric_profile.bend, resolution_deg=bend),
    )
    numbers = numbers_of_machine(profile)
    assert numbers.length(12.346) == length
    assert numbers.angle(45.123) == angle


def test_tape_in_an_inch_shop_has_its_fraction(inch_profile: MachineProfile, metric_profile: MachineProfile) -> None:
    numbers = numbers_of_machine(inch_profile)
    assert numbers.tape(38.1) == "1.500 in (1 1/2 in)"
    assert numbers.tape_cells(38.1) == ["1.500 in", "1 1/2 in"]
    assert numbers_of_machine(metric_profile).tape(38.1) == "38.1 mm"
    assert numbers_of_machine(metric_profile).tape_cells(38.1) == ["38.1 mm"]


def test_every_basis_has_its_words() -> None:
    assert set(BASIS_WORDS) == set(get_args(BasisWord))
