"""Assemblies: where solids stand, how often, and assemblies without end."""

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import pytest

from bendgen.errors import InputError
from tests.files.solids.reading import file_of, numbers_of, tube_of
from tests.solid_writer import REAR, START, TUBE, TubeMaker, Writer

X, Y, Z = np.eye(3)
NONE = np.zeros(3)


def place(writer: Writer, inner: str, outer: str, at: list[float], names: tuple[str, str]) -> None:
    """Put a representation into another, its own frame falling on one at a place, y up."""
    own = writer.placement(NONE, Z, X)
    there = writer.placement(np.array(at), Y, Z)
    between = writer.add(f"ITEM_DEFINED_TRANSFORMATION('','',{own},{there})")
    related = writer.add(
        f"( REPRESENTATION_RELATIONSHIP('','',{inner},{outer}) REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION("
        f"{between}) SHAPE_REPRESENTATION_RELATIONSHIP() )"
    )
    usage = writer.add(f"NEXT_ASSEMBLY_USAGE_OCCURRENCE('','','',{names[1]},{names[0]},$)")
    shape = writer.add(f"PRODUCT_DEFINITION_SHAPE('','',{usage})")
    writer.add(f"CONTEXT_DEPENDENT_SHAPE_REPRESENTATION({related},{shape})")


def assembly(*, levels: int = 1, copies: int = 1, swapped: bool = False, inner_unit: str = "mm") -> str:
    """A tube `copies` times in a frame, that in another, and so on; swapped: relationships the wrong way round."""
    writer = Writer(unit=inner_unit)
    tube = writer.representation([TubeMaker(writer).solid(TUBE, REAR)], writer.context())
    inner, definition = tube, writer.product(tube, "Duct (invented)")
    writer.unit = "mm"
    for level in range(levels):
        outer = writer.representation([], writer.context(), "SHAPE")
        whole = writer.product(outer, f"Frame {level} (invented)")
        for copy in range(copies):
            pair = (outer, inner) if swapped else (inner, outer)
            place(writer, *pair, [100.0 * (copy + 1), 0.0, 0.0], (definition, whole))
        inner, definition = outer, whole
    return writer.text()


def turned(point: np.ndarray, levels: int) -> np.ndarray:
    """Point of the tube where so many levels put it: x to z, y to x, z to y, and 100 along x each time."""
    for _ in range(levels):
        point = np.array([point[1] + 100.0, point[2], point[0]])
    return point


@pytest.mark.parametrize("levels", [0, 1, 2, 5])
@pytest.mark.parametrize("inner_unit", ["mm", "in"])
def test_nested_placements(levels: int, inner_unit: str) -> None:
    text = assembly(levels=levels, inner_unit=inner_unit)
    tube = tube_of(text)
    ends = np.array(tube.ends)
    start = turned(START.at, levels)
    assert np.abs(ends - start).sum(axis=1).min() < 1e-6
    assert sorted(numbers_of(tube)[0]) == pytest.approx([85.0, 100.0, 120.0, 150.0], abs=1e-6)
    assert tube.name == "Duct (invented)"


def test_a_solid_placed_many_times_is_one_part() -> None:
    file = file_of(assembly(levels=2, copies=3))
    assert [solid.instances for solid in file.solids] == [9]


def test_relationships_named_the_wrong_way_round() -> None:
    """With its frames at the same side as its representations the placement is undone rather than done."""
    tube = tube_of(assembly(swapped=True))
    undone = np.array([START.at[2], START.at[0] - 100.0, START.at[1]])
    assert np.abs(np.array(tube.ends) - undone).sum(axis=1).min() < 1e-6


def test_a_mapped_item() -> None:
    writer = Writer()
    tube = writer.representation([TubeMaker(writer).solid(TUBE, REAR)], writer.context())
    source = writer.add(f"REPRESENTATION_MAP({writer.placement(NONE, Z, X)},{tube})")
    item = writer.add(f"MAPPED_ITEM('',{source},{writer.placement(np.array([100.0, 0.0, 0.0]), Y, Z)})")
    writer.representation([item], writer.context(), "SHAPE")
    ends = np.array(tube_of(writer.text()).ends)
    assert np.abs(ends - turned(START.at, 1)).sum(axis=1).min() < 1e-6


