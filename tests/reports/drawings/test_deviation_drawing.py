"""Deviations written on the part."""

from functools import cache
from pathlib import Path

import htpy
import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from bendgen.bending.comparison import compare_piece
from bendgen.files.foretold_json import read_foretold
from bendgen.records.comparison import Comparison
from bendgen.records.foretold import Foretold
from bendgen.records.measured import MeasuredPiece, Reading
from bendgen.reports.drawings.deviation_drawing import deviation_drawing
from tests.independent_bender import Array
from tests.svg_reading import overlapping_texts, path_places, read_drawing, seen_in, smallest_capitals, texts_outside

ON_PAPER = 0.1  # mm
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


def tangent_points(straights: Array, rotations: Array, angles: Array, clr: Array) -> Array:
    """Ends and tangent points of a bent tube by walking along it, angles in degrees, a (2 n + 2, 3) array."""
    frame, at = Rotation.identity(), np.zeros(3)
    points = [at]
    for straight, rotation, angle, radius in zip(straights, rotations, angles, clr, strict=False):
        at = at + frame.apply([straight, 0.0, 0.0])
        points.append(at)
        frame = frame * Rotation.from_euler("x", rotation, degrees=True)
        swept = np.radians(angle)
        at = at + frame.apply([radius * np.sin(swept), radius * (1.0 - np.cos(swept)), 0.0])
        points.append(at)
        frame = frame * Rotation.from_euler("z", angle, degrees=True)
    return np.array([*points, at + frame.apply([straights[-1], 0.0, 0.0])])


def laid_on(points: Array, onto: Array) -> Array:
    """The same, turned and moved onto others, never mirrored."""
    turn, _ = Rotation.align_vectors(onto - onto.mean(axis=0), points - points.mean(axis=0))
    moved: Array = turn.apply(points - points.mean(axis=0)) + onto.mean(axis=0)
    return moved


@pytest.mark.parametrize(
    ("straight", "rotation", "angle", "factor"), [(3.0, 0.0, -2.0, 10), (0.5, 0.0, 0.0, 100), (0.0, 40.0, 0.0, 1)]
)
def test_the_measured_shape_lies_as_many_times_off_as_the_drawing_says(
    straight: float, rotation: float, angle: float, factor: int
) -> None:
    """Readings of the wanted part but for the second straight, the second rotation and the first angle."""
    part = foretold("dryer_inlet", "GD-118_B_1")
    bends, straights = part.wanted_tube.bends, np.array(part.wanted_tube.straights)
    angles, clr = np.array([bend.angle_deg for bend in bends]), np.array([bend.clr for bend in bends])
    rotations = np.array([bend.rotation_deg for bend in bends])
    off = {"straight-2": straight, "rotation-2": rotation, "angle-1": angle}
    kept = dict(
        zip(("straight-2", "rotation-2", "angle-1", "angle-2"), (straights[1], rotations[1], *angles), strict=True)
    )
    readings = tuple(
        Reading(line=2, check=name, value=float(value) + off.get(name, 0.0)) for name, value in kept.items()
    )
    drawing = read_drawing(
        deviation_drawing(part, compare_piece(part, MeasuredPiece(piece="1", lot=None, readings=readings)))
    )
    arcs = clr * angles  # a bend that opens keeps its arc
    made = angles + np.array((angle, 0.0))
    longer, turned = straights + np.array((0.0, straight, 0.0)), rotations + np.array((0.0, rotation))
    points = tangent_points(longer, turned, made, arcs / made)
    wanted = np.array(part.wanted.points)
    shape = drawing.find(".//g[@class='measured']")
    assert shape is not None
    assert shape.get("data-factor") == str(factor)
    line = shape.find("path")
    assert line is not None
    assert line.get("stroke-dasharray") is not None
    expected = seen_in(shape, wanted + factor * (laid_on(points, wanted) - wanted))
    distances = np.linalg.norm(path_places(line)[:, None] - expected[None], axis=2).min(axis=0)
    assert distances.max() < ON_PAPER
    said = " ".join(text.text or "" for text in drawing.iter("text"))
    assert ("at its true place" if factor == 1 else f" {factor} times as far off as it is") in said
    assert "measured" in [text.text for text in drawing.iter("text")]


def test_legs_tell_the_straights_at_the_ends() -> None:
    """Apex legs 4 mm too long with angles as wanted are straights 4 mm too long; what is not read is as wanted."""
    part = foretold("dryer_inlet", "GD-118_B_1")
    wanted = part.wanted_tube
    (leg,) = (check for check in part.checks if check.id == "apex-leg-front")
    vertices = np.array(part.wanted.vertices)
    reading = Reading(line=2, check=leg.id, value=float(np.linalg.norm(vertices[1] - vertices[0])) + 4.0)
    made = compare_piece(part, MeasuredPiece(piece="1", lot=None, readings=(reading,))).made
    assert made.straights == pytest.approx((wanted.straights[0] + 4.0, *wanted.straights[1:]), abs=1e-6)
    assert [bend.angle_deg for bend in made.bends] == [bend.angle_deg for bend in wanted.bends]


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
