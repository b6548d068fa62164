"""Which die and which table: every choice and every refusal, word for word."""

from dataclasses import replace
from datetime import date

import pytest

from bendgen.bending.allowances import basis_at
from bendgen.bending.die_curves import table_and_curves
from bendgen.bending.planning import plan_part
from bendgen.bending.tooling import die_for_bend, material_for_tube, table_for_bend
from bendgen.errors import ToolingError
from bendgen.records.allowances import MaterialData
from bendgen.records.bend_program import Basis
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part
from bendgen.records.tooling import DieSet
from bendgen.records.tube import Tube

TUBE = Tube(od=50.0, wall=1.5, material="304L")


@pytest.fixture
def profile(metric_profile: MachineProfile) -> MachineProfile:
    """Two dies for 50 mm and one for 38."""
    (die,) = metric_profile.dies
    others = replace(die, id="d50-r75", clr=75.0), replace(die, id="d38-r57", tube_od=38.0, clr=57.0)
    return replace(metric_profile, dies=(die, *others))


def data(file: str, issued: date) -> MaterialData:
    return MaterialData(
        file=file,
        material="304L",
        source="invented",
        issued=issued,
        youngs_modulus_mpa=193000.0,
        strength_coefficient_mpa=1275.0,
        hardening_exponent=0.45,
    )


def with_tables(profile: MachineProfile, *kept: tuple[str, date, str | None]) -> MachineProfile:
    """The profile with copies of its table, each with a file, a date and a lot of its own."""
    (table,) = profile.tables
    return replace(
        profile, tables=tuple(replace(table, file=file, issued=issued, lot=lot) for file, issued, lot in kept)
    )


def test_the_named_die(profile: MachineProfile) -> None:
    assert die_for_bend(TUBE, profile, named="d50-r75").id == "d50-r75"
    assert die_for_bend(TUBE, profile, named="d38-r57").id == "d38-r57"  # its groove is another rule's business


def test_the_only_die_of_an_od_or_of_an_od_and_clr(profile: MachineProfile) -> None:
    assert die_for_bend(replace(TUBE, od=38.0), profile, named=None).id == "d38-r57"
    assert die_for_bend(TUBE, profile, named=None, clr=75.005).id == "d50-r75"


def test_a_clr_asked_for_goes_before_the_named_die(profile: MachineProfile) -> None:
    assert die_for_bend(TUBE, profile, named="d50-r100", clr=75.0).id == "d50-r75"
    assert die_for_bend(TUBE, profile, named="d50-r100", clr=100.0).id == "d50-r100"


def test_an_unknown_name(profile: MachineProfile) -> None:
    with pytest.raises(ToolingError) as refused:
        die_for_bend(TUBE, profile, named="d50-r90")
    known = "'d50-r100', 'd50-r75', 'd38-r57'"
    assert str(refused.value) == f"'Bay 2 mandrel bender' has no die set 'd50-r90'; it has {known}"


def test_more_than_one_serves(profile: MachineProfile) -> None:
    with pytest.raises(ToolingError) as refused:
        die_for_bend(TUBE, profile, named=None)
    assert str(refused.value) == (
        "more than one die set of 'Bay 2 mandrel bender' serves tube OD 50 mm: name the die, "
        "one of 'd50-r100' (CLR 100 mm), 'd50-r75' (CLR 75 mm)"
    )


def test_none_serves(profile: MachineProfile) -> None:
    with pytest.raises(ToolingError) as refused:
        die_for_bend(TUBE, profile, named=None, clr=90.0)
    assert str(refused.value) == (
        "no die set of 'Bay 2 mandrel bender' serves tube OD 50 mm and CLR 90 mm; it has 'd50-r100' (OD 50, CLR 100 mm)"
        ", 'd50-r75' (OD 50, CLR 75 mm), 'd38-r57' (OD 38, CLR 57 mm)"
    )


@pytest.mark.parametrize(
    ("tube", "serves"),
    [
        (TUBE, True),
        (replace(TUBE, material="304l"), True),
        (replace(TUBE, wall=1.529), True),  # within 2 % of the table's 1.5
        (replace(TUBE, wall=1.531), False),
        (replace(TUBE, material="316L"), False),
        (replace(TUBE, temper="annealed"), False),
        (replace(TUBE, perforated=True), False),
    ],
)
def test_a_table_serves_its_own_tube(metric_profile: MachineProfile, tube: Tube, serves: bool) -> None:  # noqa: FBT001
    (die,) = metric_profile.dies
    assert (table_for_bend(tube, die, metric_profile) is not None) is serves


def test_a_table_serves_its_own_die(metric_profile: MachineProfile) -> None:
    other: DieSet = replace(metric_profile.dies[0], id="other")
    assert table_for_bend(TUBE, other, metric_profile) is None


def test_the_lot_goes_before_the_newest(metric_profile: MachineProfile) -> None:
    (die,) = metric_profile.dies
    profile = with_tables(
        metric_profile,
        ("old", date(2025, 1, 1), "88"),
        ("new", date(2026, 1, 1), None),
        ("newer, another lot", date(2026, 2, 1), "99"),
    )

    def chosen(lot: str | None) -> str:
        table = table_for_bend(replace(TUBE, lot=lot), die, profile)
        assert table is not None
        return table.file

    assert chosen("88") == "old"
    assert chosen(None) == "newer, another lot"
    assert chosen("77") == "newer, another lot"


def test_a_tie_names_both_files(metric_profile: MachineProfile) -> None:
    (die,) = metric_profile.dies
    profile = with_tables(
        metric_profile, ("tables/a.toml", date(2026, 3, 14), None), ("tables/b.toml", date(2026, 3, 14), None)
    )
    with pytest.raises(ToolingError) as refused:
        table_for_bend(TUBE, die, profile)
    assert str(refused.value) == (
        "tables 'tables/a.toml' and 'tables/b.toml' serve this tube equally, both issued 2026-03-14: "
        "retire one or name a lot"
    )


def test_neither_table_nor_material(metric_profile: MachineProfile) -> None:
    (die,) = metric_profile.dies
    tube = replace(TUBE, material="316L", temper="hard", perforated=True)
    with pytest.raises(ToolingError) as refused:
        table_and_curves(tube, die, metric_profile)
    assert str(refused.value) == (
        "no springback table for die 'd50-r100', 316L hard, wall 1.5 mm, perforated, and no material data for '316L' "
        "to estimate from; tables of this die: 'tables/d50-r100_304l_1.5_2026-03-14.toml'"
    )
    with pytest.raises(ToolingError, match=r"tables of this die: none for this die$"):
        table_and_curves(TUBE, die, replace(metric_profile, tables=()))


def test_the_newest_material_data_serve_an_estimate(metric_profile: MachineProfile) -> None:
    old, new = data("materials/old.toml", date(2024, 1, 1)), data("materials/new.toml", date(2025, 1, 1))
    profile = replace(metric_profile, tables=(), materials=(new, old))
    assert material_for_tube(replace(TUBE, material="304l"), profile) == new
    table, curves = table_and_curves(TUBE, profile.dies[0], profile)
    assert table is None
    assert curves.estimated
    assert basis_at(curves, 90.0) == Basis(springback="estimated", formed_clr="estimated", elongation="not measured")


def test_an_estimate_makes_a_trial_piece(metric_profile: MachineProfile, dryer_part: Part) -> None:
    profile = replace(metric_profile, tables=(), materials=(data("materials/304l.toml", date(2025, 1, 1)),))
    program = plan_part(dryer_part, profile).program
    assert program is not None
    assert program.tables == ()
    assert program.trial_piece[0].startswith("bend 1: springback is estimated")
