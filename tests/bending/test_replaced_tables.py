"""A new table beside those it replaces: what they hold and it does not is told."""

from dataclasses import replace
from datetime import date

import pytest

from bendgen.bending.replaced_tables import with_losses
from bendgen.records.allowances import AllowanceRow, AllowanceTable
from bendgen.records.machine import MachineProfile
from bendgen.records.trials import Lesson, TubeKind

KIND = TubeKind(die="d50-r100", material="304L", wall=1.5, perforated=False)
NEW = AllowanceTable(
    file="tables/new.toml",
    die="d50-r100",
    material="304L",
    wall=1.5,
    perforated=False,
    source="trial bends: angles.csv",
    issued=date(2026, 5, 1),
    rows=(AllowanceRow(angle_deg=60.0, springback_deg=2.0), AllowanceRow(angle_deg=90.0, springback_deg=3.0)),
)


def row(angle: float, elongation: float | None, clr: float | None = None) -> AllowanceRow:
    return AllowanceRow(angle_deg=angle, springback_deg=angle / 30.0, elongation=elongation, clr=clr)


OLD = replace(NEW, file="tables/old.toml", issued=date(2026, 3, 1), rows=(row(60.0, 2.0), row(90.0, 3.0)))


def losses(new: AllowanceTable | None, *older: AllowanceTable, profile: MachineProfile) -> tuple[str, ...]:
    kind = replace(KIND, perforated=new.perforated) if new else KIND
    lesson = Lesson(kind=kind, lot=new.lot if new else None, bends=2, table=new)
    return with_losses(lesson, replace(profile, tables=older)).cautions


def test_elongation_of_the_older_table_is_told_at_the_angles_of_the_new_one(metric_profile: MachineProfile) -> None:
    assert losses(NEW, OLD, profile=metric_profile) == (
        "it takes the place of tables/old.toml, which holds elongation; without it blanks are sawn as if no bend "
        "gained length. To keep it, note feed, blank and both legs of trial bends, too, or add `elongation` to "
        "every row of the new file: the older one says 2 mm at 60.0°, 3 mm at 90.0°",
    )


def test_radii_of_the_older_table_are_moved_by_what_the_bends_spring_back_more(metric_profile: MachineProfile) -> None:
    older = replace(OLD, rows=(row(60.0, None, 103.0), row(90.0, None, 104.0)))
    softer = replace(NEW, rows=(replace(NEW.rows[0], springback_deg=2.6), NEW.rows[1]))
    (caution,) = losses(softer, older, profile=metric_profile)
    # By hand: 0.6° more on a die of CLR 100 is wound in addition, 103 + 100 · 0.6 / 60 = 104.
    assert caution.endswith(
        "add `clr` to every row of the new file: the older one says 104 mm at 60.0°, 104 mm at 90.0°"
    )


def test_angles_that_the_new_table_does_not_reach(metric_profile: MachineProfile) -> None:
    older = replace(OLD, rows=(row(15.0, None), row(150.0, None)))
    (caution,) = losses(NEW, older, profile=metric_profile)
    assert "holds angles from 15.0 to 150.0°; bends below 60.0° and above 90.0° are trial pieces from now on" in caution
    (caution,) = losses(NEW, replace(older, rows=(row(60.5, None), row(150.0, None))), profile=metric_profile)
    assert "bends above 90.0° are trial pieces" in caution


def test_the_largest_angle_proven_on_perforated_tube(metric_profile: MachineProfile) -> None:
    older = replace(OLD, perforated=True, rows=NEW.rows, proven_angle_deg=60.0)
    (caution,) = losses(replace(NEW, perforated=True), older, profile=metric_profile)
    assert caution.endswith("which holds proven_angle, 60°: add it to the new file, if it still holds")


@pytest.mark.parametrize(
    "other",
    [
        {"die": "d50-r75"},
        {"material": "316L"},
        {"wall": 2.0},
        {"perforated": True},
        {"temper": "annealed"},
        {"rows": NEW.rows},
    ],
)
def test_nothing_is_lost_with_a_table_of_another_tube_or_one_that_holds_no_more(
    other: dict[str, object], metric_profile: MachineProfile
) -> None:
    assert losses(NEW, replace(OLD, **other), profile=metric_profile) == ()  # type: ignore[arg-type]


def test_a_lot_is_held_against_its_own_older_table_too(metric_profile: MachineProfile) -> None:
    of_lot = replace(OLD, file="tables/lot.toml", lot="7731", issued=date(2026, 2, 1))
    plain = replace(OLD, rows=NEW.rows)
    (caution,) = losses(replace(NEW, lot="7731"), plain, of_lot, profile=metric_profile)
    assert caution.startswith("it takes the place of tables/lot.toml, which holds elongation")
    assert losses(replace(NEW, lot="7802"), plain, of_lot, profile=metric_profile) == ()


def test_a_table_older_than_the_newest_is_not_taken_by_parts(metric_profile: MachineProfile) -> None:
    later = replace(OLD, issued=date(2026, 6, 1))
    words = "go on using tables/old.toml: it is issued 2026-06-01, after this one"
    assert losses(NEW, later, profile=metric_profile) == (f"parts {words}",)
    lot = replace(NEW, lot="7802")
    assert losses(lot, later, profile=metric_profile) == (f"parts that do not name lot '7802' {words}",)


def test_without_a_table_nothing_is_replaced(metric_profile: MachineProfile) -> None:
    assert losses(None, OLD, profile=metric_profile) == ()
