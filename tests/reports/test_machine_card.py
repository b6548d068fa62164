from dataclasses import replace
from datetime import date

import pytest

from bendgen.records.allowances import AllowanceRow, AllowanceTable, MaterialData
from bendgen.records.machine import Carriage, MachineProfile, RotationAxis, ShapeLimits
from bendgen.records.tooling import ContourClamp, DieSet
from bendgen.reports.machine_card import machine_card
from bendgen.reports.text_table import display_width


def section(card: str, title: str) -> str:
    """Text of one section, spaces and line ends made single spaces."""
    found = [part for part in card.split("\n\n") if part.startswith(title)]
    assert len(found) == 1
    return " ".join(found[0].split())


def test_the_sections_in_order(metric_profile: MachineProfile) -> None:
    titles = [part.splitlines()[0] for part in machine_card(metric_profile).split("\n\n")]
    assert titles == [
        "Bay 2 mandrel bender",
        "Which way the die draws",
        "Which way the tube turns",
        "What its steps say",
        "What the feed number means",
        "Limits",
        "Die sets (lengths in millimetres; - is not given, so not checked)",
        "Tables from trial bends (wall in millimetres)",
        "Materials for estimates",
        "Cautions",
        f"sha256 of the profile's files: {'0' * 64}",
    ]


def test_columns_stand_in_the_machine_s_order_under_its_headings(inch_profile: MachineProfile) -> None:
    card = machine_card(inch_profile)
    lines = next(part for part in card.split("\n\n") if part.startswith("What its steps say")).splitlines()[3:]
    assert [line.split()[0] for line in lines] == ["line", "tool", "degrees", "turn", "stop"]
    assert [line.split()[-1] for line in lines] == ["bend", "use", "deg", "deg", "in"]
    assert "the position of the collet" in lines[3]


def test_limits_in_the_unit_of_the_profile(metric_profile: MachineProfile, inch_profile: MachineProfile) -> None:
    metric, inch = (section(machine_card(profile), "Limits") for profile in (metric_profile, inch_profile))
    assert "collet face to tangent line, farthest 3100 mm" in metric
    assert "collet face to tangent line, farthest 122.047 in" in inch  # 3100 / 25.4
    assert "bend 0.5° to 195° " in metric
    assert "bend to 190° " in inch


def test_what_is_not_given_is_said_to_be_not_checked(metric_profile: MachineProfile) -> None:
    profile = replace(
        metric_profile,
        carriage=Carriage(travel=3100.0, closest=240.0, grip=60.0),
        rotation=RotationAxis(resolution_deg=0.1, repeatability_deg=0.05),
    )
    limits = section(machine_card(profile), "Limits")
    for name in (
        "rotation, position of the collet",
        "tube axis above the floor",
        "wall thinning",
        "wall factor (OD / wall)",
    ):
        assert f"{name} not given, so not checked" in limits


def test_the_operator_s_own_place_is_told_or_said_to_be_unknown(metric_profile: MachineProfile) -> None:
    assert "place: not told, so not marked in the pictures of the steps." in machine_card(metric_profile)
    on_the_left = replace(metric_profile, operator_stands="left")
    assert "The operator's own place: on the left, seen from the carriage." in machine_card(on_the_left)


def test_what_is_given_is_shown(metric_profile: MachineProfile) -> None:
    carriage = replace(metric_profile.carriage, open_before_last=True, last_rear=30.0, regrip=True, load_at=12.5)
    profile = replace(
        metric_profile,
        carriage=carriage,
        blank=replace(metric_profile.blank, resolution=1.0),
        limits=ShapeLimits(thinning_percent=25.0, wall_factor=60.0),
    )
    limits = section(machine_card(profile), "Limits")
    assert "collet opens before the last bend yes, with 30 mm of straight behind it" in limits
    assert "collet may take a second hold yes" in limits
    assert "front end past the tangent line at loading 12.5 mm" in limits
    assert "saw stop every 1 mm" in limits
    assert "wall thinning at most 25 %" in limits
    assert "wall factor (OD / wall) at most 60" in limits


