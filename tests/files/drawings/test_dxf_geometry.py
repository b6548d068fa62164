"""Pieces of a drawing held against the drawing library's own points, arithmetic of bulges and matrices of blocks."""

import math
import random
from collections.abc import Callable
from typing import Any

import pytest
from ezdxf.filemanagement import new
from ezdxf.math import Vec3

from bendgen.files.drawings.dxf_entities import seen_entities
from bendgen.files.drawings.dxf_pieces import pieces_of_entity
from tests.library_curves import agree, segments_of_library, segments_of_pieces

WITHIN = 3e-3  # what both sides' chords lie off the curves, once a block has stretched them
Entity = Any  # of a library without types that could be named here
Space = Any


def somewhere(chance: random.Random) -> tuple[float, float, float]:
    return chance.uniform(-80, 80), chance.uniform(-80, 80), chance.uniform(-80, 80)


def askew(chance: random.Random) -> dict[str, Vec3]:
    return {"extrusion": Vec3(*(chance.gauss(0.0, 1.0) for _ in range(3))).normalize()}


def line(space: Space, chance: random.Random) -> None:
    space.add_line(somewhere(chance), somewhere(chance), dxfattribs=askew(chance))


def arc(space: Space, chance: random.Random) -> None:
    first, last = chance.uniform(-400, 400), chance.uniform(-400, 400)
    space.add_arc(somewhere(chance), chance.uniform(5, 80), first, last, dxfattribs=askew(chance))


def circle(space: Space, chance: random.Random) -> None:
    space.add_circle(somewhere(chance), chance.uniform(5, 80), dxfattribs=askew(chance))


def ellipse(space: Space, chance: random.Random) -> None:
    extrusion = askew(chance)["extrusion"]
    across = extrusion.cross(Vec3(somewhere(chance))).normalize(chance.uniform(10, 60))
    start = chance.uniform(0.0, math.tau)
    ratio = chance.choice([0.3, 0.8, 1.0, 1.0])
    space.add_ellipse(
        somewhere(chance), across, ratio, start, start + chance.uniform(0.2, 6.0), {"extrusion": extrusion}
    )


def lwpolyline(space: Space, chance: random.Random) -> None:
    points = [(*somewhere(chance)[:2], 0, 0, chance.choice([0.0, chance.uniform(-2.0, 2.0)])) for _ in range(5)]
    attributes = askew(chance) | {"elevation": chance.uniform(-50, 50)}
    space.add_lwpolyline(points, close=chance.random() < 0.5, dxfattribs=attributes)


def polyline_in_plane(space: Space, chance: random.Random) -> None:
    points = [(*somewhere(chance)[:2], chance.choice([0.0, chance.uniform(-2.0, 2.0)])) for _ in range(5)]
    space.add_polyline2d(points, format="xyb", close=chance.random() < 0.5, dxfattribs=askew(chance))


def polyline_in_space(space: Space, chance: random.Random) -> None:
    space.add_polyline3d([somewhere(chance) for _ in range(5)], close=chance.random() < 0.5)


def spline(space: Space, chance: random.Random) -> None:
    space.add_open_spline([somewhere(chance) for _ in range(6)])


def rational_spline(space: Space, chance: random.Random) -> None:
    weights = [chance.uniform(0.5, 3.0) for _ in range(6)]
    space.add_rational_spline([somewhere(chance) for _ in range(6)], weights)


KINDS: list[Callable[[Space, random.Random], None]] = [
    line, arc, circle, ellipse, lwpolyline, polyline_in_plane, polyline_in_space, spline, rational_spline,
]  # fmt: skip


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_every_kind_of_curve_in_any_place_and_plane(kind: Callable[[Space, random.Random], None]) -> None:
    chance = random.Random(kind.__name__)  # noqa: S311 - no secret
    for _ in range(8):
        space = new().modelspace()
        kind(space, chance)
        (entity,) = space
        agree(segments_of_pieces([entity]), segments_of_library(entity), within=WITHIN)


def scaled(chance: random.Random, *, evenly: bool) -> dict[str, float]:
    scale = chance.uniform(0.4, 2.0)
    factors = [scale] * 3 if evenly else [chance.uniform(0.4, 2.0) for _ in range(3)]
    return {f"{axis}scale": factor * chance.choice([1.0, -1.0]) for axis, factor in zip("xyz", factors, strict=True)}


def inserted(block: str, into: Space, chance: random.Random, *, evenly: bool) -> Entity:
    """Block at any place and turn, maybe mirrored, maybe stretched."""
    attributes = askew(chance) | {"rotation": chance.uniform(0, 360)} | scaled(chance, evenly=evenly)
    return into.add_blockref(block, somewhere(chance), dxfattribs=attributes)


@pytest.mark.parametrize("evenly", [True, False], ids=["scaled", "stretched"])
@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_curves_in_blocks_within_blocks(kind: Callable[[Space, random.Random], None], *, evenly: bool) -> None:
    """What is drawn in a block stands where both blocks' matrices put the library's own path of it."""
    chance = random.Random(f"{kind.__name__} {evenly}")  # noqa: S311 - no secret
    for _ in range(3):
        document = new()
        inner, outer = document.blocks.new("INNER", base_point=(7, -5, 3)), document.blocks.new("OUTER")
        kind(inner, chance)
        (entity,) = inner
        within = inserted("INNER", outer, chance, evenly=True)
        whole = inserted("OUTER", document.modelspace(), chance, evenly=evenly)
        theirs = segments_of_library(entity, within.matrix44() @ whole.matrix44())
        seen = [one.entity for one in seen_entities(document, "a.dxf")]
        agree(segments_of_pieces(seen), theirs, within=WITHIN)


def test_a_block_set_in_rows_stands_in_each_of_its_places() -> None:
    document = new()
    document.blocks.new("POST").add_line((0, 0, 0), (0, 0, 5))
    document.modelspace().add_blockref(
        "POST", (10, 0), dxfattribs={"row_count": 2, "row_spacing": 30, "column_count": 3, "column_spacing": 20}
    )
    pieces = [piece for one in seen_entities(document, "a.dxf") for piece in pieces_of_entity(one.entity, 1.0)]
    places = sorted(tuple(piece.points[0].tolist()) for piece in pieces)
    assert places == [(x, y, 0.0) for x in (10.0, 30.0, 50.0) for y in (0.0, 30.0)]
