"""What a step list would make, as text."""

import math
import re
from dataclasses import replace

import pytest

from bendgen.records.bend_program import BendProgram
from bendgen.records.bent_tube import BentTube
from bendgen.reports.replay_text import developed_length, replay_text

BOX = (325.0, 385.0, 285.0)


def test_developed_length_by_hand(example_program: BendProgram) -> None:
    """Straights 197 + 154 + 157 and two quarter circles of radius 103."""
    assert developed_length(example_program.finished) == pytest.approx(508.0 + 103.0 * math.pi, abs=1e-9)
    assert developed_length(BentTube(straights=(450.0,), bends=())) == 450.0


def test_replay(example_program: BendProgram) -> None:
    text = replay_text(example_program.finished, example_program.predicted, box=BOX, blank=820.0)
    assert "Vertices [mm]" in text
    assert re.search(r"3 +300\.00 +360\.00 +0\.00$", text, re.MULTILINE)
    assert re.search(r"2 +154\.00 +90\.000 +90\.000 +103\.00$", text, re.MULTILINE)
    assert re.search(r"rear +157\.00$", text, re.MULTILINE)
    assert re.search(r"developed length +831\.58 mm", text)
    assert re.search(r"elongation: developed length less blank +11\.58 mm", text)
    assert "325 mm · 385 mm · 285 mm" in text


def test_without_a_blank_no_elongation_is_told(example_program: BendProgram) -> None:
    text = replay_text(example_program.finished, example_program.predicted, box=BOX)
    assert re.search(r"blank +not known", text)
    assert "elongation" not in text


def test_a_half_circle_shows_tangent_points(example_program: BendProgram) -> None:
    shape = replace(example_program.predicted, vertices=None)
    text = replay_text(example_program.finished, shape, box=BOX)
    assert "Ends and tangent points" in text
    assert re.search(r"6 +300\.00 +360\.00 +260\.00$", text, re.MULTILINE)


def test_inches(example_program: BendProgram) -> None:
    text = replay_text(example_program.finished, example_program.predicted, box=BOX, blank=820.0, units="in")
    assert "Vertices [in]" in text
    assert re.search(r"rear +6\.181$", text, re.MULTILINE)
