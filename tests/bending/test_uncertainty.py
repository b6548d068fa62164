"""Uncertainty of the checks: by hand, against Monte Carlo, and what it says of what nobody knows."""

from dataclasses import replace
from math import hypot, sqrt
from pathlib import Path

import numpy as np
import pytest

from bendgen.bending.check_values import check_values
from bendgen.bending.foretold import foretold_of_program
from bendgen.bending.miss_sources import miss_sources
from bendgen.bending.misses import missed_tubes, misses_of_array
from bendgen.bending.planning import plan_part
from bendgen.bending.uncertainty import with_uncertainty
from bendgen.files.part_file import read_part
from bendgen.files.profile_folder import read_profile
from bendgen.records.allowances import AllowanceRow
from bendgen.records.bend_program import BendProgram, Check
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part, Tolerance, WantedBend, WantedSteps
from tests.pages import large_bender, perforated_part
from tests.pages import planned as sheet_planned

ROOT = Path(__file__).parents[2]
DRAWS = 20_000
SAMPLES = (("bearing_jog", "bay2"), ("six_bend_duct", "bay2"), ("diffuser_drop", "bay5_inch"))


def program_of_sample(sample: str, machine: str) -> BendProgram:
    profile = read_profile(ROOT / "machine_profiles" / machine)
    program = plan_part(read_part(ROOT / "samples" / f"{sample}.toml"), profile).program
    assert program is not None
    return program


def planned(part: Part, profile: MachineProfile) -> BendProgram:
    program = plan_part(part, profile).program
    assert program is not None
    return with_uncertainty(program)


def check_of(program: BendProgram, check_id: str) -> Check:
    return next(check for check in program.checks if check.id == check_id)


def half_width(program: BendProgram, check_id: str) -> float:
    uncertainty = check_of(program, check_id).uncertainty
    assert uncertainty is not None
    return uncertainty.expanded


def two_elbows(part: Part, *, angle: float = 90.0) -> Part:
    bends = (
        WantedBend(straight=400.0, rotation_deg=0.0, angle_deg=angle),
        WantedBend(straight=300.0, rotation_deg=90.0, angle_deg=angle),
    )
    return replace(part, centreline=None, steps=WantedSteps(bends=bends, rear=400.0))


def with_rows(profile: MachineProfile, *rows: AllowanceRow) -> MachineProfile:
    return replace(profile, tables=(replace(profile.tables[0], rows=rows),))


def straight_rows(**same: object) -> tuple[AllowanceRow, ...]:
    """Springback 1° + 1 % of the angle: on a straight line, so that nothing is missed between rows."""
    return tuple(AllowanceRow(angle_deg=a, springback_deg=1.0 + 0.01 * a, **same) for a in (30.0, 90.0, 150.0))  # type: ignore[arg-type]


