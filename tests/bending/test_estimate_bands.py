"""Bands of checks where springback is estimated: an estimate counts as right or 1.5° too little."""

import math
from dataclasses import replace
from pathlib import Path

import pytest

from bendgen.bending.planning import plan_part
from bendgen.files.part_file import read_part
from bendgen.files.profile_folder import read_profile
from bendgen.records.bend_program import BendProgram
from bendgen.records.part import Part, WantedBend, WantedSteps

ROOT = Path(__file__).parents[2]
BAY2 = read_profile(ROOT / "machine_profiles" / "bay2")


def estimated(part: Part) -> BendProgram:
    program = plan_part(part, replace(BAY2, tables=())).program
    assert program is not None
    return program


def test_bands_of_an_elbow() -> None:
    """Its bend may open by 1.5°, its straights stay; the leg to the apex shortens with R · tan(θ/2), arc R · θ kept."""
    inlet = read_part(ROOT / "samples" / "dryer_inlet.toml")
    wish = WantedSteps(bends=(WantedBend(straight=300.0, rotation_deg=0.0, angle_deg=60.0),), rear=400.0)
    program = estimated(replace(inlet, centreline=None, steps=wish, die="d50-r100"))
    bands = {check.id: (check.predicted, check.band) for check in program.checks}
    angle, band = bands["angle-1"]
    assert band == pytest.approx((angle - 1.5, angle))
    leg, band = bands["apex-leg-front"]
    (bend,) = program.finished.bends
    arc, opened = bend.clr * math.radians(bend.angle_deg), math.radians(bend.angle_deg - 1.5)
    assert band == pytest.approx((300.0 + arc / opened * math.tan(opened / 2.0), leg))


def test_every_check_lies_in_its_band() -> None:
    program = estimated(read_part(ROOT / "samples" / "six_bend_duct.toml"))
    assert all(check.band is not None and check.band[0] <= check.predicted <= check.band[1] for check in program.checks)


def test_a_measured_part_has_no_bands() -> None:
    program = plan_part(read_part(ROOT / "samples" / "six_bend_duct.toml"), BAY2).program
    assert program is not None
    assert all(check.band is None for check in program.checks)
