"""Tables from trial bends of a modelled shop: what is hidden there comes back, what is wrong is named."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from bendgen.bending.allowances import allowances_at, curves_of_table
from bendgen.bending.learning import learn_trials
from bendgen.errors import InputError
from bendgen.records.machine import MachineProfile
from bendgen.records.trials import Lesson, TrialBend, TrialSource, TubeKind
from tests.modelled_shop import Lost, Shop

SIX = (20.0, 40.0, 60.0, 80.0, 100.0, 125.0)
KIND = TubeKind(die="d50-r100", material="304L", wall=1.5, perforated=False)
SOURCE = TrialSource(file="trials.csv", issued=date(2026, 3, 20))


@pytest.fixture
def bare(metric_profile: MachineProfile) -> MachineProfile:
    """The metric bender without any table."""
    return replace(metric_profile, tables=())


def trial_bends(shop: Shop, commands: Sequence[float], seed: int = 1, lot: str | None = None) -> list[TrialBend]:
    rng = np.random.default_rng(seed)
    readings = [shop.readings(command, rng) for command in commands]
    return [
        TrialBend(
            line=line,
            kind=KIND,
            lot=lot,
            commanded_deg=reading["commanded_deg"],
            measured_deg=reading["measured_deg"],
            feed=reading["feed_mm"],
            blank=reading["blank_mm"],
            front_leg=reading["front_leg_mm"],
            rear_leg=reading["rear_leg_mm"],
        )
        for line, reading in enumerate(readings, start=2)
    ]


def angles_only(bends: Sequence[TrialBend]) -> list[TrialBend]:
    return [replace(bend, feed=None, blank=None, front_leg=None, rear_leg=None) for bend in bends]


def lesson_of(bends: Sequence[TrialBend], profile: MachineProfile) -> Lesson:
    (lesson,) = learn_trials(bends, profile, SOURCE)
    return lesson


def test_an_exact_shop_comes_back_between_its_rows(bare: MachineProfile) -> None:
    shop = Shop()
    table = lesson_of(trial_bends(shop, SIX), bare).table
    assert table is not None
    assert table.source == "trial bends: trials.csv; clr at 18.8, 38.3° continued from the other rows"
    for command in (30.0, 50.0, 70.0, 90.0, 110.0):
        hidden = shop.released(command)
        at = allowances_at(curves_of_table(table, 100.0), np.array([hidden.angle_deg]))
        assert command - hidden.angle_deg == pytest.approx(at.springback_deg[0], abs=0.01)
        assert hidden.arc == pytest.approx(at.clr[0] * np.radians(hidden.angle_deg), abs=0.03)
        assert hidden.elongation == pytest.approx(at.elongation[0], abs=0.03)


@pytest.mark.parametrize("lost", ["even", "both legs", "clamp end", "lost motion"])
def test_six_scattered_bends_give_back_what_is_hidden(lost: Lost, bare: MachineProfile) -> None:
    """Repeatability 0.05° and 0.1 mm, one standard deviation; held against the four-fold of what that does."""
    shop = Shop(lost=lost, angle_sd_deg=0.05, length_sd=0.1)
    for seed in range(10):
        table = lesson_of(trial_bends(shop, SIX, seed=seed), bare).table
        assert table is not None
        for command in (50.0, 70.0, 90.0, 110.0):
            hidden = shop.released(command)
            half_turn = np.radians(hidden.angle_deg) / 2.0
            at = allowances_at(curves_of_table(table, 100.0), np.array([hidden.angle_deg]))
            assert command - hidden.angle_deg == pytest.approx(at.springback_deg[0], abs=4 * 0.05)
            assert hidden.front_tangent == pytest.approx(at.clr[0] * np.tan(half_turn), abs=4 * 0.15)


def test_elongation_where_the_setbacks_of_both_legs_are_one(bare: MachineProfile) -> None:
    """Two tapes of 0.1 mm, and a tangent length whose error enters by less than half, make 0.2 mm."""
    shop = Shop(angle_sd_deg=0.05, length_sd=0.1, stretch=0.03)
    for seed in range(10):
        table = lesson_of(trial_bends(shop, SIX, seed=seed), bare).table
        assert table is not None
        for command in SIX:
            hidden = shop.released(command)
            at = allowances_at(curves_of_table(table, 100.0), np.array([hidden.angle_deg]))
            assert hidden.elongation == pytest.approx(at.elongation[0], abs=4 * 0.2)


def test_honest_shops_keep_all_their_readings(bare: MachineProfile) -> None:
    shop = Shop(angle_sd_deg=0.1, length_sd=0.3)
    left_out = [lesson_of(trial_bends(shop, SIX, seed=seed), bare).left_out for seed in range(100)]
    assert sum(map(bool, left_out)) <= 1


def test_outer_apex_legs_and_carriage_moves_teach_the_same(bare: MachineProfile) -> None:
    shop = Shop()
    apex = trial_bends(shop, SIX)
    outer = [
        replace(
            bend,
            legs="outer_apex",
            front_leg=(bend.front_leg or 0.0) + 25.0 * np.tan(np.radians(bend.measured_deg) / 2.0),
            rear_leg=(bend.rear_leg or 0.0) + 25.0 * np.tan(np.radians(bend.measured_deg) / 2.0),
        )
        for bend in apex
    ]
    moved = [
        replace(bend, blank=None, rear_leg=None, carriage_move=shop.released(bend.commanded_deg).used) for bend in apex
    ]
    learned = [lesson_of(bends, bare).rows for bends in (apex, outer, moved)]
    for row, *others in zip(*learned, strict=True):
        for other in others:
            assert other.clr == pytest.approx(row.clr, abs=1e-3)
            assert other.elongation == pytest.approx(row.elongation, abs=2e-3)


def test_repeats_are_averaged_and_their_spread_is_kept(bare: MachineProfile) -> None:
    bends = angles_only(trial_bends(Shop(), (30.0, 90.0, 90.0, 90.04)))
    bends[1:] = [
        replace(bend, measured_deg=measured) for bend, measured in zip(bends[1:], (87.4, 87.5, 87.64), strict=True)
    ]
    lesson = lesson_of(bends, bare)
    assert [row.bends for row in lesson.rows] == [1, 3]
    row = lesson.rows[1]
    assert row.commanded_deg == pytest.approx(90.0 + 0.04 / 3.0)
    assert row.springback_deg == pytest.approx(2.5)
    assert row.spread_deg == pytest.approx(0.1)
    assert (lesson.rows[0].spread_deg, row.clr, row.elongation) == (None, None, None)


def test_without_a_feed_only_the_sum_is_known(bare: MachineProfile) -> None:
    shop = Shop()
    lesson = lesson_of([replace(bend, feed=None) for bend in trial_bends(shop, SIX)], bare)
    for row, command in zip(lesson.rows, SIX, strict=True):
        hidden = shop.released(command)
        assert (row.clr, row.elongation) == (None, None)
        assert row.legs_less_blank == pytest.approx(hidden.front_tangent + hidden.rear_tangent - hidden.used, abs=1e-3)
    assert lesson.table is not None
    assert {(row.clr, row.elongation) for row in lesson.table.rows} == {(None, None)}


def test_one_measured_elongation_is_continued_in_proportion(bare: MachineProfile) -> None:
    bends = trial_bends(Shop(), (60.0, 90.0, 120.0))
    bends[0] = replace(bends[0], blank=None)
    bends[2] = replace(bends[2], blank=None)
    low, middle, high = lesson_of(bends, bare).rows
    assert middle.elongation is not None
    for row in (low, high):
        assert not row.elongation_measured
        assert row.elongation == pytest.approx(middle.elongation * row.angle_deg / middle.angle_deg)


def test_a_typing_slip_is_named_and_left_out(bare: MachineProfile) -> None:
    bends = angles_only(trial_bends(Shop(), (30.0, 60.0, 90.0, 120.0)))
    slipped = [*bends[:2], replace(bends[2], measured_deg=bends[2].measured_deg - 9.0), bends[3]]
    lesson = lesson_of(slipped, bare)
    (found,) = lesson.left_out
    assert (found.line, found.reading) == (4, "bend")
    assert found.text.startswith("measured 78.212° after a command of 90°: the others put it at 87.")
    assert len(lesson.rows) == 3
    assert lesson.table is not None


def test_a_misread_tape_costs_the_lengths_but_not_the_angle(bare: MachineProfile) -> None:
    bends = trial_bends(Shop(), SIX)
    bends[3] = replace(bends[3], front_leg=(bends[3].front_leg or 0.0) + 10.0)
    lesson = lesson_of(bends, bare)
    assert [(found.line, found.reading) for found in lesson.left_out] == [(5, "lengths")]
    assert len(lesson.rows) == 6
    assert not lesson.rows[3].clr_measured
    assert lesson.rows[3].clr == pytest.approx(100.0 * 80.0 / bends[3].measured_deg, abs=0.01)  # the arc is kept


def test_three_angles_that_do_not_fit_are_refused(bare: MachineProfile) -> None:
    bends = angles_only(trial_bends(Shop(), (30.0, 60.0, 90.0)))
    bends[2] = replace(bends[2], measured_deg=78.0)
    lesson = lesson_of(bends, bare)
    assert lesson.table is None
    assert lesson.refusal == (
        "the angles of lines 2, 3, 4 do not lie near a line and so few cannot tell which is wrong; measure them again, "
        "or bend at one more angle"
    )


def test_nothing_left(bare: MachineProfile) -> None:
    bends = [replace(bend, restruck=True) for bend in trial_bends(Shop(), (30.0, 60.0))]
    lesson = lesson_of(bends, bare)
    assert (lesson.refusal, len(lesson.left_out)) == ("no bend is left to learn from", 2)


def test_cautions(bare: MachineProfile) -> None:
    perforated = replace(KIND, perforated=True)
    bends = [
        TrialBend(line=2, kind=perforated, commanded_deg=30.0, measured_deg=30.5),
        TrialBend(line=3, kind=perforated, commanded_deg=60.0, measured_deg=60.1, feed=100.0),
    ]
    assert lesson_of(bends, bare).cautions == (
        "line 2: measured 30.5°, above the command of 30°: the bend closed on release, or the columns are swapped",
        "line 3: measured 60.1°, above the command of 60°: the bend closed on release, or the columns are swapped",
        "line 3: a feed without a front leg tells no setback radius",
        "the table has no proven_angle: add the largest angle at which no hole tore",
    )


def test_several_kinds_in_one_file_make_a_table_each(bare: MachineProfile) -> None:
    bends = angles_only(trial_bends(Shop(), (30.0, 90.0)))
    annealed = [replace(bend, line=9, kind=replace(KIND, temper="annealed")) for bend in bends]
    shouted = [replace(bend, line=7, kind=replace(KIND, material="304l")) for bend in bends]
    first, second = learn_trials([*bends, *annealed, *shouted], bare, SOURCE)
    assert (first.bends, first.kind.temper, second.bends, second.kind.temper) == (4, None, 2, "annealed")


def test_mixed_lots_and_near_walls_are_bad_input(bare: MachineProfile) -> None:
    bends = angles_only(trial_bends(Shop(), (30.0, 60.0, 90.0, 120.0)))
    mixed = [replace(bends[0], lot="7731"), replace(bends[1], lot="7802"), replace(bends[2], lot="7731")]
    near = replace(bends[3], kind=replace(KIND, wall=1.52))
    with pytest.raises(InputError) as caught:
        learn_trials([*mixed, near], bare, SOURCE)
    assert str(caught.value).splitlines() == [
        "trials.csv: line 5, column wall: expected 1.5 mm, as in line 2: one table takes both, found 1.52 mm",
        "trials.csv: line 3, column lot: expected the lot of line 2, one lot to a table (give each lot a file of its "
        "own, or leave the column empty for a table that stands for all lots), found lot '7731' and lot '7802'",
    ]


def test_one_bend_of_a_new_lot_shifts_the_newest_table(metric_profile: MachineProfile) -> None:
    bend = TrialBend(line=2, kind=KIND, lot="7802", commanded_deg=93.0, measured_deg=90.0)
    lesson = lesson_of([bend], metric_profile)
    assert lesson.shift is not None
    assert lesson.table is not None
    assert lesson.shift.shift_deg == pytest.approx(0.3)
    assert [row.springback_deg for row in lesson.table.rows] == pytest.approx([1.4, 2.2, 3.0, 3.8])
    assert [row.elongation for row in lesson.table.rows] == [1.3, 2.6, 4.0, 5.3]
    assert (lesson.table.lot, lesson.table.issued) == ("7802", SOURCE.issued)
    assert lesson.table.source == (
        "trial bends: trials.csv shifts tables/d50-r100_304l_1.5_2026-03-14.toml by +0.30° of springback, the "
        "difference at 90.0°"
    )


def test_a_shift_winds_more_arc_where_the_table_has_radii(metric_profile: MachineProfile) -> None:
    base = metric_profile.tables[0]
    rows = tuple(replace(row, clr=100.0 + 200.0 / row.angle_deg, bends=4, spread_deg=0.1) for row in base.rows)
    profile = replace(metric_profile, tables=(replace(base, rows=rows),))
    bend = TrialBend(line=2, kind=KIND, lot="7802", commanded_deg=93.0, measured_deg=90.0)
    table = lesson_of([bend], profile).table
    assert table is not None
    for before, after in zip(rows, table.rows, strict=True):
        assert before.clr is not None
        assert after.clr is not None
        assert (after.clr - before.clr) * after.angle_deg == pytest.approx(100.0 * 0.3, abs=0.1)
        assert (after.bends, after.spread_deg) == (None, 0.1)


def test_a_shift_beyond_the_rows_is_less_certain(metric_profile: MachineProfile) -> None:
    bend = TrialBend(line=2, kind=KIND, lot="7802", commanded_deg=154.4, measured_deg=150.0)
    assert lesson_of([bend], metric_profile).cautions == (
        "150.0° lies beyond the rows of tables/d50-r100_304l_1.5_2026-03-14.toml: the shift is less certain",
    )


FILE = "tables/d50-r100_304l_1.5_2026-03-14.toml"
ONE_COMMAND = "all bends have one command, 93°: a table needs two different angles or more"


@pytest.mark.parametrize(
    ("lot", "measured", "issued", "refusal"),
    [
        (None, 90.0, SOURCE.issued, f"{ONE_COMMAND}; to shift {FILE} by them, name their lot"),
        ("7731", 90.0, SOURCE.issued, f"{ONE_COMMAND}, and lot '7731' has {FILE} already"),
        (
            "7802",
            81.0,
            SOURCE.issued,
            f"the bend at 81.0° springs back by 12.00°, {FILE} says 2.46°: no lot differs by more than 2.46°, "
            "measure it again",
        ),
        (
            "7802",
            90.0,
            date(2026, 3, 14),
            f"{FILE} is issued 2026-03-14, too, and no part could choose: give another --date",
        ),
    ],
)
def test_single_angles_that_shift_nothing(
    lot: str | None, measured: float, issued: date, refusal: str, metric_profile: MachineProfile
) -> None:
    bend = TrialBend(line=2, kind=KIND, lot=lot, commanded_deg=93.0, measured_deg=measured)
    (lesson,) = learn_trials([bend], metric_profile, TrialSource(file="trials.csv", issued=issued))
    assert (lesson.table, lesson.refusal) == (None, refusal)


def test_a_single_angle_without_any_table(bare: MachineProfile) -> None:
    bend = TrialBend(line=2, kind=KIND, lot="7802", commanded_deg=93.0, measured_deg=90.0)
    assert lesson_of([bend], bare).refusal == ONE_COMMAND
