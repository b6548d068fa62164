"""A program names the material data that its estimates come from."""

import json
from dataclasses import replace
from pathlib import Path

from bendgen.bending.planning import plan_part
from bendgen.files.part_file import read_part
from bendgen.files.profile_folder import read_profile
from bendgen.files.steps_json import format_steps_json
from bendgen.records.bend_program import BendProgram
from tests.pages import bare_text_of

ROOT = Path(__file__).parents[2]


def inlet_program(*, with_tables: bool) -> BendProgram:
    profile = read_profile(ROOT / "machine_profiles" / "bay2")
    profile = profile if with_tables else replace(profile, tables=())
    plan = plan_part(read_part(ROOT / "samples" / "dryer_inlet.toml"), profile)
    assert plan.program is not None
    return plan.program


def test_an_estimate_names_its_material_file_on_sheet_and_in_json() -> None:
    program = inlet_program(with_tables=False)
    content = json.loads(format_steps_json(program, program_id="0a1b2c3d", issue=1))
    assert content["estimated_from"]["file"] == "materials/304l.toml"
    assert "material data   materials/304l.toml" in bare_text_of(program)


def test_measured_bends_name_none() -> None:
    program = inlet_program(with_tables=True)
    assert program.estimated_from is None
    assert "materials/" not in bare_text_of(program)
