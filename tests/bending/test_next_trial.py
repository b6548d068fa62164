"""The bend that teaches most: gaps first, then repeats; for a range, a part, or the whole die."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from bendgen.bending.next_trial import AnglesThatMatter, angles_of_range, next_bend, with_next_bend
from bendgen.records.allowances import AllowanceRow, AllowanceTable
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part
from bendgen.records.trials import Lesson, NextBend, SpringbackFit, TubeKind

FIT = SpringbackFit(
    coefficients=(0.6, 0.02),
    covariance=((1e-3, 0.0), (0.0, 1e-6)),
    sd_deg=0.1,
    degrees_of_freedom=4,
)


def table_at(angles: dict[float, int]) -> AllowanceTable:
    """Springback 0.6 + 0.02 θ at finished angles, with that many bends each."""
    return AllowanceTable(
        file="tables/new.toml",
        die="d50-r100",
        material="304L",
        wall=1.5,
        perforated=False,
        source="invented",
        issued=date(2026, 3, 20),
        rows=tuple(
            AllowanceRow(angle_deg=angle, springback_deg=0.6 + 0.02 * angle, bends=bends)
            for angle, bends in angles.items()
        ),
    )


def advised(angles: dict[float, int], matter: AnglesThatMatter, profile: MachineProfile) -> NextBend:
    return next_bend(table_at(angles), FIT, matter, profile)


def test_the_widest_gap(metric_profile: MachineProfile) -> None:
    found = advised({20.0: 2, 40.0: 2, 100.0: 2, 120.0: 2}, angles_of_range(20.0, 120.0), metric_profile)
    assert 60.0 <= found.finished_deg <= 80.0
    assert not found.repeat
    assert found.commanded_deg == pytest.approx(found.finished_deg + 0.6 + 0.02 * found.finished_deg, abs=0.05)
    assert found.deviation_after_deg < found.deviation_before_deg
    assert found.matters == "20 to 120°"


def test_the_end_where_nothing_was_bent(metric_profile: MachineProfile) -> None:
    found = advised({20.0: 3, 40.0: 3, 60.0: 3}, angles_of_range(20.0, 150.0), metric_profile)
    assert found.finished_deg >= 120.0


def test_a_row_again_where_rows_are_close_and_bends_few(metric_profile: MachineProfile) -> None:
    only_ninety = AnglesThatMatter(angles_deg=(90.0,), words="90°")
    found = advised({85.0: 1, 90.0: 1, 95.0: 1}, only_ninety, metric_profile)
    assert (found.finished_deg, found.repeat) == (90.0, True)
    assert found.deviation_before_deg == pytest.approx(0.1)
    assert found.deviation_after_deg == pytest.approx(0.1 / np.sqrt(2.0))


def test_the_deviation_foretold_is_that_of_many_tables(metric_profile: MachineProfile) -> None:
    """Half-way between two rows of a straight law, of one bend and of four, seen in 4,000 invented shops."""
    halfway = AnglesThatMatter(angles_deg=(31.0,), words="31°")
    foretold = advised({30.0: 1, 32.0: 4}, halfway, metric_profile).deviation_before_deg
    rng = np.random.default_rng(5)
    means = (rng.normal(0.0, 0.1, 4000) + rng.normal(0.0, 0.1, (4000, 4)).mean(axis=1)) / 2.0
    assert foretold == pytest.approx(means.std(), rel=0.03)


@pytest.mark.parametrize("sd", [0.0, float("nan")])
def test_scatter_is_never_taken_better_than_the_machine(sd: float, metric_profile: MachineProfile) -> None:
    matter = AnglesThatMatter(angles_deg=(30.0,), words="30°")
    found = next_bend(table_at({30.0: 1, 60.0: 1}), replace(FIT, sd_deg=sd), matter, metric_profile)
    assert found.deviation_before_deg == pytest.approx(0.05 if sd == 0.0 else np.hypot(0.05, 0.1))


def lesson_with(angles: dict[float, int]) -> Lesson:
    kind = TubeKind(die="d50-r100", material="304L", wall=1.5, perforated=False)
    return Lesson(kind=kind, lot=None, bends=2, table=table_at(angles), fit=FIT)


def test_for_a_part(metric_profile: MachineProfile, dryer_part: Part) -> None:
    found = with_next_bend(lesson_with({20.0: 1, 40.0: 1}), metric_profile, part=dryer_part).next_bend
    assert found is not None
    assert found.matters == "the bends of GD-118: 90°"
    assert found.finished_deg == 90.0


def test_for_a_part_that_does_not_use_the_table(metric_profile: MachineProfile, dryer_part: Part) -> None:
    thicker = replace(lesson_with({20.0: 1, 40.0: 1}), table=replace(table_at({20.0: 1, 40.0: 1}), wall=2.0))
    lesson = with_next_bend(thicker, metric_profile, part=dryer_part)
    assert lesson.next_bend is None
    assert lesson.cautions == ("the part bends nothing with this table: no bend is advised",)


def test_for_the_whole_die(metric_profile: MachineProfile) -> None:
    found = with_next_bend(lesson_with({20.0: 1, 40.0: 1}), metric_profile).next_bend
    assert found is not None
    assert found.matters == "the range of the die, 10 to 179°"
    assert found.commanded_deg <= 184.0


def test_nothing_to_advise_without_a_table_of_its_own(metric_profile: MachineProfile) -> None:
    lesson = replace(lesson_with({20.0: 1, 40.0: 1}), fit=None)
    assert with_next_bend(lesson, metric_profile, range_deg=(20.0, 90.0)) is lesson
