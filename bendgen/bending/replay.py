"""What would these steps make? Any step list, played forward on the profile's machine."""

from collections.abc import Sequence

import numpy as np

from bendgen.bending.allowances import AllowanceCurves, Allowances
from bendgen.bending.compensation import allowances_for_bends, finished_for_bends
from bendgen.bending.die_curves import table_and_curves
from bendgen.bending.job import SPARE
from bendgen.bending.shapes import bent_tube, box_of_solid, in_own_frame, solid_of_tube
from bendgen.bending.tooling import die_for_bend
from bendgen.errors import ToolingError
from bendgen.geometry.vectors import Array
from bendgen.records.bent_tube import BentTube
from bendgen.records.machine import MachineProfile
from bendgen.records.replay import Replayed
from bendgen.records.step_list import StepList
from bendgen.units import RADIANS_PER_DEGREE, Units, format_length


def replay_steps(listed: StepList, profile: MachineProfile, *, rear: float | None = None) -> Replayed:
    """Bent tube that a step list makes.

    Parameters
    ----------
    listed : steps with their tube, whether angles are commanded or finished, and a blank unless `rear` is given
    profile : the machine; its tables tell what a commanded bend gives
    rear : straight behind the last bend after cutting [mm]; else it is what the blank leaves

    Raises
    ------
    ToolingError
        something is not said, no die set or table serves, or the steps use more tube than the blank has
    """
    tube = listed.tube
    if tube is None:
        raise ToolingError("a replay needs the tube: say its OD, wall and material")
    dies = [die_for_bend(tube, profile, named=step.die) for step in listed.steps]
    finished, given = finished_bends(listed, [table_and_curves(tube, die, profile)[1] for die in dies])
    feeds = np.array([step.feed for step in listed.steps], dtype=float)
    used = float(feeds.sum() + (given.clr * finished * RADIANS_PER_DEGREE - given.elongation).sum())
    rear_trim = listed.rear_trim or 0.0
    straights = np.append(feeds, _rear(listed, used + rear_trim, profile.units) if rear is None else rear)
    straights[0] -= listed.front_trim or 0.0
    rotations = np.array([step.rotation_deg for step in listed.steps], dtype=float)
    made = bent_tube(straights, finished, rotations, given.clr)
    blank = listed.blank if listed.blank is not None else used + float(straights[-1]) + rear_trim
    return _replayed(made, tube.od, blank)


def finished_bends(listed: StepList, curves: Sequence[AllowanceCurves]) -> tuple[Array, Allowances]:
    """Finished angle [deg] of each listed bend, and the allowances of a bend of that angle."""
    angles = np.array([step.bend_deg for step in listed.steps], dtype=float)
    if listed.angles is None:
        raise ToolingError("a replay needs to know whether the angles are commanded or finished")
    finished = finished_for_bends(curves, angles) if listed.angles == "commanded" else angles
    return finished, allowances_for_bends(curves, finished)


def _rear(listed: StepList, used: float, units: Units) -> float:
    """Straight that the blank leaves behind the last bend once the rear trim is cut off [mm]."""
    if listed.blank is None:
        raise ToolingError("a replay needs the blank or the rear straight")
    if listed.blank < used - SPARE:
        raise ToolingError(
            f"the steps use {format_length(used, units)} of tube, the blank is {format_length(listed.blank, units)}"
        )
    return listed.blank - used


def _replayed(made: BentTube, od: float, blank: float) -> Replayed:
    solid = in_own_frame(solid_of_tube(made))
    low, high = box_of_solid(solid, od)
    x, y, z = (high - low).tolist()
    return Replayed(tube=made, shape=solid.shape(), box=(x, y, z), blank=blank)
