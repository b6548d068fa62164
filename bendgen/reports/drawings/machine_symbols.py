"""Die, clamp, carriage, arrows and operator as they stand in the pictures of the steps."""

import math
from collections.abc import Iterator, Sequence

import numpy as np

from bendgen.geometry.vectors import Array
from bendgen.records.bend_program import BendProgram, BendStep
from bendgen.records.lying import Lying
from bendgen.records.tooling import DieSet
from bendgen.reports.drawings.callouts import callout
from bendgen.reports.drawings.labels import Box, FreeSpace
from bendgen.reports.drawings.paper import (
    MACHINE,
    Ink,
    Place,
    arrow,
    circle,
    ellipse,
    group,
    number,
    path_data,
    polyline,
    rectangle,
    shape,
    words,
)
from bendgen.reports.drawings.picture_frame import PictureFrame
from bendgen.reports.drawings.views import View
from bendgen.units import RADIANS_PER_DEGREE

TURN_RADII = (7.5, 6.5, 5.5, 4.5, 3.5)  # the largest that has room
SMALLEST_TURN_DEG = 40.0
CARRIAGE_LENGTH = 4.5  # what is shown of it
CLAMP_OUT = 1.3  # how far the clamp goes from the axis, over the diameter; no profile tells it


def towards_die(program: BendProgram) -> float:
    """Sign of y on the side of the die."""
    return 1.0 if program.profile.bend.side == "left" else -1.0


def die_in_plan(die: DieSet, side: float, view: View) -> Ink:
    """The half of the bend die that is nearer to the tube, from above, as large as the centreline in its groove."""
    (x, y), radius = view.place(0.0, side * die.clr, 0.0), number(die.clr * view.scale)
    left, right = x - die.clr * view.scale, x + die.clr * view.scale
    towards_tube = 0 if side > 0.0 else 1
    path = f"M{number(left)} {number(y)}A{radius} {radius} 0 0 {towards_tube} {number(right)} {number(y)}"
    return shape("narrow", path, MACHINE)


def clamp_in_plan(die: DieSet, side: float, view: View) -> Ink:
    """Clamp from above: it holds the straight ahead of the bend, across from the die."""
    return rectangle("narrow", *_clamp_in_plan(die, side, view), MACHINE)


def _clamp_in_plan(die: DieSet, side: float, view: View) -> tuple[Place, Place]:
    near, far = -side * 0.5 * die.tube_od, -side * CLAMP_OUT * die.tube_od
    return view.place(0.0, near, 0.0), view.place(die.clamp, far, 0.0)


def carriage_in_plan(step: BendStep, end: float, od: float, view: View) -> Ink:
    """Collet and carriage at the end of the tube that is shown; nearer than true where there is no room."""
    box = carriage_box(end, od, view)
    block = rectangle("narrow", (box.left, box.top), (box.right, box.bottom), MACHINE)
    if step.carriage_before <= -end:
        return block
    x = box.right
    breaks = [polyline("narrow", ((x + at, box.top), (x + at + 1.0, box.bottom))) for at in (2.0, 3.0)]
    return group((block, *breaks))


def carriage_box(end: float, od: float, view: View) -> Box:
    """Where the carriage is drawn, behind the end of the tube that is shown."""
    x, y = view.place(end, 0.0, 0.0)
    half = max(0.9 * od * view.scale, 1.8)
    return Box(left=x - CARRIAGE_LENGTH, top=y - half, right=x, bottom=y + half)


def feed_arrow(at: Place) -> Iterator[Ink]:
    """Which way the tube is fed; the word begins at a place, the arrow stands behind it."""
    x, y = at
    yield words("feed", at, anchor="start")
    yield arrow("narrow", ((x + 10.0, y - 1.2), (x + 20.0, y - 1.2)))


def die_on_edge(die: DieSet, side: float, view: View) -> Ink:
    """Bend die as seen along the feed."""
    return rectangle("narrow", *_die_on_edge(die, side, view), MACHINE)


def clamp_on_edge(die: DieSet, side: float, view: View) -> Ink:
    """Clamp as seen along the feed, across from the die."""
    return rectangle("narrow", *_clamp_on_edge(die, side, view), MACHINE)


def _die_on_edge(die: DieSet, side: float, view: View) -> tuple[Place, Place]:
    half = 0.8 * die.tube_od
    return view.place(0.0, 0.0, half), view.place(0.0, side * die.clr, -half)


def _clamp_on_edge(die: DieSet, side: float, view: View) -> tuple[Place, Place]:
    near, far, half = -side * 0.5 * die.tube_od, -side * CLAMP_OUT * die.tube_od, 0.5 * die.tube_od
    return view.place(0.0, near, half), view.place(0.0, far, -half)


