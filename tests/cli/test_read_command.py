"""`bendgen read`, as somebody types it, and parts that take their axis from a file."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from bendgen.cli.app import app
from bendgen.errors import InputError
from bendgen.files.part_file import read_part
from bendgen.records.part import Centreline, Vertex, WantedBend, WantedSteps
from tests.sampled_axis import sampled_axis

BAY2 = Path(__file__).parents[2] / "machine_profiles" / "bay2"

# Invented, as are all values here.
S_BEND = """\
x_in;y_in;z_in;clr
38,5202;-14,0264;0;
45,3142;-14,0264;0;1
45,3142;-17,5214;0,9654;1
48,6822;-17,5214;0,9654;
"""
TUBE = ("--od", "1/2", "--wall", "0.049", "--material", "304L")

PART = """
units = "mm"
[part]
name = "Air duct"
number = "GD-1"
revision = "A"
quantity = 1
[tube]
od = 50
wall = 1.5
material = "304L"
[centreline]
from = "drawn/duct.csv"
"""


def read(*arguments: str) -> Result:
    return CliRunner().invoke(app, ["read", *arguments])


@pytest.fixture
def s_bend(tmp_path: Path) -> Path:
    path = tmp_path / "s.csv"
    path.write_text(S_BEND)
    return path


def test_what_was_understood(s_bend: Path) -> None:
    result = read(str(s_bend))
    assert (result.exit_code, result.stderr) == (0, "")
    assert (
        result.stdout
        == f"""\
{s_bend}: vertices in a CSV

unit       in, from the head row
numbers    between semicolons, with a decimal comma
tube OD    not in the file
wall       not in the file
front end  the file's first point, (38.520, -14.026, 0.000); with --from-rear the other one
CLR        in the file for every bend

bend   straight before [in]   rotation [°]   angle [°]   CLR [in]
----   --------------------   ------------   ---------   --------
   1                  5.794          0.000      90.000      1.000
   2                  1.626        180.000      90.000      1.000
