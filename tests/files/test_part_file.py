"""Parts that are read: every key, in mm and degrees."""

import tomllib
from pathlib import Path

import pytest

from bendgen.errors import InputError
from bendgen.files.part_file import parse_part, read_part
from bendgen.records.machine import ShapeLimits
from bendgen.records.part import Centreline, EndFit, Part, PipingCode, Tolerance, Vertex, WantedBend, WantedSteps
from bendgen.records.tube import Perforation, Tube

# Invented, as are all values here.
FULL_PART = """
units = "in"
[part]
name = "Diffuser drop, ø 2"
number = "GD-301"
revision = "C"
quantity = 3
die = "2in-r4"
trim = "front"
front_trim = 1
blank = "5' 6 1/2\\""
[tube]
od = 2
wall = 0.065
material = "304L"
perforated = true
lot = "7731"
temper = "annealed"
seam = 90
[tube.perforation]
hole = "1/8"
pitch = "3/16"
pattern = "60"
plain_front = 2
plain_rear = "50.8 mm"
[centreline]
vertices = [[0, 0, 0], ["10 1/2", 0, 0, 4], [10.5, "-6", 0], [10.5, -6, 10]]
merge_below = 0.5
[tolerance]
length = "1/32"
angle = 0.25
offset = 0.05
[limits]
thinning = 20
wall_factor = 40
"""

MINIMAL_PART = """
units = "mm"
[part]
name = "Guard stay"
number = "GD-9"
revision = "A"
quantity = 1
[tube]
od = 38
wall = 1.5
material = "304L"
[steps]
rear = 140
bend = [{ straight = 120, rotation = 0, angle = 90 }, { straight = 0, rotation = 180, angle = 200.0, clr = 57 }]
"""


def test_every_key_of_a_part_in_inches() -> None:
    assert parse_part(tomllib.loads(FULL_PART), "a.toml") == Part(
        name="Diffuser drop, ø 2",
        number="GD-301",
        revision="C",
        quantity=3,
        units="in",
        die="2in-r4",
        trim="front",
        front_trim=25.4,
        blank=1689.1,
        tube=Tube(
            od=50.8,
            wall=1.651,
            material="304L",
            perforated=True,
            temper="annealed",
            lot="7731",
            seam_deg=90.0,
            perforation=Perforation(hole=3.175, pitch=0.1875 * 25.4, pattern="60", plain_front=50.8, plain_rear=50.8),
        ),
        centreline=Centreline(
            vertices=(
                Vertex(x=0.0, y=0.0, z=0.0),
                Vertex(x=266.7, y=0.0, z=0.0, clr=101.6),
                Vertex(x=266.7, y=-152.39999999999998, z=0.0),
                Vertex(x=266.7, y=-152.39999999999998, z=254.0),
            ),
            merge_below_deg=0.5,
        ),
        tolerance=Tolerance(length=0.79375, angle_deg=0.25, offset=1.27, source="part"),
        limits=ShapeLimits(thinning_percent=20.0, wall_factor=40.0),
    )


def test_a_part_with_no_optional_key() -> None:
    assert parse_part(tomllib.loads(MINIMAL_PART), "a.toml") == Part(
        name="Guard stay",
        number="GD-9",
        revision="A",
        quantity=1,
        units="mm",
        tube=Tube(od=38.0, wall=1.5, material="304L"),
        steps=WantedSteps(
            bends=(
                WantedBend(straight=120.0, rotation_deg=0.0, angle_deg=90.0),
                WantedBend(straight=0.0, rotation_deg=180.0, angle_deg=200.0, clr=57.0),
            ),
            rear=140.0,
        ),
    )


def test_a_tolerance_class_in_place_of_numbers() -> None:
    part = parse_part(tomllib.loads(MINIMAL_PART + '[tolerance]\niso2768 = "m"\noffset = 2\n'), "a.toml")
    assert part.tolerance == Tolerance(iso2768="m", offset=2.0, source="part")


