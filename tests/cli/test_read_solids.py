"""`bendgen read` and `[centreline] from` with files of solids."""

from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from bendgen.cli.app import app
from bendgen.errors import InputError
from bendgen.files.part_file import read_part
from bendgen.records.part import Centreline, WantedSteps
from tests.solid_writer import REAR, START, TUBE, Bend, Section, TubeMaker, Writer, tube_text

PART = """
units = "in"
[part]
name = "Air duct"
number = "GD-1"
revision = "A"
quantity = 1
[tube]
od = {od}
wall = {wall}
material = "304L"
[centreline]
from = "duct.STP"
"""


def read(*arguments: str | Path) -> Result:
    return CliRunner().invoke(app, ["read", *map(str, arguments)])


def two_tubes() -> str:
    """File of two tubes of different size and a block, all invented."""
    writer = Writer(unit="in")
    bends: tuple[Bend, ...] = ((50.0, 0.0, 45.0, 30.0),)
    away = Section(START.at + 500.0 * START.side, START.along, START.side)
    plane = writer.add(f"PLANE('',{writer.placement(START.at, START.along, START.side)})")
    solids = [
        TubeMaker(writer).solid(TUBE, REAR, name="long duct"),
        TubeMaker(writer, radii=(12.7, 11.2)).solid(bends, 60.0, start=away, name="branch"),
        writer.solid([writer.face([], plane, outward=True)], "foot"),
    ]
    writer.representation(solids, writer.context())
    return writer.text()


@pytest.fixture
def duct(tmp_path: Path) -> Path:
    path = tmp_path / "duct.STP"
    path.write_text(tube_text())
    return path


@pytest.fixture
def several(tmp_path: Path) -> Path:
    path = tmp_path / "several.step"
    path.write_text(two_tubes())
    return path


def test_what_was_understood(duct: Path) -> None:
    result = read(duct)
    assert (result.exit_code, result.stderr) == (0, "")
    assert (
        result.stdout
        == f"""\
{duct}: a solid, ISO 10303-21

unit       mm, from the file
solid      'Duct (invented)'
tube OD    38.1 mm
wall       1.5 mm
front end  the end nearer the file's origin; with --from-rear the other one
CLR        in the file for every bend

bend   straight before [mm]   rotation [°]   angle [°]   CLR [mm]
----   --------------------   ------------   ---------   --------
   1                 120.00          0.000      90.000      57.00
   2                  85.00         90.000      45.000      57.00
   3                 150.00        -37.000      60.500      57.00
rear                 100.00
"""
    )


def test_which_of_several_is_asked_for(several: Path) -> None:
    result = read(several)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == (
        f"{several}: expected with --solid which of its solids is meant (1+2: those that meet end to end), found 2 "
        "tubes among 3 solids: 1 'long duct', OD 1.5 in, 3 bends; 2 'branch', OD 1 in, 1 bend\n"
    )


@pytest.mark.parametrize("solid", ["2", "branch", "BRANCH"])
def test_one_of_several_by_number_or_name(several: Path, solid: str) -> None:
    result = read(several, "--solid", solid)
    assert result.exit_code == 0
    assert "solid      2 of 3, 'branch'" in result.stdout
    assert "tube OD    1 in" in result.stdout


@pytest.mark.parametrize("solid", ["4", "0", "1+1", "leg"])
def test_a_solid_that_is_not_there(several: Path, solid: str) -> None:
    result = read(several, "--solid", solid)
    assert result.exit_code == 2
    assert result.stderr == (
        f"{several}: expected with --solid one of its solids, 1 'long duct'; 2 'branch'; 3 'foot', found '{solid}'\n"
    )


def test_a_solid_that_is_no_tube(several: Path) -> None:
    result = read(several, "--solid", "foot")
    assert result.exit_code == 2
    found = "no face that is a cylinder or a bend"
    assert result.stderr == f"{several}: solid 3: expected a tube, all of whose faces are used, found {found}\n"


def test_answers_that_a_solid_does_not_need(duct: Path) -> None:
    result = read(duct, "--units", "in", "--leave-clr")
    assert result.exit_code == 2
    assert result.stderr == f"{duct}: expected no --units, which is for CSVs and drawings, found solids\n"