rear                  2.368
"""
    )


def test_the_part_that_is_written_has_the_same_axis(s_bend: Path, tmp_path: Path) -> None:
    path = tmp_path / "s.toml"
    result = read(str(s_bend), *TUBE, "--write", str(path), "--number", "GD-2", "--revision", "A")
    assert result.stdout.splitlines()[-1] == (
        f'{path}: written; replace before a program is made of it: name = "Not named yet"'
    )
    part = read_part(path)
    assert (part.units, part.number, part.tube.od) == ("in", "GD-2", 12.7)
    assert isinstance(part.centreline, Centreline)
    ends = (part.centreline.vertices[0], part.centreline.vertices[-1])
    assert [(v.x, v.y, v.z, v.clr) for v in ends] == [
        (38.5202 * 25.4, -14.0264 * 25.4, 0.0, None),
        (48.6822 * 25.4, -17.5214 * 25.4, 0.9654 * 25.4, None),
    ]
    assert "    [45.3142, -14.0264, 0.0, 1.0],\n" in path.read_text()


def test_from_rear_makes_the_last_point_the_front_end(s_bend: Path, tmp_path: Path) -> None:
    path = tmp_path / "s.toml"
    result = read(str(s_bend), *TUBE, "--write", str(path), "--from-rear")
    assert "the file's last point, (48.682, -17.521, 0.965); without --from-rear the other one" in result.stdout
    part = read_part(path)
    assert part.centreline is not None
    assert part.centreline.vertices[0].x == 48.6822 * 25.4


def test_json_says_the_same_and_nothing_else(s_bend: Path, tmp_path: Path) -> None:
    part = tmp_path / "s.toml"
    result = read(str(s_bend), "--json", *TUBE, "--machine", str(BAY2), "--from-rear", "--write", str(part))
    assert result.exit_code == 0
    content = json.loads(result.stdout)
    assert (content["format"], content["units"], content["turned"]) == ("bendgen-tube", "in", True)
    assert [bend["clr"] for bend in content["bends"]] == [25.4, 25.4]
    assert content["remarks"] == ["No die set of 'Bay 2 mandrel bender' makes OD 0.5 in and CLR 1 in"]
    assert result.stderr.startswith(f"{part}: written; ")


def test_json_is_of_one_tube(s_bend: Path, tmp_path: Path) -> None:
    result = read(str(s_bend), "--json", "--each", str(tmp_path / "parts"))
    assert result.exit_code == 2
    assert "--each writes every tube of the file as it is: leave out --json" in result.stderr


def test_a_part_needs_its_tube(s_bend: Path, tmp_path: Path) -> None:
    result = read(str(s_bend), "--write", str(tmp_path / "s.toml"), "--od", "12.7 mm")
    assert result.exit_code == 2
    assert "a part file names its tube: say --wall, --material" in result.stderr
    assert not (tmp_path / "s.toml").exists()


def test_a_wall_that_is_none_names_its_option(s_bend: Path, tmp_path: Path) -> None:
    result = read(str(s_bend), "--write", str(tmp_path / "s.toml"), "--od", "1", "--wall", "2", "--material", "304L")
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == "--wall: expected a wall less than half of 'od', found 2.0\n"


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"", "expected columns of numbers between commas, semicolons or tabs, found nothing"),
        (
            b"PK\x03\x04\x14\x00\xff\xfe,;",
            "expected text, found a spreadsheet or another archive: save what it shows as CSV",
        ),
        (b"0,1,2\n" * 4_000_000, "expected at most 20 MB, found a larger file"),
        (b"0,1,2\n" * 300_001, "expected at most 300,000 lines, found more"),
    ],
    ids=["empty", "a zip renamed", "huge", "many lines"],
)
def test_what_is_no_list_of_points_is_one_line(content: bytes, message: str, tmp_path: Path) -> None:
    path = tmp_path / "a.csv"
    path.write_bytes(content)
    result = read(str(path))
    assert (result.exit_code, result.stdout, result.stderr) == (2, "", f"{path}: {message}\n")


def test_fitted_points_get_the_clr_of_a_die_set_and_make_a_part(tmp_path: Path) -> None:
    points = sampled_axis([300.0, 200.0, 350.0], [(0.0, 60.0, 100.0), (90.0, 45.0, 100.0)], 2.0, noise=0.02)
    path, part = tmp_path / "a.csv", tmp_path / "a.toml"
    path.write_text("x_mm,y_mm,z_mm\n" + "".join(f"{x:.4f},{y:.4f},{z:.4f}\n" for x, y, z in points))
    tube = ("--od", "50", "--wall", "1.5", "--material", "304L")
    result = read(str(path), "--points", "axis", *tube, "--machine", str(BAY2), "--write", str(part))
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.count("'d50-r100', CLR 100 mm, in place of the fitted CLR of ") == 2
    wish = read_part(part).centreline
    assert wish is not None
    assert [vertex.clr for vertex in wish.vertices] == [None, 100.0, 100.0, None]
    made = CliRunner().invoke(app, ["program", str(part), "--machine", str(BAY2), "--out", str(tmp_path), "--no-html"])
    assert made.exit_code == 0


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    result = read(str(tmp_path / "none.csv"))
    assert result.stderr == f"{tmp_path / 'none.csv'}: expected a file that shows a tube, found nothing\n"


@pytest.fixture
def part_file(tmp_path: Path) -> Path:
    (tmp_path / "drawn").mkdir()
    (tmp_path / "drawn" / "duct.csv").write_text("x,y,z\n0,0,0\n30,0,0\n30,22,0\n")
    return tmp_path / "part.toml"


def test_a_part_whose_axis_stands_in_another_file(part_file: Path) -> None:
    part_file.write_text(f'{PART}units = "cm"\nmerge_below = 0.5\n')
    assert read_part(part_file).centreline == Centreline(
        vertices=(Vertex(x=0.0, y=0.0, z=0.0), Vertex(x=300.0, y=0.0, z=0.0), Vertex(x=300.0, y=220.0, z=0.0)),
        merge_below_deg=0.5,
    )


def test_a_question_of_that_file_names_the_key_that_answers_it(part_file: Path) -> None:
    part_file.write_text(PART)
    with pytest.raises(InputError) as caught:
        read_part(part_file)
    assert str(caught.value) == (
        f"{part_file.parent / 'drawn' / 'duct.csv'}: line 3, column x: expected a unit in the head row, such as x_mm, "
        "or mm, cm, m, in or ft by the key 'units' beside 'from', found '30'"
    )


def test_mistakes_of_both_files_are_told_at_once(part_file: Path) -> None:
    part_file.write_text(PART.replace("quantity = 1", "quantity = 0").replace("duct.csv", "pipe.csv"))
    with pytest.raises(InputError) as caught:
        read_part(part_file)
    assert str(caught.value).splitlines() == [
        f"{part_file}: part.quantity: expected a whole number from 1 to 1,000,000, found 0",
        f"{part_file.parent / 'drawn' / 'pipe.csv'}: expected a file that shows a tube, found nothing",
    ]


def test_wrong_keys_beside_from(part_file: Path) -> None:
    part_file.write_text(f'{PART}units = "yd"\nvertices = []\n')
    with pytest.raises(InputError) as caught:
        read_part(part_file)
    assert str(caught.value).splitlines() == [
        f"{part_file}: centreline.units: expected 'mm', 'cm', 'm', 'in' or 'ft', found 'yd'",
        f"{part_file}: centreline.vertices: expected a known key "
        "(clr, columns, decimal, from, layer, leave_clr, merge_below, overrule_units, points, solid, units, within), "
        "found an unknown key",
    ]


STEPS = "feed_mm,rotation,bend\n200,0,90\n150,90,45\n"
FORM = ("--feed", "incremental", "--rotation", "incremental", "--rotation-positive", "clockwise_from_carriage")


@pytest.fixture
def steps(tmp_path: Path) -> Path:
    path = tmp_path / "steps.csv"
    path.write_text(STEPS)
    return path


def test_finished_steps_become_a_part(steps: Path, tmp_path: Path) -> None:
    path = tmp_path / "part.toml"
    result = read(str(steps), *FORM, "--angles", "finished", "--rear", "120", *TUBE, "--write", str(path))
    assert (result.exit_code, result.stderr) == (0, "")
    assert read_part(path).steps == WantedSteps(
        bends=(
            WantedBend(straight=200.0, rotation_deg=0.0, angle_deg=90.0),
            WantedBend(straight=150.0, rotation_deg=90.0, angle_deg=45.0),
        ),
        rear=120.0,
    )


def test_finished_steps_ask_where_the_tube_ends(steps: Path) -> None:
    result = read(str(steps), *FORM, "--angles", "finished")
    assert (result.exit_code, "say --rear: where does the tube end?" in result.stderr) == (2, True)


def test_die_sets_are_named_by_the_list_or_by_an_option(tmp_path: Path) -> None:
    path = tmp_path / "steps.csv"
    path.write_text("feed_mm,rotation,bend,die\n200,0,90,d50-r75\n250,90,45,d50-r100\n")
    on_bay2 = ("--machine", str(BAY2), "--od", "50", "--wall", "1.5", "--material", "304L", "--rear", "200")
    result = read(str(path), *FORM, "--angles", "commanded", *on_bay2, "--json")
    assert [bend["clr"] for bend in json.loads(result.stdout)["bends"]] == [75.0, 100.0]
    twice = read(str(path), *FORM, "--angles", "commanded", *on_bay2, "--die", "d50-r75")
    assert (twice.exit_code, "the steps name other die sets; leave out --die" in twice.stderr) == (2, True)


def test_commanded_steps_ask_for_their_machine(steps: Path) -> None:
    result = read(str(steps), *FORM, "--angles", "commanded", "--rear", "120")
    assert (result.exit_code, "say --machine" in result.stderr) == (2, True)


def test_a_machine_reads_its_own_form_back(tmp_path: Path) -> None:
    machine = str(Path(__file__).parents[2] / "machine_profiles" / "bay5_inch")
    sample = str(Path(__file__).parents[2] / "samples" / "diffuser_drop.toml")
    CliRunner().invoke(app, ["program", sample, "--machine", machine, "--out", str(tmp_path), "--no-html"])
    listed, program = next(tmp_path.glob("*.machine.csv")), json.loads(next(tmp_path.glob("*.steps.json")).read_text())
    part = read_part(Path(sample))
    tube = ("--od", f"{part.tube.od} mm", "--wall", f"{part.tube.wall} mm", "--material", part.tube.material)
    blank = f"{program['blank']['length']} mm"
    again = tmp_path / "again.toml"
    result = read(
        *(str(listed), "--own-form", "--machine", machine, *tube, "--die", str(part.die), "--blank", blank),
        *(("--perforated",) if part.tube.perforated else ()),
        *("--write", str(again)),
    )
    assert (result.exit_code, result.stderr) == (0, "")
    wish = read_part(again).steps
    assert wish is not None
    finished = [step["finished_angle"] for step in program["steps"]]
    assert [bend.angle_deg for bend in wish.bends] == pytest.approx(finished, abs=1e-6)


def test_steps_are_no_axis_of_a_part(part_file: Path) -> None:
    part_file.write_text(PART)
    (part_file.parent / "drawn" / "duct.csv").write_text(STEPS)
    with pytest.raises(InputError) as caught:
        read_part(part_file)
    assert str(caught.value) == (
        f"{part_file.parent / 'drawn' / 'duct.csv'}: expected a tube, not steps: bendgen read makes a part of those, "
        "found feed, rotation and bend"
    )
