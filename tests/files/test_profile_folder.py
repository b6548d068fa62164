"""Machine profiles that are read: every key, in mm and degrees; which files count, and their digest."""

import hashlib
from datetime import date
from pathlib import Path

import pytest

from bendgen.files.profile_folder import check_profile, read_profile
from bendgen.records.allowances import AllowanceRow, AllowanceTable, MaterialData
from bendgen.records.machine import (
    BendAxis,
    BlankLimits,
    Carriage,
    FeedAxis,
    MachineProfile,
    OutputForm,
    RotationAxis,
    ShapeLimits,
)
from bendgen.records.tooling import ContourClamp, DieSet

Texts = dict[str, str]

PROFILES = Path(__file__).parents[2] / "machine_profiles"

# Invented, as are all values here.
FULL_MACHINE = """
units = "in"
name = "Bay 5 bender"
[bend]
side = "right"
smallest = 0.5
largest = 190
resolution = 0.5
repeatability = 0.1
[rotation]
resolution = 0.5
repeatability = 0.1
range = [-360, 360]
[feed]
resolution = 0.001
repeatability = 0
smallest = 0
largest = 80
[carriage]
travel = 120
closest = "9 1/2"
grip = 2
load_at = -1
open_before_last = true
last_rear = "1 1/4"
regrip = true
centre_height = "3' 6\\""
[blank]
shortest = 10
longest = 240
resolution = "1/16"
[output]
units = "mm"
feed = "carriage"
rotation = "absolute"
rotation_positive = "counterclockwise_from_carriage"
columns = ["number", "die", "bend"]
headings = ["line", "tool", "degrees"]
[limits]
thinning = 25
wall_factor = 60
"""

FULL_DIE = """
units = "in"
id = "2in-r4"
tube_od = 2
clr = 4
clamp = "4 1/2"
largest_bend = 184
smallest_bend = 2
pressure_die = 12
pressure_travel = 13
mandrel_ahead = 0
walls = [0.05, "5/64"]
stack = "lower"
sleeve = "1-1/2"
set_up = "wiper 2/4, invented"
[contour]
shortest_between = "1/2"
before_angle = [85, 95]
rotation = [0, 180]
"""

FULL_TABLE = """
units = "in"
die = "2in-r4"
material = "304L"
wall = 0.065
perforated = true
source = "invented trial bends"
issued = 2026-03-14
lot = "7731"
temper = "annealed"
proven_angle = 60
[[row]]
angle = 30
springback = 1.5
elongation = -0.01
clr = 4.1
bends = 4
spread = 0.06
[[row]]
angle = 60
springback = 2
elongation = 0.1
clr = 4.15
"""


def write_files(folder: Path, texts: dict[str, str]) -> Path:
    for file, text in texts.items():
        (folder / file).parent.mkdir(parents=True, exist_ok=True)
        (folder / file).write_bytes(text.encode())
    return folder


def test_every_key_of_a_profile_in_inches(tmp_path: Path) -> None:
    texts = {"machine.toml": FULL_MACHINE, "dies/a.toml": FULL_DIE, "tables/b.toml": FULL_TABLE}
    profile = read_profile(write_files(tmp_path, texts))
    assert profile == MachineProfile(
        name="Bay 5 bender",
        units="in",
        sha256=profile.sha256,
        bend=BendAxis(side="right", largest_deg=190.0, resolution_deg=0.5, repeatability_deg=0.1, smallest_deg=0.5),
        rotation=RotationAxis(resolution_deg=0.5, repeatability_deg=0.1, range_deg=(-360.0, 360.0)),
        feed=FeedAxis(resolution=0.0254, repeatability=0.0, smallest=0.0, largest=2032.0),
        carriage=Carriage(
            travel=3048.0,
            closest=9.5 * 25.4,
            grip=50.8,
            load_at=-25.4,
            open_before_last=True,
            last_rear=31.75,
            regrip=True,
            centre_height=42 * 25.4,
        ),
        blank=BlankLimits(shortest=254.0, longest=6096.0, resolution=1.5875),
        output=OutputForm(
            units="mm",
            feed="carriage",
            rotation="absolute",
            rotation_positive="counterclockwise_from_carriage",
            columns=("number", "die", "bend"),
            headings=("line", "tool", "degrees"),
        ),
        limits=ShapeLimits(thinning_percent=25.0, wall_factor=60.0),
        dies=(
            DieSet(
                id="2in-r4",
                tube_od=50.8,
                clr=101.6,
                clamp=4.5 * 25.4,
                largest_bend_deg=184.0,
                smallest_bend_deg=2.0,
                pressure_die=12 * 25.4,
                pressure_travel=13 * 25.4,
                mandrel_ahead=0.0,
                walls=(0.05 * 25.4, 0.078125 * 25.4),
                stack="lower",
                sleeve=1.5 * 25.4,
                set_up="wiper 2/4, invented",
                contour=ContourClamp(shortest_between=12.7, before_angle_deg=(85.0, 95.0), rotation_deg=(0.0, 180.0)),
            ),
        ),
        tables=(
            AllowanceTable(
                file="tables/b.toml",
                die="2in-r4",
                material="304L",
                wall=0.065 * 25.4,
                perforated=True,
                source="invented trial bends",
                issued=date(2026, 3, 14),
                lot="7731",
                temper="annealed",
                proven_angle_deg=60.0,
                rows=(
                    AllowanceRow(
                        angle_deg=30.0,
                        springback_deg=1.5,
                        elongation=-0.254,
                        clr=4.1 * 25.4,
                        bends=4,
                        spread_deg=0.06,
                    ),
                    AllowanceRow(angle_deg=60.0, springback_deg=2.0, elongation=2.54, clr=4.15 * 25.4),
                ),
            ),
        ),
    )


