"""Options of `bendgen read` that do not concern the file given are refused in one line that says what they are for."""

import math
from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner

from bendgen.cli.app import app
from tests.drawn_files import Space, drawing

MACHINE = str(Path(__file__).parents[2] / "machine_profiles" / "bay2")
SOLID = str(Path(__file__).parents[2] / "samples" / "return_air_duct.step")


def answer(*arguments: str) -> tuple[int, str, str]:
    result = CliRunner().invoke(app, ["read", *arguments])
    return result.exit_code, result.stdout, result.stderr


def written(content: str) -> Callable[[Path], Path]:
    def write(folder: Path) -> Path:
        path = folder / "a.csv"
        path.write_text(content)
        return path

    return write


def lines_and_arcs(folder: Path) -> Path:
    return drawing(folder / "a.dxf", lambda space: space.add_line((0, 0), (100, 0)))


def spline(folder: Path) -> Path:
    def draw(space: Space) -> None:
        space.add_spline([(100 * math.cos(turn / 9), 100 * math.sin(turn / 9), 0) for turn in range(15)])

    return drawing(folder / "a.dxf", draw)


VERTICES = written("x_mm,y_mm,z_mm\n0,0,0\n100,0,0\n100,90,0\n")
LEGS = written("leg_mm,up,back\n100,0,0\n100,20,0\n")
STEPS = written("feed_mm,rotation,bend\n100,0,30\n")


@pytest.mark.parametrize(
    ("file", "options", "refusal"),
    [
        (VERTICES, "--layer axis", "expected no --layer, which is for drawings, found vertices in a CSV"),
        (VERTICES, "--solid 1", "expected no --solid, which is for solids, found vertices in a CSV"),
        (VERTICES, "--clr 60", "expected no --clr, which is for solids, found vertices in a CSV"),
        (VERTICES, "--feed summed", "expected no --feed, which is for steps, found vertices in a CSV"),
        (VERTICES, "--angles views", "expected no --angles, which is for steps and legs, found vertices in a CSV"),
        (
            VERTICES,
            "--within 1",
            "expected no --within, which is for points along the axis and drawn curves, found vertices in a CSV",
        ),
        (LEGS, "--points axis", "expected no --points, which is for points and drawings, found legs in a CSV"),
        (
            LEGS,
            "--leave-clr",
            "expected no --leave-clr, which is for points, steps, drawings and solids, found legs in a CSV",
        ),
        (
            LEGS,
            "--angles finished",
            "expected views or turns by --angles: are up and back seen in two views, or turned one after the other?, "
            "found 'finished'",
        ),
        (STEPS, "--layer axis", "expected no --layer, which is for drawings, found steps in a CSV"),
        (lines_and_arcs, "--decimal comma", "expected no --decimal, which is for CSVs, found a DXF drawing"),
        (lines_and_arcs, "--columns x,y", "expected no --columns, which is for CSVs, found a DXF drawing"),
        (
            lines_and_arcs,
            "--within 1",
            "expected no --within, which is for points along the axis and drawn curves, "
            "found a drawing of lines and arcs alone",
        ),
        (
            spline,
            "--points vertices",
            "expected no --points vertices, which is for lines and arcs, found a curve, or more than 1,000 lines",
        ),
        (lambda _: Path(SOLID), "--layer axis", "expected no --layer, which is for drawings, found solids"),
    ],
)
def test_an_answer_that_the_file_does_not_need(
    file: Callable[[Path], Path], options: str, refusal: str, tmp_path: Path
) -> None:
    path = str(file(tmp_path))
    assert answer(path, *options.split()) == (2, "", f"{path}: {refusal}\n")


@pytest.mark.parametrize("file", [VERTICES, LEGS, lines_and_arcs, lambda _: Path(SOLID)])
@pytest.mark.parametrize("options", ["--rear 40", "--blank 900"])
def test_options_for_steps(file: Callable[[Path], Path], options: str, tmp_path: Path) -> None:
    path = str(file(tmp_path))
    status, shown, refused = answer(path, *options.split())
    assert (status, shown) == (2, "")
    assert f"holdsnosteps;leaveoutwhatisforstepsalone:{options.split(maxsplit=1)[0]}" in squeezed(refused)


def squeezed(text: str) -> str:
    """Text without what the frame of a usage error adds: line ends and spaces."""
    return "".join(text.split())


def test_the_form_of_a_machine_is_for_steps(tmp_path: Path) -> None:
    status, _, refused = answer(str(lines_and_arcs(tmp_path)), "--own-form", "--machine", MACHINE)
    assert status == 2
    assert "holdsnosteps;leaveoutwhatisforstepsalone:--own-form" in squeezed(refused)


def test_what_is_said_of_a_part_that_is_not_written(tmp_path: Path) -> None:
    status, _, refused = answer(str(VERTICES(tmp_path)), "--name", "Duct", "--revision", "A")
    assert status == 2
    assert "nopartfileiswritten:leaveout--name,--revision,orsay--write" in squeezed(refused)


def test_what_cannot_hold_for_every_tube(tmp_path: Path) -> None:
    status, _, refused = answer(SOLID, "--each", str(tmp_path / "out"), "--from-rear", "--solid", "1")
    assert status == 2
    assert "--eachwriteseverytubeofthefileasitis:leaveout--from-rear,--solid" in squeezed(refused)
    assert not (tmp_path / "out").exists()


def test_a_column_of_clr_in_steps_is_left_to_the_die_set_too(tmp_path: Path) -> None:
    path = written("feed_mm,rotation,bend,clr_mm\n100,0,30,60\n")(tmp_path)
    answers = ("--feed", "incremental", "--angles", "finished", "--rear", "80", "--leave-clr")
    status, shown, _ = answer(str(path), *answers)
    assert status == 0
    assert "CLR        not in the file: the die set decides" in shown
    assert "  - column clr: --leave-clr leaves it to the die set\n" in shown


def test_a_blank_tells_nothing_without_a_machine(tmp_path: Path) -> None:
    answers = ("--feed", "incremental", "--angles", "finished", "--blank", "300")
    status, _, refused = answer(str(STEPS(tmp_path)), *answers)
    assert status == 2
    assert "--blankneeds--machine:onlyitstablestellwhatthebendsuseofit;orsay--rear" in squeezed(refused)