def test_two_vertices_are_a_blank() -> None:
    text = MINIMAL_PART[: MINIMAL_PART.index("[steps]")] + "[centreline]\nvertices = [[0, 0, 0], [0, 0, 500]]\n"
    part = parse_part(tomllib.loads(text), "a.toml")
    assert part.centreline == Centreline(vertices=(Vertex(x=0.0, y=0.0, z=0.0), Vertex(x=0.0, y=0.0, z=500.0)))


def test_a_turn_just_short_of_straight_back_is_read() -> None:
    # 100 mm back, 0.001 mm aside: the turn is 180° less 0.001/100 rad = 0.00057°
    text = MINIMAL_PART[: MINIMAL_PART.index("[steps]")]
    text += "[centreline]\nvertices = [[0, 0, 0], [100, 0, 0], [0, 0.001, 0]]\n"
    part = parse_part(tomllib.loads(text), "a.toml")
    assert part.centreline is not None
    assert len(part.centreline.vertices) == 3


def test_no_trim_at_a_forbidden_end_may_be_said() -> None:
    text = MINIMAL_PART.replace("quantity = 1", 'quantity = 1\ntrim = "none"\nfront_trim = 0\nrear_trim = 0')
    part = parse_part(tomllib.loads(text), "a.toml")
    assert (part.trim, part.front_trim, part.rear_trim) == ("none", 0.0, 0.0)


def test_the_file_is_named_as_the_user_gave_it(tmp_path: Path) -> None:
    path = tmp_path / "part.toml"
    path.write_text(MINIMAL_PART.replace("od = 38", "od = 0"))
    with pytest.raises(InputError) as raised:
        read_part(path)
    assert str(raised.value) == f"{path}: tube.od: expected a number greater than 0, found 0"
    path.write_text(MINIMAL_PART)
    assert read_part(path).tube.od == 38.0


def test_ends_and_code_in_the_unit_of_the_file() -> None:
    ends = '[ends]\nfront = { kind = "sized", straight = "1 1/2" }\nrear = { kind = "plain", straight = 2 }\n'
    code = '[code]\nrule = "B31.1"\nminimum_wall = 0.05\n'
    part = parse_part(tomllib.loads(FULL_PART + ends + code), "part.toml")
    assert part.front_fit == EndFit(kind="sized", straight=1.5 * 25.4)
    assert part.rear_fit == EndFit(kind="plain", straight=2.0 * 25.4)
    assert part.code == PipingCode(rule="B31.1", minimum_wall=0.05 * 25.4)


def test_no_ends_and_no_code_unless_named() -> None:
    part = parse_part(tomllib.loads(FULL_PART), "part.toml")
    assert (part.front_fit, part.rear_fit, part.code) == (None, None, None)


DECIMAL_COMMAS = """
units = "mm"
[part]
name = "Dryer pipe [1,2, 3] (invented)"
number = "SH-1"
revision = "A"
quantity = 1
[tube]
od = 50
wall = 1.5
material = "304L"
[centreline] # [1,2, 3]
vertices = [[0, 0, 0], [330,5, 0, 100], [330, 340, 0], [330, 340, 420]]
"""


def test_a_decimal_comma_that_would_pass_as_a_clr(tmp_path: Path) -> None:
    part = tmp_path / "part.toml"
    part.write_text(DECIMAL_COMMAS, encoding="utf-8")
    with pytest.raises(InputError) as refused:
        read_part(part)
    expected = "expected a decimal point, not a comma, or the same space behind every comma"
    assert str(refused.value) == f"{part}: line 13: {expected}, found [330,5, 0, 100]"


@pytest.mark.parametrize(
    "vertex", ["[330, 0, 0, 100]", "[330,0,0,100]", "[330.5,0, 0, 100]", "[330,0.5, 0, 100]", "[330 ,0 ,0 ,100]"]
)
def test_commas_that_stand_between_numbers(tmp_path: Path, vertex: str) -> None:
    part = tmp_path / "part.toml"
    part.write_text(DECIMAL_COMMAS.replace("[330,5, 0, 100]", vertex), encoding="utf-8")
    centreline = read_part(part).centreline
    assert centreline is not None
    assert centreline.vertices[1].clr == 100.0