def test_an_angle_on_a_row_scatters_with_the_bend_and_with_the_mean_of_the_row(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    """By hand: 0.05° of the machine; the row is the mean of 4 bends, and 1.01° commanded give 1°."""
    program = planned(two_elbows(dryer_part), with_rows(metric_profile, *straight_rows(bends=4)))
    assert half_width(program, "angle-1") == pytest.approx(2.0 * hypot(0.05, 0.05 / sqrt(4) / 1.01), rel=1e-3)


def test_a_table_whose_bends_scatter_more_than_the_machine_is_believed(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    rows = straight_rows(bends=3, spread_deg=0.2)
    program = planned(two_elbows(dryer_part), with_rows(metric_profile, *rows))
    assert half_width(program, "angle-1") == pytest.approx(2.0 * hypot(0.2, 0.2 / sqrt(3) / 1.01), rel=1e-3)


def test_what_the_cubic_differs_from_the_straight_line_counts_as_half_width(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    bowed = (AllowanceRow(angle_deg=30.0, springback_deg=1.0), AllowanceRow(angle_deg=90.0, springback_deg=2.2))
    rows = (*bowed, AllowanceRow(angle_deg=150.0, springback_deg=2.4))
    exact = planned(two_elbows(dryer_part), with_rows(metric_profile, *rows))
    between = planned(two_elbows(dryer_part, angle=60.0), with_rows(metric_profile, *rows))
    assert half_width(between, "angle-1") > 1.2 * half_width(exact, "angle-1")


@pytest.mark.parametrize(
    ("feed", "rotation", "straight", "turn"),
    [
        ("incremental", "incremental", 0.1, 0.05),
        ("summed", "absolute", 0.1 * sqrt(2), 0.05 * sqrt(2)),
        ("passed", "absolute", 0.1 * sqrt(2), 0.05 * sqrt(2)),
        ("carriage", "incremental", 0.1 * sqrt(2), 0.05),
    ],
)
def test_feed_and_rotation_by_the_form_in_which_the_machine_counts(  # noqa: PLR0917 - a row of the table
    dryer_part: Part, metric_profile: MachineProfile, feed: str, rotation: str, straight: float, turn: float
) -> None:
    output = replace(metric_profile.output, feed=feed, rotation=rotation)  # type: ignore[arg-type]
    profile = with_rows(replace(metric_profile, output=output), *straight_rows(elongation=1.5, clr=104.0))
    flat = tuple(replace(row, clr=104.0 * 90.0 / row.angle_deg, elongation=1.5) for row in profile.tables[0].rows)
    program = planned(two_elbows(dryer_part), with_rows(profile, *flat))
    assert half_width(program, "straight-2") == pytest.approx(2.0 * straight, rel=1e-3)
    assert half_width(program, "rotation-2") == pytest.approx(2.0 * turn, rel=1e-3)


def test_elongation_that_nobody_measured_leaves_straights_unknown_only_where_it_reaches_them(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    unmeasured = with_rows(metric_profile, *straight_rows())
    by_position = replace(unmeasured, output=replace(metric_profile.output, feed="passed"))
    assert check_of(planned(two_elbows(dryer_part), unmeasured), "straight-2").uncertainty is not None
    program = planned(two_elbows(dryer_part), by_position)
    assert check_of(program, "straight-2").uncertainty is None
    assert check_of(program, "angle-2").uncertainty is not None
    assert check_of(program, "blank").uncertainty is None  # the saw is in no profile


@pytest.mark.parametrize(("feed", "first"), [("incremental", "apex-leg-rear"), ("passed", "straight-2")])
def test_elongation_that_nobody_measured_is_said_before_metal_is_cut(
    dryer_part: Part, metric_profile: MachineProfile, feed: str, first: str
) -> None:
    output = replace(metric_profile.output, feed=feed)  # type: ignore[arg-type]
    profile = with_rows(replace(metric_profile, output=output), *straight_rows())
    (caution,) = [found for found in planned(two_elbows(dryer_part), profile).findings if found.rule == "elongation"]
    assert caution.level == "caution"
    assert caution.text.startswith(f"{first} and ")
    assert "elongation was never measured and is taken as 0" in caution.text
    measured = with_rows(profile, *straight_rows(elongation=1.0))
    assert not [found for found in planned(two_elbows(dryer_part), measured).findings if found.rule == "elongation"]
    few = with_rows(profile, *straight_rows(elongation=1.0)[1:])
    (caution,) = [found for found in planned(two_elbows(dryer_part), few).findings if found.rule == "elongation"]
    assert "the table has too few rows to tell" in caution.text


def test_commands_that_miss_a_tolerance_say_so_before_metal_is_cut(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    """Straights are held: a bend that opens from 91.9° on R_d to 90° moves the corner by R_d · (91.9 / 90 - 1)."""
    die_clr = metric_profile.dies[0].clr
    profile = with_rows(metric_profile, *straight_rows(elongation=1.0))
    program = planned(two_elbows(dryer_part), profile)
    off = die_clr * 1.9 / 90.0
    (caution,) = [found for found in program.findings if found.rule == "tolerance"]
    assert caution.level == "caution"
    assert "predicted out of tolerance" in caution.text
    assert check_of(program, "apex-leg-front").predicted == pytest.approx(400.0 + die_clr + off, abs=0.11)
    wide = replace(two_elbows(dryer_part), tolerance=Tolerance(length=3.0 * off, source="part"))
    assert not [found for found in planned(wide, profile).findings if found.rule == "tolerance"]


def test_an_estimate_counts_as_one_and_a_half_degrees_either_way_shared_by_all_bends(
    dryer_part: Part,
) -> None:
    profile = read_profile(ROOT / "machine_profiles" / "bay2")
    program = planned(replace(two_elbows(dryer_part), die="d50-r100"), replace(profile, tables=()))
    slope = program.steps[0].slope
    expected = 2.0 * hypot(profile.bend.repeatability_deg, 1.5 / sqrt(3) / slope)
    assert half_width(program, "angle-1") == pytest.approx(expected, rel=1e-3)


def test_shares_add_up_and_name_the_bend_that_matters(dryer_part: Part, metric_profile: MachineProfile) -> None:
    program = planned(two_elbows(dryer_part), metric_profile)
    for check in program.checks:
        if check.uncertainty is not None:
            assert sum(check.uncertainty.shares) == pytest.approx(1.0)
    of_second = check_of(program, "angle-2").uncertainty
    assert of_second is not None
    assert of_second.shares[1] == pytest.approx(1.0)


def test_a_tolerance_tighter_than_the_uncertainty_is_said_before_metal_is_cut(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    fine = replace(two_elbows(dryer_part), tolerance=Tolerance(angle_deg=0.1, source="part"))
    cautions = [f for f in planned(fine, metric_profile).findings if f.rule == "uncertainty"]
    assert len(cautions) == 1
    assert cautions[0].level == "caution"
    assert cautions[0].value is not None
    assert cautions[0].limit is not None
    assert cautions[0].value > cautions[0].limit
    loose = replace(two_elbows(dryer_part), tolerance=Tolerance(length=9.0, angle_deg=9.0, offset=9.0, source="part"))
    assert not [f for f in planned(loose, metric_profile).findings if f.rule == "uncertainty"]


def test_no_bend_makes_more_than_all_of_an_uncertainty() -> None:
    """In a zigzag one bend takes back what another brings: the share of the largest goes beyond 1."""
    program = sheet_planned(perforated_part(), large_bender())
    assert any(max(check.uncertainty.shares) > 1.5 for check in program.checks if check.uncertainty is not None)
    (caution,) = [finding.text for finding in program.findings if finding.rule == "uncertainty"]
    assert "makes 100% of it" in caution


@pytest.mark.parametrize(("sample", "machine"), SAMPLES)
def test_first_order_agrees_with_monte_carlo(sample: str, machine: str) -> None:
    """Draws of every cause through the whole part, nothing linear: [JCGM101] 5.9; 20,000 draws know a standard
    deviation to 0.5 %, and at most 1 % of half widths may come from what is not linear."""
    plain = program_of_sample(sample, machine)
    program, foretold = with_uncertainty(plain), foretold_of_program(plain)
    sources = miss_sources(plain)
    known = np.where(np.isnan(sources), 0.0, sources)
    draws = np.random.default_rng(118).standard_normal((DRAWS, len(known)))
    drawn = np.einsum("dk,kjn->djn", draws, known)
    values = check_values(foretold, missed_tubes(foretold, misses_of_array(drawn)))
    compared = 0
    for check, column in zip(program.checks, values.T, strict=True):
        if check.uncertainty is None or check.id.startswith("box"):
            continue  # a box takes the larger of several corners: its mean moves, see the next test
        compared += 1
        assert 2.0 * np.std(column) == pytest.approx(check.uncertainty.expanded, rel=0.03, abs=1e-3), check.id
        inside = np.mean(np.abs(column - check.predicted) <= check.uncertainty.expanded)
        assert inside == pytest.approx(0.9545, abs=0.008), check.id
    assert compared >= 5


def test_a_part_without_bends_has_nothing_uncertain_but_its_saw(
    dryer_part: Part, metric_profile: MachineProfile
) -> None:
    program = planned(replace(dryer_part, centreline=None, steps=WantedSteps(bends=(), rear=700.0)), metric_profile)
    assert all(check.uncertainty is None for check in program.checks)