def operator(writer: Writer, axes: Sequence[np.ndarray | None], scale: str = "1.") -> str:
    """Transformation with some of its axes 1, 2, 3, to 100 along x."""
    one, two, three = ("$" if axis is None else writer.direction(axis) for axis in axes)
    origin = writer.point(np.array([100.0, 0.0, 0.0]))
    return writer.add(f"CARTESIAN_TRANSFORMATION_OPERATOR_3D('','','',{one},{two},{origin},{scale},{three})")


def placed_twice(axes: Sequence[np.ndarray | None], scale: str = "1.", *, mapped: bool = True) -> str:
    """A tube where it is, and again by a transformation."""
    writer = Writer()
    context = writer.context()
    tube = writer.representation([TubeMaker(writer).solid(TUBE, REAR)], context)
    names = [writer.product(tube, "Duct (invented)")]
    outer = writer.representation([], context, "SHAPE")
    names.append(writer.product(outer, "Frame (invented)"))
    place(writer, tube, outer, [0.0, 0.0, 0.0], (names[0], names[1]))
    target = operator(writer, axes, scale)
    if mapped:
        source = writer.add(f"REPRESENTATION_MAP({writer.placement(NONE, Z, X)},{tube})")
        writer.representation([writer.add(f"MAPPED_ITEM('',{source},{target})")], context, "SHAPE")
    else:
        related = writer.add(
            f"( REPRESENTATION_RELATIONSHIP('','',{tube},{outer}) REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION("
            f"{target}) SHAPE_REPRESENTATION_RELATIONSHIP() )"
        )
        shape = writer.add("PRODUCT_DEFINITION_SHAPE('','',$)")
        writer.add(f"CONTEXT_DEPENDENT_SHAPE_REPRESENTATION({related},{shape})")
    return writer.text()


@pytest.mark.parametrize("mapped", [True, False])
@pytest.mark.parametrize(
    ("axes", "signs"),
    [
        ((-X, Y, Z), (-1.0, 1.0, 1.0)),
        ((None, -Y, None), (1.0, -1.0, 1.0)),
        ((X, Y, -Z), (1.0, 1.0, -1.0)),
        ((-X, None, Z), (-1.0, -1.0, 1.0)),  # an axis that is left out makes no mirror image
        ((X, Y, Z), (1.0, 1.0, 1.0)),
    ],
)
def test_a_transformation_may_mirror(
    axes: Sequence[np.ndarray | None],
    signs: tuple[float, ...],
    mapped: bool,  # noqa: FBT001 - of the case
) -> None:
    """The opposite hand is another part, with rotations the other way."""
    text = placed_twice(axes, mapped=mapped)
    mirrored = math.prod(signs) < 0.0
    names = [solid.name for solid in file_of(text).solids]
    assert names == (["Duct (invented)", "Duct (invented), mirrored"] if mirrored else ["Duct (invented)"])
    last = tube_of(text, len(names))
    straights, angles, rotations, _ = numbers_of(last)
    assert sorted(straights) == pytest.approx([85.0, 100.0, 120.0, 150.0], abs=1e-6)
    assert sorted(angles) == pytest.approx([45.0, 60.5, 90.0], abs=1e-6)
    assert sorted(np.abs(rotations)) == pytest.approx([37.0, 90.0], abs=1e-6)
    assert (max(rotations, key=abs) < 0.0) == mirrored
    if mirrored:
        start = np.array(signs) * START.at + [100.0, 0.0, 0.0]
        assert np.abs(np.array(last.ends) - start).sum(axis=1).min() < 1e-6


def test_a_transformation_may_scale() -> None:
    text = placed_twice((X, Y, Z), "2.5")
    assert [solid.name for solid in file_of(text).solids] == [
        "Duct (invented)",
        "Duct (invented), 2.5 times its size",
    ]
    large = tube_of(text, 2)
    straights, angles, _, clr = numbers_of(large)
    assert sorted(straights) == pytest.approx([212.5, 250.0, 300.0, 375.0], abs=1e-6)
    assert sorted(angles) == pytest.approx([45.0, 60.5, 90.0], abs=1e-6)
    assert clr == pytest.approx([142.5] * 3, abs=1e-6)
    assert (large.od, large.wall) == pytest.approx((95.25, 3.75), abs=1e-6)
    start = 2.5 * START.at + [100.0, 0.0, 0.0]
    assert np.abs(np.array(large.ends) - start).sum(axis=1).min() < 1e-6


