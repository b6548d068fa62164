"""A small picture for every step: the tube as it lies in the machine just before that bend.

On the left it is seen from the carriage, along the feed; on the right from above, with the carriage at the left. Each
view is as large as there is room. The lower a picture, the less is written in it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from htpy import Element

from bendgen.geometry.vectors import Array
from bendgen.records.bend_program import BendProgram, BendStep
from bendgen.records.lying import Lying
from bendgen.reports.drawings import machine_symbols as symbols
from bendgen.reports.drawings.callouts import balloon, callout
from bendgen.reports.drawings.labels import Box, FreeSpace, inked
from bendgen.reports.drawings.paper import Ink, arrow, drawing, group, words
from bendgen.reports.drawings.picture_frame import USUAL_SIZE, PictureFrame, picture_frame
from bendgen.reports.drawings.tube_body import tube_body
from bendgen.reports.drawings.views import View, fitting_view

TURN_ROOM = 4.0  # around the axis, for the arrow that shows the turn
CARRIAGE_STRIP = 6.0  # kept free for the carriage, left of the tube in plan

FROM_CARRIAGE = (np.array([0.0, -1.0, 0.0]), np.array([0.0, 0.0, 1.0]))
FROM_ABOVE = (np.array([1.0, 0.0, 0.0]), np.array([0.0, 1.0, 0.0]))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Scene:
    """One step, seen twice.

    axis : (k, 3) array, the tube's axis from its front end to the last of it that is shown, at the carriage [mm]
    carriage, plan : the two views
    frame : the paper they stand on
    """

    program: BendProgram
    step: BendStep
    lies: Lying
    axis: Array
    carriage: View
    plan: View
    frame: PictureFrame


def step_pictures(
    program: BendProgram, lying: Sequence[Lying], size: tuple[float, float] = USUAL_SIZE
) -> tuple[Element, ...]:
    """One picture for each step, of that width and height [paper mm]; lying: how the tube lies before each."""
    frame, pairs = picture_frame(*size), zip(program.steps, lying, strict=True)
    return tuple(_picture(_scene(program, step, lies, frame)) for step, lies in pairs)


def _picture(scene: Scene) -> Element:
    title = f"The tube before bend {scene.step.number}: on the left seen from the carriage, on the right from above"
    panels = (
        group(_from_carriage(scene), class_="from-carriage", **scene.carriage.attributes()),
        group(_from_above(scene), class_="from-above", **scene.plan.attributes()),
    )
    return drawing(scene.frame.width, scene.frame.height, title, panels)


def _scene(program: BendProgram, step: BendStep, lies: Lying, frame: PictureFrame) -> Scene:
    """Both views as large as tube and die leave room for."""
    od, side, die = program.part.tube.od, symbols.towards_die(program), program.profile.die(step.die)
    tube = np.array(lies.axis)
    behind = min(step.carriage_before, max(1.3 * die.clr, 0.3 * float(tube[:, 0].max())))
    axis = np.concatenate((tube, [(-behind, 0.0, 0.0)]))
    in_plan = np.array([(die.clr, side * die.clr, 0.0), (die.clamp, -1.3 * side * od, 0.0)])
    on_edge = np.array([(0.0, side * die.clr, od), (0.0, -side * od, -od)])
    carriage_room, plan_room = _rooms(program, frame)
    return Scene(
        program=program,
        step=step,
        lies=lies,
        axis=axis,
        carriage=_carriage_view(np.concatenate((axis, on_edge)), carriage_room, 0.5 * od),
        plan=fitting_view(FROM_ABOVE, np.concatenate((axis, in_plan)), plan_room, 0.5 * od),
        frame=frame,
    )


def _carriage_view(points: Array, room: Box, margin: float) -> View:
    """View along the feed that leaves room for an arrow round the tube's axis."""
    x, y = fitting_view(FROM_CARRIAGE, points, room, margin).place(0.0, 0.0, 0.0)
    left, right = max(0.0, TURN_ROOM - x + room.left), max(0.0, TURN_ROOM - room.right + x)
    above, below = max(0.0, TURN_ROOM - y + room.top), max(0.0, TURN_ROOM - room.bottom + y)
    inner = Box(left=room.left + left, top=room.top + above, right=room.right - right, bottom=room.bottom - below)
    return fitting_view(FROM_CARRIAGE, points, inner, margin)


