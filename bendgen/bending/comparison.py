"""A measured piece held against its program: deviations, verdicts, the cause of the miss."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from statistics import fmean

import numpy as np

from bendgen.bending.causes import explain
from bendgen.bending.check_values import wanted_readings
from bendgen.bending.made_tube import made_tube
from bendgen.bending.measured_shape import fit_of_vertices, readings_of_vertices, vertices_of_axis
from bendgen.bending.reading_slips import ALONG_POINTS, slip_of_points, slips_of
from bendgen.errors import GeometryError
from bendgen.geometry.bendability import ovality_of_mean, ovality_of_nominal, roundness_ratio
from bendgen.records.comparison import Comparison, Deviation, Fit, Ovality, Slip, short_way
from bendgen.records.foretold import Foretold
from bendgen.records.measured import DIAMETER, MeasuredPiece, Reading, diameter_names


def compare_piece(foretold: Foretold, piece: MeasuredPiece) -> Comparison:
    """Every reading of a piece against what was foretold and what was wanted, and what explains the miss.

    Raises
    ------
    GeometryError
        points were measured on a part whose bends reach 180°: it has no vertices to hold them against
    """
    readings, fit = _read(foretold, piece)
    deviations = tuple(_deviations(foretold, readings))
    slips = _slips(foretold, piece, deviations)
    slipped = {slip.check for slip in slips}
    believed = () if ALONG_POINTS in slipped else readings
    values = {reading.check: reading.value for reading in believed if reading.check not in slipped}
    causes, explained = explain(foretold, values, taken_singly=bool(piece.readings))
    return Comparison(
        piece=piece.piece,
        lot=piece.lot,
        deviations=deviations,
        slips=slips,
        made=made_tube(foretold, values),
        fit=fit,
        ovality=tuple(_ovalities(values, foretold.tube.od)),
        causes=causes,
        explained=explained,
    )


def _slips(foretold: Foretold, piece: MeasuredPiece, deviations: Sequence[Deviation]) -> tuple[Slip, ...]:
    if piece.readings:
        return slips_of(deviations)
    of_points = slip_of_points(foretold, piece)
    return () if of_points is None else (of_points,)


def mean_piece(pieces: Sequence[MeasuredPiece]) -> MeasuredPiece:
    """One piece that reads as all of them do on average; a single piece is itself.

    Raises
    ------
    GeometryError
        points were measured on more than one, or they are of more than one lot: their mean is like none of them
    """
    if len(pieces) == 1:
        return pieces[0]
    if not all(piece.readings for piece in pieces):
        raise GeometryError("points of more than one piece: correct by the points of one")
    lots = sorted({piece.lot for piece in pieces if piece.lot is not None})
    if len(lots) > 1:
        raise GeometryError(f"pieces of more than one lot, {', '.join(map(repr, lots))}: correct by the pieces of one")
    by_check: defaultdict[str, list[Reading]] = defaultdict(list)
    for piece in pieces:
        for reading in piece.readings:
            by_check[reading.check].append(reading)
    means = tuple(_mean_reading(readings) for readings in by_check.values())
    return MeasuredPiece(piece=f"{pieces[0].piece} to {pieces[-1].piece}", lot=pieces[0].lot, readings=means)


def _mean_reading(readings: Sequence[Reading]) -> Reading:
    """Mean of readings of one check; of rotations the shorter way round, so that 179° and -179° make 180° and not 0."""
    first = readings[0]
    return replace(first, value=first.value + fmean(short_way(r.value - first.value, r.check) for r in readings))


def _read(foretold: Foretold, piece: MeasuredPiece) -> tuple[list[Reading], Fit | None]:
    """Readings as taken, or as measured points tell them; points have no line of their own, 0."""
    if piece.readings:
        return list(piece.readings), None
    if foretold.wanted.vertices is None:
        raise GeometryError("bends of 180° and more have no vertices: measure this part by its checks")
    fit: Fit | None = None
    vertices: np.ndarray | None = np.array(piece.vertices)
    if piece.axis:
        fit, vertices = vertices_of_axis(foretold, np.array(piece.axis))
    if vertices is None:
        return [], fit
    fit = fit or fit_of_vertices(foretold, vertices)
    told = readings_of_vertices(foretold, vertices)
    return [Reading(line=0, check=check, value=value) for check, value in told.items()], fit


def _deviations(foretold: Foretold, readings: list[Reading]) -> Iterator[Deviation]:
    """Readings in the order of the sheet's checks."""
    by_check = {reading.check: reading for reading in readings}
    for check, wanted in zip(foretold.checks, wanted_readings(foretold), strict=True):
        reading = by_check.get(check.id)
        if reading is None:
            continue
        yield Deviation(
            check=check.id,
            quantity=check.quantity,
            line=reading.line or None,
            measured=reading.value,
            predicted=check.predicted,
            wanted=wanted,
            tolerance=check.tolerance,
            unit=check.unit,
        )


def _ovalities(values: dict[str, float], od: float) -> Iterator[Ovality]:
    """Every bend whose largest and smallest diameter were measured."""
    bends = sorted({int(found[2]) for name in values if (found := DIAMETER.fullmatch(name))})
    for bend in bends:
        largest, smallest = map(values.get, diameter_names(bend))
        if largest is not None and smallest is not None:
            yield Ovality(
                bend=bend,
                largest=largest,
                smallest=smallest,
                of_mean=100.0 * ovality_of_mean(largest, smallest),
                of_nominal=100.0 * ovality_of_nominal(largest, smallest, od),
                ratio=roundness_ratio(largest, smallest),
            )