def test_a_profile_with_no_optional_key(tmp_path: Path, profile_texts: Texts) -> None:
    profile = read_profile(write_files(tmp_path, profile_texts))
    assert profile.carriage == Carriage(travel=3100.0, closest=240.0, grip=60.0)
    assert profile.limits == ShapeLimits()
    assert profile.output.headings == profile.output.columns == ("number", "feed", "rotation", "bend")
    assert profile.dies == (DieSet(id="d50-r100", tube_od=50.0, clr=100.0, clamp=110.0, largest_bend_deg=184.0),)
    assert [row.clr for row in profile.tables[0].rows] == [None, None, None]
    assert profile.materials == (
        MaterialData(
            file="materials/304l.toml",
            material="304L",
            source="invented",
            issued=date(2026, 1, 5),
            youngs_modulus_mpa=193000.0,
            strength_coefficient_mpa=1250.0,
            hardening_exponent=0.43,
        ),
    )


def test_tables_and_materials_may_be_missing(tmp_path: Path, profile_texts: Texts) -> None:
    texts = {file: text for file, text in profile_texts.items() if not file.startswith(("tables", "materials"))}
    profile = read_profile(write_files(tmp_path, texts))
    assert (profile.tables, profile.materials) == ((), ())


def test_dies_come_in_the_order_of_their_files(tmp_path: Path, profile_texts: Texts) -> None:
    die = profile_texts["dies/d50-r100.toml"]
    more = {f"dies/{name}.toml": die.replace("d50-r100", name) for name in ("z", "B", "a")}
    assert [die.id for die in read_profile(write_files(tmp_path, {**profile_texts, **more})).dies] == [
        "B",
        "a",
        "d50-r100",
        "z",
    ]


def test_digest_is_that_of_paths_and_bytes(tmp_path: Path, profile_texts: Texts) -> None:
    content = b"".join(
        file.encode() + b"\0" + str(len(text.encode())).encode() + b"\0" + text.encode()
        for file, text in sorted(profile_texts.items())
    )
    assert read_profile(write_files(tmp_path, profile_texts)).sha256 == hashlib.sha256(content).hexdigest()


@pytest.mark.parametrize(
    "file", ["notes.txt", "old.toml", "dies/old.txt", "dies/.d50.toml", "dies/old/d50.toml", "programs/a.toml"]
)
def test_other_files_are_ignored(tmp_path: Path, profile_texts: Texts, file: str) -> None:
    before = read_profile(write_files(tmp_path, profile_texts))
    assert read_profile(write_files(tmp_path, {file: "no TOML at all ["})) == before


def test_digest_changes_with_a_comment_and_with_a_name(tmp_path: Path, profile_texts: Texts) -> None:
    digest = read_profile(write_files(tmp_path / "a", profile_texts)).sha256
    commented = {**profile_texts, "machine.toml": profile_texts["machine.toml"] + "# serviced\n"}
    assert read_profile(write_files(tmp_path / "b", commented)).sha256 != digest
    renamed = {file.replace("304l", "304-l"): text for file, text in profile_texts.items()}
    assert read_profile(write_files(tmp_path / "c", renamed)).sha256 != digest


def test_a_check_counts_and_cautions(tmp_path: Path, profile_texts: Texts) -> None:
    table = profile_texts["tables/d50-r100_304l.toml"]
    texts = {**profile_texts, "tables/fall.toml": table.replace("3.5", "2.5"), "tables/bad.toml": "wall = 0"}
    check = check_profile(write_files(tmp_path, texts))
    assert check.profile is None
    assert (check.dies, check.tables, check.materials) == (1, 3, 1)
    assert {mistake.file for mistake in check.mistakes} == {"tables/bad.toml"}
    assert [str(caution) for caution in check.cautions] == [
        "tables/fall.toml: row[3].springback: springback falls by 0.2 from row 2 to 3, with no spread given"
    ]


def test_a_check_of_a_sound_profile_holds_it(tmp_path: Path, profile_texts: Texts) -> None:
    check = check_profile(write_files(tmp_path, profile_texts))
    assert (check.mistakes, check.cautions) == ((), ())
    assert check.profile == read_profile(tmp_path)


@pytest.mark.parametrize("folder", sorted(PROFILES.iterdir()), ids=lambda folder: folder.name)
def test_the_profiles_that_come_along_are_sound(folder: Path) -> None:
    check = check_profile(folder)
    assert check.mistakes == ()
    assert check.cautions == ()
