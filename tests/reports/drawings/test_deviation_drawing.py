"""Deviations written on the part."""

from functools import cache
from pathlib import Path

import htpy

from bendgen.bending.comparison import compare_piece
from bendgen.files.foretold_json import read_foretold
from bendgen.records.comparison import Comparison
from bendgen.records.foretold import Foretold
from bendgen.records.measured import MeasuredPiece, Reading
from bendgen.reports.drawings.deviation_drawing import deviation_drawing
from tests.svg_reading import overlapping_texts, read_drawing, smallest_capitals, texts_outside

EXPECTED = Path(__file__).parents[3] / "samples" / "expected"


@cache
def foretold(sample: str, stem: str) -> Foretold:
    return read_foretold(EXPECTED / sample / f"{stem}.steps.json")


def measured(of: Foretold, **off: float) -> Comparison:
    """A piece that reads what is foretold, but for what is off; an underscore in a name stands for a hyphen."""
    moved = {name.replace("_", "-"): amount for name, amount in off.items()}
    readings = tuple(
        Reading(line=line, check=check.id, value=check.predicted + moved.get(check.id, 0.0))
        for line, check in enumerate(of.checks, start=2)
    )
    return compare_piece(of, MeasuredPiece(piece="1", lot=None, readings=readings))


def words_of(drawing: htpy.Element) -> dict[str, bool]:
    """Every text, and whether it is bold."""
    return {text.text or "": text.get("font-weight") == "bold" for text in read_drawing(drawing).iter("text")}


def test_what_is_out_is_bold_and_says_so_and_the_rest_is_neither() -> None:
    part = foretold("dryer_inlet", "GD-118_B_1")
    comparison = measured(part, angle_1=-2.0)
    (off,) = (found.from_wanted for found in comparison.deviations if found.check == "angle-1")
    said = words_of(deviation_drawing(part, comparison))
    assert said[f"angle-1 {off:.2f}° OUT"]
    assert [text for text in said if text.endswith("OUT")] == [f"angle-1 {off:.2f}° OUT"]
    assert not any(bold for text, bold in said.items() if text.startswith(("rotation-2", "straight-2", "apex")))


def test_lengths_are_in_the_shop_s_unit() -> None:
    part = foretold("diffuser_drop", "GD-422_C_1")
    comparison = measured(part, straight_2=25.4)
    (off,) = (found.from_wanted for found in comparison.deviations if found.check == "straight-2")
    said = words_of(deviation_drawing(part, comparison))
    assert f"straight-2 +{off / 25.4:.3f} OUT" in said
    assert "Measured less wanted; lengths in inches." in said


def test_words_of_six_bends_cover_no_other_words() -> None:
    part = foretold("six_bend_duct", "GD-204_A_1")
    drawing = read_drawing(deviation_drawing(part, measured(part)))
    assert overlapping_texts(drawing) == []
    assert texts_outside(drawing) == []
    assert smallest_capitals(drawing) >= 2.5


def test_what_has_no_place_on_the_part_is_left_to_the_table() -> None:
    part = foretold("bearing_jog", "GD-121_A_1")
    said = words_of(deviation_drawing(part, measured(part, offset=5.0)))
    assert not any(text.startswith(("offset", "box", "blank")) for text in said)
