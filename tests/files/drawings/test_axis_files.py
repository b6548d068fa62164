"""The predicted axis written and read again: the same tube in the same place."""

from pathlib import Path

import numpy as np
import pytest
from ezdxf.entities.arc import Arc
from ezdxf.entities.line import Line
from ezdxf.filemanagement import readfile

from bendgen.bending.found_bends import bends_of_found
from bendgen.bending.planning import plan_part
from bendgen.files.drawings.axis_csv import format_axis_csv
from bendgen.files.drawings.axis_dxf import format_axis_dxf
from bendgen.files.part_file import read_part
from bendgen.files.profile_folder import read_profile
from bendgen.files.tube_source import read_tube
from bendgen.records.bend_program import BendProgram
from bendgen.records.found_tube import Answers, FoundTube
from bendgen.records.part import Centreline

ROOT = Path(__file__).parents[3]
FRONT_FIRST = Answers()


def planned(name: str) -> BendProgram:
    part, profile = read_part(ROOT / "samples" / name), read_profile(ROOT / "machine_profiles" / "bay2")
    program = plan_part(part, profile).program
    assert program is not None
    return program


def agree(found: FoundTube, program: BendProgram, *, within: float) -> None:
    """From either end, for a drawing does not say which goes first."""
    bends, made = bends_of_found(found), program.finished
    assert bends.straights is not None
    straights = list(bends.straights)
    turned = abs(straights[0] - made.straights[0]) > abs(straights[-1] - made.straights[0])
    order = slice(None, None, -1 if turned else 1)
    assert straights[order] == pytest.approx(made.straights, abs=within)
    assert bends.angles_deg[order] == pytest.approx([bend.angle_deg for bend in made.bends], abs=within)
    assert bends.clr[order] == pytest.approx([bend.clr for bend in made.bends], abs=10.0 * within)
    rotations = [bend.rotation_deg for bend in made.bends[1:]]
    assert bends.rotations_deg[1:][order] == pytest.approx(rotations, abs=within)


@pytest.mark.parametrize("name", ["dryer_inlet.toml", "six_bend_duct.toml", "bearing_jog.toml"])
def test_csv(name: str, tmp_path: Path) -> None:
    program = planned(name)
    path = tmp_path / "a.csv"
    path.write_text(format_axis_csv(program))
    found = read_tube(path, FRONT_FIRST)
    agree(found, program, within=1e-6)
    assert isinstance(found.wish, Centreline)
    places = np.array([(v.x, v.y, v.z) for v in found.wish.vertices])
    assert places == pytest.approx(np.array(program.predicted.vertices), abs=1e-6)


@pytest.mark.parametrize("name", ["dryer_inlet.toml", "six_bend_duct.toml", "guard_hoop.toml", "bearing_jog.toml"])
def test_dxf(name: str, tmp_path: Path) -> None:
    program = planned(name)
    path = tmp_path / "a.dxf"
    path.write_text(format_axis_dxf(program))
    agree(read_tube(path, FRONT_FIRST), program, within=1e-6)
    places = np.array(program.predicted.points)
    drawn = list(readfile(path).modelspace())
    of_arcs = [(arc.start_point, arc.end_point) for arc in drawn if isinstance(arc, Arc)]
    of_lines = [(line.dxf.start, line.dxf.end) for line in drawn if isinstance(line, Line)]
    ends = [place.xyz for pair in of_arcs + of_lines for place in pair]
    assert len(ends) == 2 * len(drawn)
    nearest = np.linalg.norm(np.array(ends)[:, None] - places[None], axis=2).min(axis=1)
    assert nearest.max() < 1e-6
