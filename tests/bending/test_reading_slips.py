"""Slips of the pen among readings: suspected where the number put right fits, never in a real miss."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.bending.comparison import compare_piece
from bendgen.bending.foretold import foretold_of_program
from bendgen.bending.planning import plan_part
from bendgen.bending.reading_slips import slips_of
from bendgen.records.bent_tube import Point
from bendgen.records.comparison import Deviation, Slip
from bendgen.records.foretold import Foretold
from bendgen.records.machine import MachineProfile
from bendgen.records.measured import MeasuredPiece, Reading
from bendgen.records.part import Part


def deviation(measured: float, wanted: float, *, check: str = "straight-2", tolerance: float = 1.0) -> Deviation:
    return Deviation(
        check=check,
        quantity=check,
        line=7,
        measured=measured,
        predicted=wanted,
        wanted=wanted,
        tolerance=tolerance,
        unit="deg" if check.startswith(("angle", "rotation")) else "mm",
    )


@pytest.mark.parametrize(
    ("measured", "kind", "meant"),
    [
        (3390.9, "unit", 133.5),
        (133.5 / 25.4, "unit", 133.5),
        (1335.0, "decimal point", 133.5),
        (13.35, "decimal point", 133.5),
        (1.335, "decimal point", 133.5),
        (1290.0, "decimal point", 129.0),  # out of tolerance even so
    ],
)
def test_a_length(measured: float, kind: str, meant: float) -> None:
    (slip,) = slips_of([deviation(measured, 133.6)])
    assert (slip.check, slip.line, slip.kind) == ("straight-2", 7, kind)
    assert slip.meant == pytest.approx(meant)


@pytest.mark.parametrize(
    ("measured", "wanted", "kind", "meant"),
    [(119.3, 60.0, "other side", 60.7), (8.91, 90.0, "decimal point", 89.1), (601.0, 60.0, "decimal point", 60.1)],
)
def test_an_angle(measured: float, wanted: float, kind: str, meant: float) -> None:
    assert slips_of([deviation(measured, wanted, check="angle-1", tolerance=0.5)]) == (
        Slip(check="angle-1", kind=kind, line=7, measured=measured, meant=pytest.approx(meant), unit="deg"),  # type: ignore[arg-type]
    )


@settings(max_examples=100, deadline=None)
@given(wanted=st.floats(1.0, 3000.0), miss=st.floats(-0.6, 0.9))
def test_a_miss_by_up_to_nine_tenths_is_no_slip(wanted: float, miss: float) -> None:
    """What a tenth, a 25th or a tenfold explains lies farther off."""
    assert slips_of([deviation(wanted * (1.0 + miss), wanted)]) == ()


def test_nothing_is_suspected_of_a_small_value_or_a_turn_of_no_bend() -> None:
    """A tenth of any miss lies near 0."""
    assert slips_of([deviation(25.0, 2.5), deviation(20.0, 0.0, check="rotation-2", tolerance=0.5)]) == ()


@pytest.fixture
def foretold(dryer_part: Part, metric_profile: MachineProfile) -> Foretold:
    program = plan_part(dryer_part, metric_profile).program
    assert program is not None
    return foretold_of_program(program)


def test_the_cause_is_looked_for_without_the_slip(foretold: Foretold) -> None:
    """Both angles open by 0.9°; a tape read ten times too long would else be told as elongation."""
    told = {"angle-1": 89.1, "angle-2": 89.1, "apex-leg-rear": 2600.0}
    readings = tuple(
        Reading(line=line, check=check, value=value) for line, (check, value) in enumerate(told.items(), 2)
    )
    comparison = compare_piece(foretold, MeasuredPiece(piece="1", lot=None, readings=readings))
    assert [slip.check for slip in comparison.slips] == ["apex-leg-rear"]
    assert [cause.kind for cause in comparison.causes] == ["springback"]
    assert comparison.made.straights[-1] < 300.0
    assert not comparison.in_tolerance


@pytest.mark.parametrize(
    ("factor", "kind"), [(1.0 / 25.4, "unit"), (25.4, "unit"), (0.1, "decimal point"), (1000.0, "decimal point")]
)
@pytest.mark.parametrize("along", [False, True])
def test_points_in_another_unit(foretold: Foretold, factor: float, kind: str, along: bool) -> None:  # noqa: FBT001
    assert foretold.wanted.vertices is not None
    path = foretold.wanted.points if along else foretold.wanted.vertices
    points = tuple((x * factor, y * factor, z * factor) for x, y, z in path)
    piece = MeasuredPiece(piece="1", lot=None, axis=_filled(points) if along else (), vertices=() if along else points)
    comparison = compare_piece(foretold, piece)
    assert [(slip.check, slip.kind) for slip in comparison.slips] == [("length along the points", kind)]
    assert (comparison.causes, comparison.believed) == ((), ())


def _filled(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """Ten points on each line between two of them."""
    lines = np.linspace(points[:-1], points[1:], 10, axis=1)
    return tuple((x, y, z) for x, y, z in lines.reshape(-1, 3).tolist())


def test_points_of_a_part_bent_badly_are_believed(foretold: Foretold) -> None:
    vertices = ((0.0, 0.0, 0.0), (500.0, 0.0, 0.0), (500.0, 200.0, 0.0), (600.0, 260.0, 700.0))
    assert compare_piece(foretold, MeasuredPiece(piece="1", lot=None, vertices=vertices)).slips == ()