def test_a_scale_of_nothing() -> None:
    with pytest.raises(InputError, match=r"expected a scale greater than 0, found 0"):
        file_of(placed_twice((X, Y, Z), "0."))


def test_a_plain_relationship_makes_two_representations_one() -> None:
    writer = Writer()
    tube = writer.representation([TubeMaker(writer).solid(TUBE, REAR)], writer.context())
    named = writer.representation([], writer.context(), "SHAPE")
    writer.product(named, "Duct (invented)")
    writer.add(f"SHAPE_REPRESENTATION_RELATIONSHIP('','',{named},{tube})")
    assert [solid.name for solid in file_of(writer.text()).solids] == ["Duct (invented)"]


def test_a_solid_that_two_representations_of_one_shape_list_is_there_once() -> None:
    writer = Writer()
    solid, context = TubeMaker(writer).solid(TUBE, REAR), writer.context()
    tube = writer.representation([solid], context)
    again = writer.representation([solid], context, "SHAPE")
    writer.add(f"SHAPE_REPRESENTATION_RELATIONSHIP('','',{again},{tube})")
    assert [solid.instances for solid in file_of(writer.text()).solids] == [1]


def test_ten_thousand_relationships_in_a_row_are_soon_followed() -> None:
    """From the last to the first, which a search that goes the whole way each time takes minutes for."""
    writer = Writer()
    context = writer.context()
    shapes = [writer.representation([], context, "SHAPE") for _ in range(10_000)]
    tube = writer.representation([TubeMaker(writer).solid(TUBE, REAR)], context)
    for one, other in pairwise([tube, *reversed(shapes)]):
        writer.add(f"SHAPE_REPRESENTATION_RELATIONSHIP('','',{one},{other})")
    assert len(file_of(writer.text()).solids) == 1


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (assembly(levels=14, copies=2), "expected at most 5000 placed parts, 30 deep, found more"),
        (assembly(levels=31), "expected at most 5000 placed parts, 30 deep, found more"),
    ],
)
def test_assemblies_that_multiply_without_end(text: str, message: str) -> None:
    with pytest.raises(InputError) as caught:
        file_of(text)
    assert str(caught.value) == f"f.step: {message}"


def test_parts_that_contain_each_other() -> None:
    writer = Writer()
    solid = TubeMaker(writer).solid(TUBE, REAR)
    one = writer.representation([solid], writer.context())
    other = writer.representation([], writer.context(), "SHAPE")
    names = (writer.product(one, "one"), writer.product(other, "other"))
    place(writer, one, other, [0.0, 0.0, 0.0], names)
    place(writer, other, one, [0.0, 0.0, 0.0], names[::-1])
    with pytest.raises(InputError) as caught:
        file_of(writer.text())
    assert str(caught.value) == "f.step: expected assemblies with a top, found parts that contain each other"


def test_a_part_that_contains_itself_beside_one_that_does_not() -> None:
    writer = Writer()
    context = writer.context()
    writer.representation([TubeMaker(writer).solid(TUBE, REAR)], context)
    own = writer.placement(NONE, Z, X)
    number = len(writer.lines) + 3
    source = writer.add(f"REPRESENTATION_MAP({own},#{number})")
    assert writer.representation([writer.add(f"MAPPED_ITEM('',{source},{own})")], context, "SHAPE") == f"#{number}"
    with pytest.raises(InputError, match="expected assemblies with a top, found parts that contain each other"):
        file_of(writer.text())


def test_more_shapes_than_any_assembly_has() -> None:
    writer = Writer()
    context = writer.context()
    for _ in range(20_001):
        writer.representation([], context, "SHAPE")
    with pytest.raises(InputError, match="expected at most 20000 SHAPE_REPRESENTATION, found 20001"):
        file_of(writer.text())