def test_answers_for_solids_only(tmp_path: Path) -> None:
    points = tmp_path / "points.csv"
    points.write_text("x_mm,y_mm,z_mm\n0,0,0\n100,0,0\n")
    result = read(points, "--solid", "1")
    assert result.exit_code == 2
    assert result.stderr == f"{points}: expected no --solid, which is for solids, found vertices in a CSV\n"


def test_the_clr_is_left_to_the_die_set(duct: Path) -> None:
    result = read(duct, "--leave-clr")
    assert "CLR        not in the file: the die set decides" in result.stdout


def test_a_part_for_each(several: Path, tmp_path: Path) -> None:
    result = read(several, "--each", tmp_path / "parts", "--material", "304L")
    assert (result.exit_code, result.stderr) == (0, "")
    assert sorted(path.name for path in (tmp_path / "parts").iterdir()) == ["1_long_duct.toml", "2_branch.toml"]
    part = read_part(tmp_path / "parts" / "2_branch.toml")
    assert (part.name, part.quantity, part.units) == ("branch", 1, "in")
    assert (part.tube.od, part.tube.wall) == pytest.approx((25.4, 1.5), abs=1e-6)
    assert "passed over: solid 3, 'foot': no face that is a cylinder or a bend" in result.stdout


def test_the_folder_for_each_is_made_if_it_is_missing(several: Path, tmp_path: Path) -> None:
    folder = tmp_path / "parts" / "of the duct"
    assert read(several, "--each", folder, "--material", "304L").exit_code == 0
    again = read(several, "--each", folder, "--material", "304L")
    assert again.exit_code == 2
    assert "1_long_duct.toml" in again.stderr  # no file is written over another


def test_a_part_is_written_with_what_the_file_shows(duct: Path, tmp_path: Path) -> None:
    path = tmp_path / "part.toml"
    assert read(duct, "--write", path, "--material", "304L").exit_code == 0
    part = read_part(path)
    assert part.name == "Duct (invented)"
    assert isinstance(part.centreline, Centreline)
    assert [vertex.clr for vertex in part.centreline.vertices] == [None, 57.0, 57.0, 57.0, None]


def test_a_half_turn_becomes_steps(tmp_path: Path) -> None:
    (tmp_path / "duct.STP").write_text(tube_text(((60.0, 0.0, 180.0, 57.0),), 40.0))
    (tmp_path / "part.toml").write_text(PART.format(od=1.5, wall="'1.5 mm'"))
    steps = read_part(tmp_path / "part.toml").steps
    assert isinstance(steps, WantedSteps)
    assert steps.bends[0].angle_deg == pytest.approx(180.0, abs=1e-9)


def test_another_od_than_the_files_is_a_mistake(duct: Path, tmp_path: Path) -> None:
    result = read(duct, "--write", tmp_path / "part.toml", "--material", "304L", "--od", "40")
    assert result.exit_code == 2
    assert result.stderr == "--od: expected 38.1 mm, as in the file of the centreline, found 40 mm\n"


def test_a_part_of_another_tube_than_the_files(duct: Path) -> None:
    part = duct.parent / "part.toml"
    part.write_text(PART.format(od=1.75, wall=0.049))
    with pytest.raises(InputError) as caught:
        read_part(part)
    assert str(caught.value).splitlines() == [
        f"{part}: tube.od: expected 1.5 in, as in the file of the centreline, found 1.75 in",
        f"{part}: tube.wall: expected 0.059 in, as in the file of the centreline, found 0.049 in",
    ]


def test_a_part_of_the_same_tube(duct: Path) -> None:
    part = duct.parent / "part.toml"
    part.write_text(PART.format(od=1.5, wall=0.059) + "solid = '1'\n")
    centreline = read_part(part).centreline
    assert centreline is not None
    assert len(centreline.vertices) == 5


def test_what_a_bar_does_not_say_is_asked_for(tmp_path: Path) -> None:
    bar = tmp_path / "bar.step"
    bar.write_text(tube_text(maker=TubeMaker(Writer(), radii=(19.05,))))
    result = read(bar, "--write", tmp_path / "part.toml", "--material", "304L")
    assert result.exit_code == 2
    assert "a part file names its tube: say --wall" in result.stderr


@pytest.mark.parametrize("clr", ["0", "wide", "-3"])
def test_a_clr_that_is_none(duct: Path, clr: str) -> None:
    result = read(duct, "--clr", clr)
    assert result.exit_code == 2
    assert "a length greater than 0" in result.stderr