def test_a_die_set_with_everything(metric_profile: MachineProfile) -> None:
    contour = ContourClamp(shortest_between=12.0, before_angle_deg=(85.0, 95.0), rotation_deg=(0.0, 180.0))
    profile = replace(metric_profile, dies=(replace(metric_profile.dies[0], contour=contour),))
    dies = section(machine_card(profile), "Die sets")
    assert "d50-r100 50 100 110 2° to 184° 200 330 35 1.2 to 2 38 lower" in dies
    assert "d50-r100 set-up: invented: wiper 50/100, ball mandrel 46.8 with two balls" in dies
    assert (
        "d50-r100 contoured clamp: holds on a bend before of 85° to 95° (commanded), 12 mm or more between the two, "
        "rotation 0° or 180°"
    ) in dies


def test_a_die_set_with_the_least(metric_profile: MachineProfile) -> None:
    bare = DieSet(id="d50-r100", tube_od=50.0, clr=100.0, clamp=110.0, largest_bend_deg=184.0)
    dies = section(machine_card(replace(metric_profile, dies=(bare,))), "Die sets")
    assert dies.endswith("d50-r100 50 100 110 to 184° - - - - - -")


def test_tables_and_the_die_sets_without_one(metric_profile: MachineProfile) -> None:
    perforated = AllowanceTable(
        file="tables/perforated.toml",
        die="d50-r100",
        material="304L",
        wall=1.5,
        perforated=True,
        source="invented holes",
        issued=date(2026, 3, 16),
        rows=(
            AllowanceRow(angle_deg=30.0, springback_deg=1.9, clr=103.0),
            AllowanceRow(angle_deg=60.0, springback_deg=2.8, clr=102.0),
        ),
        temper="annealed",
        proven_angle_deg=60.0,
    )
    profile = replace(
        metric_profile,
        dies=(*metric_profile.dies, replace(metric_profile.dies[0], id="d42-r65")),
        tables=(*metric_profile.tables, perforated),
    )
    tables = section(machine_card(profile), "Tables from trial bends")
    assert "1 d50-r100 304L 1.5 plain 30° to 120° 4 elongation 2026-03-14 7731 -" in tables
    assert "2 d50-r100 304L 1.5 perforated to 60° 30° to 60° 2 CLR 2026-03-16 - annealed" in tables
    assert "2 tables/perforated.toml invented holes" in tables
    assert tables.endswith("Die sets without a table, good for trial pieces only: d42-r65")


def test_materials(metric_profile: MachineProfile) -> None:
    steel = MaterialData(
        file="materials/mild_steel.toml",
        material="Mild steel",
        source="invented",
        issued=date(2026, 1, 5),
        youngs_modulus_mpa=205000.0,
        strength_coefficient_mpa=540.0,
        hardening_exponent=0.21,
    )
    materials = section(machine_card(replace(metric_profile, materials=(steel,))), "Materials")
    assert "Mild steel 205000 540 0.21 2026-01-05 materials/mild_steel.toml" in materials


def test_a_machine_without_tooling(metric_profile: MachineProfile) -> None:
    card = machine_card(replace(metric_profile, dies=(), tables=(), materials=()))
    assert section(card, "Tables from trial bends").endswith("none")
    assert section(card, "Materials").endswith("none")


def test_cautions_come_before_what_is_never_checked(metric_profile: MachineProfile) -> None:
    cautions = section(machine_card(metric_profile, ["tables/a.toml: springback falls"]), "Cautions")
    assert cautions.startswith("Cautions tables/a.toml: springback falls not checked: contact with die")


@pytest.mark.parametrize("name", ["משקה 2", "管曲げ機", "e\u0301tabli"])
def test_the_line_below_the_name_is_as_wide_as_the_name(metric_profile: MachineProfile, name: str) -> None:
    title, rule = machine_card(replace(metric_profile, name=name)).splitlines()[:2]
    assert title == name
    assert rule == "=" * display_width(name)


def test_no_line_ends_with_a_space_and_none_shows_python(
    metric_profile: MachineProfile, inch_profile: MachineProfile
) -> None:
    for profile in (metric_profile, inch_profile):
        card = machine_card(profile)
        assert not any(line != line.rstrip() for line in card.splitlines())
        assert not any(word in card for word in ("None", "nan", "-0 ", "True", "False"))
        assert card.endswith("\n")
