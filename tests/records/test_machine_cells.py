"""What the machine is shown: its columns, its units, its resolution."""

import re
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bendgen.records.bend_program import BendProgram, MachineStep
from bendgen.records.machine import MachineProfile
from bendgen.records.machine_cells import decimals_from_resolution, machine_cells


@pytest.mark.parametrize(
    ("resolution", "decimals"),
    [
        (1.0, 0),
        (5.0, 0),
        (0.5, 1),
        (0.1, 1),
        (0.05, 2),
        (0.25, 2),
        (0.001, 3),
        (0.0254 / 25.4, 3),
        (1 / 64, 6),
        (0.1 / 25.4, 4),
        (1 / 3, 2),
        (2 / 3, 2),
    ],
)
def test_decimals_show_every_multiple(resolution: float, decimals: int) -> None:
    assert decimals_from_resolution(resolution) == decimals
    shown = {f"{number * resolution:.{decimals}f}" for number in range(1000)}
    assert len(shown) == 1000


def test_metric_machine(example_program: BendProgram) -> None:
    cells = [machine_cells(step, example_program.profile) for step in example_program.machine_steps]
    assert cells == [("1", "197.0", "0.0", "92.7"), ("2", "154.0", "90.0", "92.7")]


def test_inch_machine_in_its_own_column_order(inch_program: BendProgram) -> None:
    cells = [machine_cells(step, inch_program.profile) for step in inch_program.machine_steps]
    assert cells == [("1", "d50-r100", "92.5", "0.0", "7.756"), ("2", "d50-r100", "92.5", "-90.0", "20.031")]


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(value=st.floats(-1e6, 1e6), resolution=st.sampled_from([1.0, 0.5, 0.1, 0.05, 0.01, 0.001]))
def test_no_exponent_and_no_minus_zero(value: float, resolution: float, metric_profile: MachineProfile) -> None:
    profile = replace(metric_profile, feed=replace(metric_profile.feed, resolution=resolution))
    step = MachineStep(number=1, die="d", feed=value, rotation=-0.0, bend=90.0)
    _, feed, rotation, _ = machine_cells(step, profile)
    assert re.fullmatch(r"-?[0-9]+(\.[0-9]+)?", feed)
    assert not (feed.startswith("-") and float(feed) == 0.0)
    assert abs(float(feed) - value) <= resolution / 2 + 1e-9 * abs(value)
    assert rotation == "0.0"