def _rooms(program: BendProgram, frame: PictureFrame) -> tuple[Box, Box]:
    """Parts of the two panels that carriage and operator leave free."""
    beside, plan, stands, strip = frame.carriage, frame.plan, program.profile.operator_stands, frame.operator_strip
    left, right = strip * (stands == "left"), strip * (stands == "right")
    behind = CARRIAGE_STRIP + strip * (stands is not None)
    return (
        Box(left=beside.left + left, top=beside.top, right=beside.right - right, bottom=beside.bottom),
        Box(left=plan.left + behind, top=plan.top, right=plan.right, bottom=plan.bottom),
    )


def _from_carriage(scene: Scene) -> Iterator[Ink]:
    """Die, tube and turn as somebody sees them who stands behind the carriage."""
    view, program, step, panel = scene.carriage, scene.program, scene.step, scene.frame.carriage
    die, side, od = program.profile.die(step.die), symbols.towards_die(program), program.part.tube.od
    turn = symbols.turn_path(step, scene.lies, view, panel)
    space = FreeSpace(panel, np.concatenate((inked(view.places(scene.axis)), turn)), 0.5 * od * view.scale)
    symbols.keep_off_tools_on_edge(space, die, side, view)
    yield symbols.die_on_edge(die, side, view)
    yield symbols.clamp_on_edge(die, side, view)
    yield group(tube_body(scene.axis, od, view), class_="tube")
    yield symbols.tube_end(od, view)
    if len(turn):
        yield group((arrow("outline", turn),), class_="turn")
    yield from symbols.operator_beside(program, scene.frame, space)
    if not scene.frame.captioned:
        return
    yield words("from the carriage", (panel.left, 3.5), anchor="start")
    yield callout("die", space, view.place(0.0, side * 0.6 * die.clr, 0.0))
    yield callout("clamp", space, view.place(0.0, -side * od, 0.0))


def _from_above(scene: Scene) -> Iterator[Ink]:
    """Carriage, die, clamp and tube in plan."""
    view, program, step, panel = scene.plan, scene.program, scene.step, scene.frame.plan
    die, side, od = program.profile.die(step.die), symbols.towards_die(program), program.part.tube.od
    space = FreeSpace(panel, inked(view.places(scene.axis)), 0.5 * od * view.scale)
    symbols.keep_off_tools_in_plan(space, die, side, view)
    yield symbols.die_in_plan(die, side, view)
    yield symbols.clamp_in_plan(die, side, view)
    yield symbols.carriage_in_plan(step, float(scene.axis[-1, 0]), od, view)
    space.block(symbols.carriage_box(float(scene.axis[-1, 0]), od, view))
    yield group(tube_body(scene.axis, od, view), class_="tube")
    yield from symbols.operator_in_plan(program, scene.frame, space)
    yield balloon(step.number, space, view.place(0.0, 0.0, 0.0), now=True)
    for number in _numbers_of_made(scene):
        yield balloon(number, space, view.place(*scene.lies.bent_at[number - 1]))
    if not scene.frame.captioned:
        return
    yield words("from above", (panel.left, 3.5), anchor="start")
    yield from symbols.feed_arrow((panel.left + 24.0, 3.5))
    yield callout("die", space, view.place(0.0, side * 0.6 * die.clr, 0.0))
    yield callout("clamp", space, view.place(0.5 * die.clamp, -side * 1.3 * od, 0.0))


def _numbers_of_made(scene: Scene) -> Iterator[int]:
    """Numbers of bends made before that there is room for: all, or the first and the last, or none."""
    last = len(scene.lies.bent_at)
    for number in range(1, last + 1):
        if scene.frame.captioned or (scene.frame.numbered and number in (1, last)):
            yield number