def keep_off_tools_in_plan(space: FreeSpace, die: DieSet, side: float, view: View) -> None:
    """Keep words off the outlines of die and clamp from above."""
    (x, y), radius = view.place(0.0, side * die.clr, 0.0), die.clr * view.scale
    around = np.linspace(0.0, side * math.pi, 13)
    rim = np.stack((x + radius * np.cos(around), y + radius * np.sin(around)), axis=1)
    space.draw_line(*rim, rim[0])
    space.draw_line(*_corners(*_clamp_in_plan(die, side, view)))


def keep_off_tools_on_edge(space: FreeSpace, die: DieSet, side: float, view: View) -> None:
    """The same as seen along the feed."""
    space.draw_line(*_corners(*_die_on_edge(die, side, view)))
    space.draw_line(*_corners(*_clamp_on_edge(die, side, view)))


def _corners(low: Place, high: Place) -> tuple[Place, ...]:
    """Corners of a rectangle, from one all round and back to it."""
    return low, (high[0], low[1]), high, (low[0], high[1]), low


def tube_end(od: float, view: View) -> Ink:
    """The tube as it comes out of the collet, towards whoever stands at the carriage."""
    return circle("outline", view.place(0.0, 0.0, 0.0), max(0.5 * od * view.scale - 0.25, 1.0), "white")


def turn_path(step: BendStep, lies: Lying, view: View, panel: Box) -> Array:
    """Places of an arc from where the last bend lay to where it lies now, a (k, 2) array; empty where nothing turns.

    A turn too small to be seen is drawn larger, from farther back: its sense must be plain.
    """
    if step.rotation_deg == 0.0:
        return np.empty((0, 2))
    now = _clock_of_last_bend(lies)
    turn = math.copysign(max(abs(step.rotation_deg), SMALLEST_TURN_DEG), step.rotation_deg)
    swept = np.linspace(now - turn, now, 40) * RADIANS_PER_DEGREE
    ways = np.stack((np.sin(swept), -np.cos(swept)), axis=1)
    arcs = [np.asarray(view.place(0.0, 0.0, 0.0)) + radius * ways for radius in TURN_RADII]
    return next((arc for arc in arcs if _is_within(arc, panel)), arcs[-1])


def _is_within(places: Array, panel: Box) -> bool:
    return bool((places > (panel.left, panel.top)).all() and (places < (panel.right, panel.bottom)).all())


def _clock_of_last_bend(lies: Lying) -> float:
    """Clock position, seen from the carriage, towards which the last bend made goes; up where there is none."""
    if not lies.bent_at:
        return 0.0
    _, y, z = lies.bent_at[-1]
    return math.atan2(-y, z) / RADIANS_PER_DEGREE


def operator_in_plan(program: BendProgram, frame: PictureFrame, space: FreeSpace) -> Iterator[Ink]:
    """The operator's own place from above: head and shoulders; nothing where the profile does not tell it."""
    panel, half, stands = frame.plan, 0.5 * frame.operator_strip, program.profile.operator_stands
    heights = {"left": panel.top + half, "right": panel.bottom - half, "carriage": panel.centre[1]}
    if stands is not None:
        at = panel.left + half, heights[stands]
        shoulders = ellipse("outline", at, (0.33 * half, half), 0.0 if stands == "carriage" else 90.0, "black")
        yield from _operator((shoulders, circle("narrow", at, 0.55 * half, "white")), at, frame, space)


def operator_beside(program: BendProgram, frame: PictureFrame, space: FreeSpace) -> Iterator[Ink]:
    """The same as seen from the carriage, head on shoulders; somebody at the carriage sees just this picture."""
    panel, half = frame.carriage, 0.5 * frame.operator_strip
    places = {"left": panel.left + half, "right": panel.right - half}
    x, y = places.get(program.profile.operator_stands or "", math.nan), panel.centre[1]
    if not math.isnan(x):
        body = [(x - 0.4 * half, y), (x + 0.4 * half, y), (x + 0.8 * half, y + half), (x - 0.8 * half, y + half)]
        person = (
            shape("outline", path_data(body), "black"),
            circle("narrow", (x, y - 0.4 * half), 0.5 * half, "white"),
        )
        yield from _operator(person, (x, y), frame, space)


def _operator(person: Sequence[Ink], at: Place, frame: PictureFrame, space: FreeSpace) -> Iterator[Ink]:
    """Somebody who stands there, and the word for it where there is room."""
    x, y = at
    half = 0.5 * frame.operator_strip
    space.block(Box(left=x - half, top=y - half, right=x + half, bottom=y + half))
    yield group(person, class_="operator")
    if frame.numbered:
        yield callout("you", space, at)
