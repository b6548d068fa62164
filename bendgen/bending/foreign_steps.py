"""From steps in somebody else's form to the finished bends they make."""

from dataclasses import replace

import numpy as np

from bendgen.bending.die_curves import table_and_curves
from bendgen.bending.replay import finished_bends, replay_steps
from bendgen.bending.tooling import die_for_bend
from bendgen.errors import GeometryError, ToolingError
from bendgen.geometry.vectors import Array
from bendgen.records.found_tube import FoundTube
from bendgen.records.machine import MachineProfile
from bendgen.records.part import WantedBend, WantedSteps
from bendgen.records.step_list import ForeignSteps, ListedStep, StepList
from bendgen.records.tooling import DieSet
from bendgen.records.tube import Tube
from bendgen.units import RADIANS_PER_DEGREE, format_length, within_half_turn

SPARE = 1e-6  # mm; a feed that comes out as less below 0 is 0, rounded


def needs_machine(foreign: ForeignSteps) -> bool:
    """Whether only a machine's tables tell what tube the steps make."""
    return foreign.steps.angles != "finished" or foreign.feed in ("passed", "carriage")


def tube_without_machine(foreign: ForeignSteps, rear: float) -> FoundTube:
    """Tube of finished angles and plain feeds; rear: the straight behind the last bend [mm]."""
    steps = _neutral(foreign, feeds=_plain_feeds(foreign))
    bends = tuple(
        WantedBend(straight=step.feed, rotation_deg=step.rotation_deg, angle_deg=step.bend_deg, clr=clr)
        for step, clr in zip(steps, foreign.clr, strict=True)
    )
    found = _found(foreign, WantedSteps(bends=bends, rear=rear))
    if any(step.die for step in foreign.steps.steps):
        return replace(found, ignored=(*found.ignored, "column 'die': only a machine tells what CLR its die sets have"))
    return found


def tube_on_machine(
    foreign: ForeignSteps, completed: StepList, profile: MachineProfile, *, rear: float | None
) -> FoundTube:
    """Tube that the steps make on a machine, springback taken off and feeds freed of what bends use.

    Parameters
    ----------
    foreign : the steps as read
    completed : the same list with its tube, die sets and blank
    rear : straight behind the last bend [mm]; None: what the blank leaves

    Raises
    ------
    ToolingError     no die set or table serves, the list asks for two at one bend, or the blank is missing
    GeometryError    a feed comes out below 0
    """
    tube = completed.tube
    assert tube is not None  # whoever completes a list names it
    dies = [_die(foreign, clr, tube, profile, step) for clr, step in zip(foreign.clr, completed.steps, strict=True)]
    finished, given = finished_bends(completed, [table_and_curves(tube, die, profile)[1] for die in dies])
    used = given.clr * finished * RADIANS_PER_DEGREE - given.elongation
    if foreign.feed in ("incremental", "summed"):
        feeds = _plain_feeds(foreign)
    else:
        feeds = _feeds_between(_passed(foreign, completed.blank, profile), used)
    neutral = tuple(replace(step, die=die.id) for step, die in zip(_neutral(foreign, feeds=feeds), dies, strict=True))
    made = replay_steps(replace(completed, steps=neutral), profile, rear=rear).tube
    said = [
        listed.die is not None or clr is not None for listed, clr in zip(foreign.steps.steps, foreign.clr, strict=True)
    ]
    bends = tuple(
        WantedBend(
            straight=straight,
            rotation_deg=step.rotation_deg,
            angle_deg=bend.angle_deg,
            clr=die.clr if by_list else None,
        )
        for straight, step, bend, die, by_list in zip(made.straights, neutral, made.bends, dies, said, strict=False)
    )
    return _found(foreign, WantedSteps(bends=bends, rear=made.straights[-1]))


def _die(foreign: ForeignSteps, clr: float | None, tube: Tube, profile: MachineProfile, step: ListedStep) -> DieSet:
    """Die set of one step, by its name, its CLR, or as the only one."""
    die = die_for_bend(tube, profile, named=step.die, clr=clr)
    if step.die not in (None, die.id) and clr is not None:
        wanted = format_length(clr, foreign.units)
        raise ToolingError(
            f"step {step.number}: the list says CLR {wanted}, which '{die.id}' makes and not '{step.die}': "
            "name that die set, or leave the CLR to the other"
        )
    return die


def _found(foreign: ForeignSteps, wish: WantedSteps) -> FoundTube:
    return FoundTube(
        kind="steps in a CSV",
        units=foreign.units,
        wish=wish,
        understood=foreign.understood,
        ignored=foreign.ignored,
    )


def _plain_feeds(foreign: ForeignSteps) -> Array:
    listed = np.array([step.feed for step in foreign.steps.steps], dtype=float)
    return np.diff(listed, prepend=0.0) if foreign.feed == "summed" else listed


def _passed(foreign: ForeignSteps, blank: float | None, profile: MachineProfile) -> Array:
    """Blank past the tangent line when each bend starts."""
    listed = np.array([step.feed for step in foreign.steps.steps], dtype=float)
    if foreign.feed == "passed":
        return listed
    if blank is None:
        raise ToolingError("feeds counted from the carriage need the length of the blank")
    return blank - profile.carriage.grip - listed


def _feeds_between(passed: Array, used: Array) -> Array:
    feeds = np.diff(passed, prepend=0.0)
    feeds[1:] -= used[:-1]
    return feeds


def _neutral(foreign: ForeignSteps, *, feeds: Array) -> tuple[ListedStep, ...]:
    """Steps with incremental feeds and rotations, clockwise seen from the carriage; the first rotation is 0."""
    short = np.flatnonzero(feeds < -SPARE)
    if short.size:
        step = int(short[0])
        feed = format_length(float(feeds[step]), foreign.units)
        raise GeometryError(f"step {step + 1}: its feed comes out as {feed}; is the form of feed right?")
    listed = np.array([step.rotation_deg for step in foreign.steps.steps], dtype=float)
    turns = np.diff(listed, prepend=listed[:1]) if foreign.rotation == "absolute" else listed
    turns = turns if foreign.rotation_positive == "clockwise_from_carriage" else -turns
    turns[:1] = 0.0
    return tuple(
        replace(step, feed=max(feed, 0.0), rotation_deg=within_half_turn(turn))
        for step, feed, turn in zip(foreign.steps.steps, feeds.tolist(), turns.tolist(), strict=True)
    )
