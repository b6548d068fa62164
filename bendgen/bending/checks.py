"""Readings that QA takes, each with its predicted value: what it means stands in DEVELOPERS.md, Measures."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from bendgen.bending.iso2768 import angle_tolerance_deg, length_tolerance
from bendgen.bending.shapes import Solid, box_of_solid
from bendgen.geometry import legs
from bendgen.geometry.bent_axes import apart
from bendgen.geometry.vectors import cross
from bendgen.records.bend_program import Blank, Check
from bendgen.records.bent_tube import Bend, BentTube
from bendgen.records.part import Part
from bendgen.units import RADIANS_PER_DEGREE

PARALLEL = 1e-4  # sine of the angle between end axes up to which an offset has a meaning, some 0.006°
STRAIGHTEDGES_MEET_UP_TO_DEG = 150.0
CROWN_FROM_DEG, CROWN_TO_DEG = 85.0, 95.0
SAW_CHECK = 1.0  # a rear cut that far off its place means a wrong elongation [mm]; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Predicted:
    """What the checks are read from: the finished tube and where it lies, and the wanted one."""

    part: Part
    tube: BentTube
    solid: Solid
    wanted: Solid
    blank: Blank


def checks_of(predicted: Predicted) -> tuple[Check, ...]:
    """Every reading of a part, in the order in which it is made."""
    return (
        *_blank_checks(predicted),
        *_bend_checks(predicted),
        *_end_leg_checks(predicted),
        *_end_to_end_checks(predicted),
        *_box_checks(predicted),
    )


def apex_leg(straight: float, clr: float, angle_deg: float) -> float:
    """End to vertex: the straight and the tangent length [mm]."""
    return float(legs.apex_leg(straight, clr, angle_deg * RADIANS_PER_DEGREE))


def outer_apex_leg(straight: float, clr: float, angle_deg: float, od: float) -> float:
    """End to where straightedges on the outside of both legs cross [mm]."""
    return float(legs.outer_apex_leg(straight, clr, angle_deg * RADIANS_PER_DEGREE, od))


def _length(predicted: Predicted, name: tuple[str, str], span: tuple[str, str, str], value: float) -> Check:
    """Check of a length: name is id and quantity, span is start, end and when."""
    return Check(
        id=name[0],
        quantity=name[1],
        start=span[0],
        end=span[1],
        when=span[2],
        predicted=value,
        tolerance=length_tolerance(predicted.part.tolerance, value),
        unit="mm",
    )


def _blank_checks(predicted: Predicted) -> Iterator[Check]:
    blank = predicted.blank
    span = ("front end", "rear end", "before bending")
    yield _length(predicted, ("blank", "blank length"), span, blank.length)
    for mark in blank.cut_marks:
        if mark.when == "check_only":
            yield Check(
                id="rear-cut",
                quantity="rear cut mark: farther off means the elongation is wrong, stop",
                start="rear end",
                end="rear cut mark",
                when="after bending",
                predicted=mark.distance,
                tolerance=SAW_CHECK,
                unit="mm",
            )


def _bend_checks(predicted: Predicted) -> Iterator[Check]:
    tube, last = predicted.tube, len(predicted.tube.bends)
    apex_legs = _apex_legs(tube)
    for step, bend in enumerate(tube.bends, start=1):
        when = f"after step {step}"
        if step > 1:
            straight = tube.straights[step - 1]
            span = (f"end of bend {step - 1}", f"start of bend {step}", when)
            yield _length(predicted, (f"straight-{step}", "straight"), span, straight)
            yield _angle(predicted, f"rotation-{step}", "rotation", bend.rotation_deg, (step - 1, step))
        if bend.angle_deg < 180.0:
            shorter = min(apex_legs[step - 1], apex_legs[step])
            tolerance = angle_tolerance_deg(predicted.part.tolerance, shorter)
            yield Check(
                id=f"angle-{step}",
                quantity="angle, protractor on the straights",
                start=f"straight {step}",
                end=f"straight {step + 1}",
                when=when if step < last else "after bending",
                predicted=bend.angle_deg,
                tolerance=tolerance,
                unit="deg",
            )


def _angle(predicted: Predicted, check_id: str, quantity: str, value: float, bends: tuple[int, int]) -> Check:
    before, after = bends
    shorter = predicted.tube.straights[before]
    return Check(
        id=check_id,
        quantity=quantity,
        start=f"plane of bend {before}",
        end=f"plane of bend {after}",
        when=f"after step {after}",
        predicted=value,
        tolerance=angle_tolerance_deg(predicted.part.tolerance, max(shorter, 0.0)),
        unit="deg",
    )


def _apex_legs(tube: BentTube) -> list[float]:
    """Length of every straight from apex to apex, for the choice of an angular tolerance [mm]."""
    apex_legs = list(tube.straights)
    for i, bend in enumerate(tube.bends):
        tangent = apex_leg(0.0, bend.clr, min(bend.angle_deg, STRAIGHTEDGES_MEET_UP_TO_DEG))
        apex_legs[i] += tangent
        apex_legs[i + 1] += tangent
    return apex_legs


def _end_leg_checks(predicted: Predicted) -> Iterator[Check]:
    tube = predicted.tube
    if not tube.bends:
        span = ("front end", "rear end", "after cutting")
        yield _length(predicted, ("length", "finished length"), span, tube.straights[0])
        return
    yield from _legs_of_end(predicted, "front", tube.straights[0], tube.bends[0])
    yield from _legs_of_end(predicted, "rear", tube.straights[-1], tube.bends[-1])


def _legs_of_end(predicted: Predicted, end: str, straight: float, bend: Bend) -> Iterator[Check]:
    od, when = predicted.part.tube.od, "after cutting"
    if bend.angle_deg <= STRAIGHTEDGES_MEET_UP_TO_DEG:
        leg = apex_leg(straight, bend.clr, bend.angle_deg)
        yield _length(predicted, (f"apex-leg-{end}", "apex leg"), (f"{end} end", "vertex", when), leg)
        leg = outer_apex_leg(straight, bend.clr, bend.angle_deg, od)
        name = (f"outer-apex-leg-{end}", "outer-apex leg, two straightedges")
        yield _length(predicted, name, (f"{end} end", "outer apex", when), leg)
    if CROWN_FROM_DEG <= bend.angle_deg <= CROWN_TO_DEG:
        leg = legs.crown_leg(straight, bend.clr, od)
        name = (f"crown-leg-{end}", "crown leg, tape over the outside")
        yield _length(predicted, name, (f"{end} end", "crown of the bend", when), leg)


def _end_to_end_checks(predicted: Predicted) -> Iterator[Check]:
    """Offset of ends that run on in parallel; width of a part whose ends come back."""
    first, last = predicted.wanted.directions[0], predicted.wanted.directions[-1]
    if not predicted.tube.bends or float(np.linalg.norm(cross(first, last))) > PARALLEL:
        return
    solid = predicted.solid
    distance = float(apart(solid.points[None], solid.directions[None])[0])
    od = predicted.part.tube.od
    if float(first @ last) > 0.0:
        rows = [("offset", "offset, same side of the tube to same side at the centre of the cut end", distance)]
    else:
        rows = [
            ("width-outside", "width over the outside of the legs", distance + od),
            ("width-centreline", "width between the axes of the legs", distance),
            ("width-inside", "width between the legs", distance - od),
        ]
    for check_id, quantity, value in rows:
        yield Check(
            id=check_id,
            quantity=quantity,
            start="front end",
            end="rear end",
            when="after cutting",
            predicted=value,
            tolerance=predicted.part.tolerance.offset,
            unit="mm",
        )


def _box_checks(predicted: Predicted) -> Iterator[Check]:
    low, high = box_of_solid(predicted.solid, predicted.part.tube.od)
    for axis, along, size in zip("xyz", _axes(predicted.part), (high - low).tolist(), strict=True):
        name = (f"box-{axis}", f"overall box over the OD, along {along}")
        yield _length(predicted, name, (f"lowest {axis}", f"highest {axis}", "after cutting"), size)


def _axes(part: Part) -> tuple[str, str, str]:
    """Axes of the box in words: those of the part's file, where it has any; steps end as the machine leaves them."""
    if part.steps is not None:
        return "the last straight", "the way in which the last bend goes", "the way square to both"
    if part.offset is not None:
        return "the end axes", "the level way across them", "the way up"
    return "x of the part's file", "y of the part's file", "z of the part's file"
