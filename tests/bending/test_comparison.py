"""A measured piece against its program: deviations, verdicts, best fit, ovality, and which error matters."""

from dataclasses import replace

import numpy as np
import pytest

from bendgen.bending.comparison import compare_piece, mean_piece
from bendgen.bending.foretold import foretold_of_program
from bendgen.bending.misses import KINDS, missed_tubes, misses_of_array
from bendgen.bending.planning import plan_part
from bendgen.errors import GeometryError
from bendgen.geometry.bent_axes import bent_axes
from bendgen.records.bend_program import BendProgram
from bendgen.records.comparison import Deviation
from bendgen.records.foretold import Foretold
from bendgen.records.machine import MachineProfile
from bendgen.records.measured import MeasuredPiece, Reading
from bendgen.records.part import Centreline, Part, Vertex, WantedBend, WantedSteps
from tests.independent_bender import SpringLaw
from tests.random_jobs import Setting, part_for, profile_of, program_of


@pytest.fixture
def program(dryer_part: Part, metric_profile: MachineProfile) -> BendProgram:
    planned = plan_part(dryer_part, metric_profile).program
    assert planned is not None
    return planned


@pytest.fixture
def foretold(program: BendProgram) -> Foretold:
    return foretold_of_program(program)


def piece_of(**readings: float) -> MeasuredPiece:
    named = [(name.replace("_", "-"), value) for name, value in readings.items()]
    return MeasuredPiece(
        piece="1",
        lot=None,
        readings=tuple(Reading(line=i, check=check, value=value) for i, (check, value) in enumerate(named, start=2)),
    )


def deviation_of(foretold: Foretold, **reading: float) -> Deviation:
    (deviation,) = compare_piece(foretold, piece_of(**reading)).deviations
    return deviation


def test_a_reading_is_judged_against_what_was_wanted_not_against_what_was_foretold(foretold: Foretold) -> None:
    """90° are wanted; the rounded command makes a little less, which is no licence for the part."""
    coarse = replace(
        foretold, checks=tuple(replace(c, predicted=89.8) if c.id == "angle-1" else c for c in foretold.checks)
    )
    within, outside = deviation_of(coarse, angle_1=89.55), deviation_of(coarse, angle_1=89.45)
    assert within.wanted == pytest.approx(90.0)
    assert within.tolerance == 0.5
    assert within.from_predicted == pytest.approx(-0.25)
    assert within.from_wanted == pytest.approx(-0.45)
    assert within.in_tolerance
    assert not outside.in_tolerance


def test_a_mean_piece_reads_what_all_do_on_average() -> None:
    readings = ({"angle_1": 90.0, "straight_2": 154.0}, {"angle_1": 90.6}, {"angle_1": 90.3, "straight_2": 154.8})
    pieces = [piece_of(**taken) for taken in readings]
    mean = mean_piece(pieces)
    assert {reading.check: reading.value for reading in mean.readings} == pytest.approx(
        {"angle-1": 90.3, "straight-2": 154.4}
    )
    assert mean_piece(pieces[:1]) == pieces[0]


@pytest.mark.parametrize("others", [(-179.5, 179.7), (179.7, -179.5)])
def test_a_mean_rotation_is_taken_the_shorter_way_round(others: tuple[float, float]) -> None:
    """A flat S: 179.8, 179.7 and 180.5, which is read as -179.5, are 180 on average."""
    first, second = others
    pieces = [piece_of(rotation_2=value) for value in (179.8, first, second)]
    (reading,) = mean_piece(pieces).readings
    assert reading.value % 360.0 == pytest.approx(180.0)


def test_points_of_several_pieces_have_no_mean(foretold: Foretold) -> None:
    points = with_vertices(np.array(foretold.wanted.vertices))
    with pytest.raises(GeometryError, match="points of more than one piece"):
        mean_piece([piece_of(angle_1=90.0), points])


def test_a_rotation_is_off_by_the_shorter_way_round() -> None:
    half_turn = Deviation(
        check="rotation-2",
        quantity="rotation",
        line=None,
        measured=-179.8,
        predicted=180.0,
        wanted=180.0,
        tolerance=0.5,
        unit="deg",
    )
    assert half_turn.from_wanted == pytest.approx(0.2)
    assert half_turn.in_tolerance


