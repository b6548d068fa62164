"""The two invented machines in `machine_profiles/`: sound, complete, and plausible."""

import tomllib
from collections.abc import Iterator, Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any, get_args

import pytest
from pydantic import BaseModel

from bendgen.bending.planning import plan_part
from bendgen.files.die_models import DieFile
from bendgen.files.machine_models import MachineFile
from bendgen.files.profile_folder import check_profile, read_profile
from bendgen.files.table_models import MaterialFile, TableFile
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part, WantedBend, WantedSteps
from bendgen.records.tube import Tube
from bendgen.units import RADIANS_PER_DEGREE

SAMPLES = Path(__file__).parents[2] / "machine_profiles"
FOLDERS = [SAMPLES / "bay2", SAMPLES / "bay5_inch"]
PROFILES = [pytest.param(read_profile(folder), id=folder.name) for folder in FOLDERS]


def sample_files(pattern: str) -> list[Path]:
    return sorted(path for folder in FOLDERS for path in folder.glob(pattern))


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_neither_mistakes_nor_cautions(folder: Path) -> None:
    found = check_profile(folder)
    assert (found.mistakes, found.cautions) == ((), ())


@pytest.mark.parametrize("path", sample_files("**/*.toml"), ids=lambda path: f"{path.parents[1].name}/{path.name}")
def test_every_file_says_that_it_is_invented(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.startswith("# Invented for the samples: ")
    assert "invented" in tomllib.loads(text).get("source", "invented")


@pytest.mark.parametrize(
    ("model", "pattern"),
    [
        (MachineFile, "machine.toml"),
        (DieFile, "dies/*.toml"),
        (TableFile, "tables/*.toml"),
        (MaterialFile, "materials/*.toml"),
    ],
)
def test_the_samples_use_every_key_there_is(model: type[BaseModel], pattern: str) -> None:
    used = {key for path in sample_files(pattern) for key in keys_in(tomllib.loads(path.read_text(encoding="utf-8")))}
    assert used == set(keys_of(model))


def keys_in(data: Mapping[str, Any]) -> Iterator[str]:
    for key, value in data.items():
        yield key
        for table in value if isinstance(value, list) else [value]:
            if isinstance(table, dict):
                yield from (f"{key}.{inner}" for inner in keys_in(table))


def keys_of(model: type[BaseModel]) -> Iterator[str]:
    for key, field in model.model_fields.items():
        yield key
        for table in tables_within(field.annotation):
            yield from (f"{key}.{inner}" for inner in keys_of(table))


def tables_within(annotation: Any) -> Iterator[type[BaseModel]]:  # noqa: ANN401 - types of types
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from tables_within(inner)


def test_the_samples_differ_where_machines_can_differ() -> None:
    metric, inch = (read_profile(folder) for folder in FOLDERS)
    assert (metric.units, metric.bend.side, metric.output.feed) == ("mm", "left", "incremental")
    assert (inch.units, inch.bend.side, inch.output.feed) == ("in", "right", "passed")
    assert metric.output.rotation_positive != inch.output.rotation_positive
    assert metric.output.columns != inch.output.columns


@pytest.mark.parametrize("profile", PROFILES)
def test_some_die_has_no_table_and_two_of_one_diameter_share_a_stack(profile: MachineProfile) -> None:
    assert {die.id for die in profile.dies} - {table.die for table in profile.tables}
    stacked = [die for die in profile.dies if die.stack]
    assert len({die.tube_od for die in stacked}) == len({die.stack for die in stacked}) == 1
    assert len({die.clr for die in stacked}) == 2


@pytest.mark.parametrize("profile", PROFILES)
def test_springback_rises_and_is_of_the_usual_size(profile: MachineProfile) -> None:
    for table in profile.tables:
        assert all(low.springback_deg < high.springback_deg for low, high in pairwise(table.rows))
        # Common practice, no source: thin stainless and mild steel tube opens by 1 to 4 degrees at a right angle.
        assert all(1.0 <= row.springback_deg <= 4.0 for row in table.rows if row.angle_deg == 90.0)


@pytest.mark.parametrize("profile", PROFILES)
def test_measured_setback_radii_nearly_keep_the_wound_arc(profile: MachineProfile) -> None:
    measured = [(row, profile.die(table.die).clr) for table in profile.tables for row in table.rows if row.clr]
    assert measured
    for row, die_clr in measured:
        wound = die_clr * (row.angle_deg + row.springback_deg)
        assert row.clr is not None
        assert row.clr > die_clr
        assert row.clr * row.angle_deg == pytest.approx(wound, rel=0.005)


@pytest.mark.parametrize("profile", PROFILES)
def test_elongation_is_a_few_per_cent_of_the_arc(profile: MachineProfile) -> None:
    gains = [
        row.elongation / (profile.die(table.die).clr * row.angle_deg * RADIANS_PER_DEGREE)
        for table in profile.tables
        for row in table.rows
        if row.elongation is not None
    ]
    assert gains
    assert -0.01 < min(gains) < max(gains) < 0.05


@pytest.mark.parametrize("bends", range(2, 7))
@pytest.mark.parametrize(
    ("folder", "die", "od", "wall"), [("bay2", "d50-r100", 50.0, 1.5), ("bay5_inch", "2in-r4", 50.8, 1.651)]
)
def test_an_ordinary_part_can_be_bent(folder: str, die: str, od: float, wall: float, bends: int) -> None:
    rotations = (0.0, 90.0, -90.0, 180.0, 60.0, -120.0)
    angles = (90.0, 45.0, 60.0, 30.0, 90.0, 20.0)
    straights = (220.0, 150.0, 180.0, 160.0, 200.0, 170.0)
    wanted = tuple(
        WantedBend(straight=straight, rotation_deg=rotation, angle_deg=angle)
        for straight, rotation, angle in list(zip(straights, rotations, angles, strict=True))[:bends]
    )
    part = Part(
        name="Dryer duct",
        number="GD-300",
        revision="A",
        quantity=1,
        units="mm",
        tube=Tube(od=od, wall=wall, material="304L"),
        steps=WantedSteps(bends=wanted, rear=250.0),
        die=die,
    )
    plan = plan_part(part, read_profile(SAMPLES / folder))
    assert [finding.text for finding in plan.findings if finding.level == "limit"] == []
    assert plan.program is not None
    assert plan.program.trial_piece == ()
    assert len(plan.program.machine_steps) == bends