def test_blank_and_rear_cut_are_held_against_the_sheet(foretold: Foretold) -> None:
    deviation = deviation_of(foretold, blank=foretold.blank.length + 0.4)
    assert deviation.wanted == foretold.blank.length


def moved(points: np.ndarray) -> np.ndarray:
    """Somewhere else on the measuring table."""
    turn = np.array(((0.36, 0.48, -0.8), (-0.8, 0.6, 0.0), (0.48, 0.64, 0.6)))
    there: np.ndarray = points @ turn.T + (100.0, -40.0, 7.0)
    return there


def with_vertices(points: np.ndarray) -> MeasuredPiece:
    return MeasuredPiece(piece="1", lot=None, vertices=tuple(tuple(p) for p in points.tolist()))


def test_vertices_measured_anywhere_are_laid_on_the_wanted_ones(foretold: Foretold) -> None:
    compared = compare_piece(foretold, with_vertices(moved(np.array(foretold.wanted.vertices))))
    assert compared.fit is not None
    assert compared.fit.largest < 1e-9
    assert [point.place for point in compared.fit.points] == ["front end", "vertex 2", "vertex 3", "rear end"]
    assert compared.in_tolerance
    assert compared.causes == ()
    assert {d.check: d.from_wanted for d in compared.deviations}["angle-1"] == pytest.approx(0.0, abs=1e-9)


@pytest.fixture
def in_space(metric_profile: MachineProfile, dryer_part: Part) -> Foretold:
    bends = (
        WantedBend(straight=300.0, rotation_deg=0.0, angle_deg=80.0),
        WantedBend(straight=250.0, rotation_deg=70.0, angle_deg=60.0),
        WantedBend(straight=260.0, rotation_deg=-40.0, angle_deg=50.0),
    )
    program = plan_part(
        replace(dryer_part, centreline=None, steps=WantedSteps(bends=bends, rear=300.0)), metric_profile
    ).program
    assert program is not None
    return foretold_of_program(program)


def test_a_best_fit_never_mirrors_but_says_that_the_mirror_image_lies_better(in_space: Foretold) -> None:
    turned_over = np.array(in_space.wanted.vertices) * (1.0, 1.0, -1.0)
    compared = compare_piece(in_space, with_vertices(moved(turned_over)))
    assert compared.fit is not None
    assert compared.fit.rms > 10.0
    assert compared.fit.mirrored_rms == pytest.approx(0.0, abs=1e-9)
    assert compared.causes[0].kind == "mirror image"
    assert not compared.in_tolerance


def axis_of(foretold: Foretold, misses: np.ndarray, count: int) -> np.ndarray:
    """Points along the axis of a tube made with those misses, evenly spread, arcs walked in short chords."""
    tubes = missed_tubes(foretold, misses_of_array(misses))
    points, directions = bent_axes(tubes.straights, tubes.rotations, tubes.angles, tubes.clr)
    points, directions = points[0], directions[0]
    path = [points[0]]
    for i, (angle, clr) in enumerate(zip(tubes.angles[0], tubes.clr[0], strict=True)):
        begin, before, after = points[2 * i + 1], directions[i], directions[i + 1]
        inward = (after - np.cos(angle) * before) / np.sin(angle)
        parts = np.linspace(0.0, angle, 200)[:, None]
        path.extend(begin + clr * (np.sin(parts) * before + (1.0 - np.cos(parts)) * inward))
    path.append(points[-1])
    way = np.concatenate(([0.0], np.cumsum(np.linalg.norm(np.diff(path, axis=0), axis=1))))
    at = np.linspace(0.0, way[-1], count)
    return np.column_stack([np.interp(at, way, np.array(path)[:, k]) for k in range(3)])


def test_points_along_the_axis_tell_readings_and_the_cause(in_space: Foretold) -> None:
    """Every bend open by 1.2°, 900 points with 0.02 mm of noise: the lines through the straights tell the angles."""
    misses = np.zeros((1, len(KINDS), 3))
    misses[0, KINDS.index("angles")] = -np.radians(1.2)
    points = axis_of(in_space, misses, 900)
    noisy = points + np.random.default_rng(3).normal(0.0, 0.02, points.shape)
    piece = MeasuredPiece(piece="1", lot=None, axis=tuple(tuple(p) for p in moved(noisy).tolist()))
    compared = compare_piece(in_space, piece)
    measured = {deviation.check: deviation for deviation in compared.deviations}
    for i in (1, 2, 3):
        assert measured[f"angle-{i}"].from_predicted == pytest.approx(-1.2, abs=0.03)
    assert measured["straight-2"].from_predicted == pytest.approx(0.0, abs=0.3)
    assert compared.causes[0].kind == "springback"
    assert compared.causes[0].amount == pytest.approx(1.2, abs=0.05)
    assert compared.fit is not None
    assert compared.fit.largest > 1.0


def test_points_on_the_wanted_axis_lie_on_it(foretold: Foretold) -> None:
    points = axis_of(foretold, np.zeros((1, len(KINDS), 2)), 500)
    piece = MeasuredPiece(piece="1", lot=None, axis=tuple(map(tuple, moved(points).tolist())))
    compared = compare_piece(foretold, piece)
    assert compared.fit is not None
    assert compared.fit.largest < 0.15  # the commands are rounded to 0.1 mm and 0.1°
    assert compared.in_tolerance


def test_points_on_a_part_without_vertices_are_refused(foretold: Foretold) -> None:
    hoop = replace(foretold, wanted=replace(foretold.wanted, vertices=None))
    with pytest.raises(GeometryError, match="measure this part by its checks"):
        compare_piece(hoop, with_vertices(np.zeros((4, 3))))


def test_ovality_in_every_definition(foretold: Foretold) -> None:
    """A ratio of 0.9 is 10.526 % of the mean, 8 % of the mean is a ratio of 0.92308 (worked by hand)."""
    first = compare_piece(foretold, piece_of(diameter_largest_1=50.0, diameter_smallest_1=45.0)).ovality[0]
    assert first.ratio == pytest.approx(0.9)
    assert first.of_mean == pytest.approx(10.526, abs=5e-4)
    assert first.of_nominal == pytest.approx(10.0)
    second = compare_piece(foretold, piece_of(diameter_largest_2=52.0, diameter_smallest_2=48.0)).ovality[0]
    assert second.bend == 2
    assert second.of_mean == pytest.approx(8.0)
    assert second.ratio == pytest.approx(0.92308, abs=5e-6)


def test_a_bend_or_a_misread_angle_that_nothing_tells_apart_are_both_named(foretold: Foretold) -> None:
    causes = compare_piece(foretold, piece_of(angle_1=87.0, angle_2=90.0)).causes
    assert len(causes) == 1
    assert {causes[0].kind, *(rival.kind for rival in causes[0].rivals)} == {"bend", "misread"}


RUN = np.array(((314, -512, -145), (314, -262, -145), (14, -262, -145), (-146, -102, -145), (-44, 0, 0), (285, 0, 0)))


@pytest.mark.parametrize(
    ("kind", "amount", "expected"),
    [
        ("angles", np.radians(0.5), (2.98, 2.65, 2.90, 2.57)),
        ("rotations", np.radians(0.5), (None, 2.61, 3.52, 2.49)),
        ("feeds", 0.5, (0.5, 0.5, 0.5, 0.5)),
    ],
)
def test_which_error_matters(kind: str, amount: float, expected: tuple[float | None, ...]) -> None:
    """A pipe run of whole millimetres, cut at the rear: how far its end moves, worked out elsewhere to 0.01 mm.

    There a bend of another angle has the same radius, so its arc is longer.
    """
    law = SpringLaw(die_clr=76.0, arc=0.0, arc_per_degree=np.radians(76.0))
    vertices = tuple(Vertex(x=float(x), y=float(y), z=float(z)) for x, y, z in RUN)
    program = program_of(part_for(Centreline(vertices=vertices)), profile_of(Setting(), (law,)))
    foretold = foretold_of_program(replace(program, blank=replace(program.blank, rear_trim=50.0)))
    for i, distance in enumerate(expected):
        if distance is None:
            continue
        misses = np.zeros((2, len(KINDS), 4))
        misses[1, KINDS.index(kind), i] = amount
        if kind == "angles":
            misses[1, KINDS.index("arcs"), i] = 76.0 * amount
        tubes = missed_tubes(foretold, misses_of_array(misses))
        ends = bent_axes(tubes.straights, tubes.rotations, tubes.angles, tubes.clr)[0][:, -1]
        assert np.linalg.norm(ends[1] - ends[0]) == pytest.approx(distance, abs=0.006)
