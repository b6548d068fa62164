"""What the machine is told: rounded to its resolution, in its own form, and the same in neutral form."""

from dataclasses import dataclass

import numpy as np

from bendgen.bending.allowances import Allowances
from bendgen.bending.blank import STAYS_ON, BlankPlan
from bendgen.bending.compensation import Bends, allowances_for_bends, finished_for_bends
from bendgen.geometry.vectors import Array
from bendgen.records.bend_program import MachineStep
from bendgen.records.machine import MachineProfile, OutputForm
from bendgen.units import RADIANS_PER_DEGREE, units_from_mm, within_half_turn

HALFWAY_DECIMALS = 6  # of one step of a resolution; finer differences are noise

NOISE_DECIMALS = 10  # of a product or a difference [mm, deg]; no machine is told that many


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Positions:
    """Where things are when each of n bends starts, (n,) arrays [mm]; exact or rounded.

    straight_ahead : in front of the bend; passed : blank length past the tangent line
    carriage_before, carriage_after : collet face to tangent line
    """

    straight_ahead: Array
    passed: Array
    carriage_before: Array
    carriage_after: Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Commands:
    """Rounded commands of n bends, (n,) arrays, and what they will give.

    feeds [mm], rotations_deg, commanded_deg : neutral form
    turns_deg : the rotations as the collet makes them, which may go the long way round
    machine_feeds [mm], machine_rotations_deg : form and sign of the profile's output, not yet in its unit
    finished_deg, given : angle and allowances that the rounded command gives
    used : blank length that goes into each bend [mm]
    """

    feeds: Array
    rotations_deg: Array
    turns_deg: Array
    commanded_deg: Array
    machine_feeds: Array
    machine_rotations_deg: Array
    finished_deg: Array
    given: Allowances
    used: Array
    positions: Positions


def exact_feeds(bends: Bends, front_trim: float) -> Array:
    """Incremental feeds before rounding: the straight before each bend, the first with the front trim, (n,) [mm]."""
    feeds = bends.straights[:-1].copy()
    if feeds.size:
        feeds[0] += front_trim
    return feeds


def positions_from_feeds(feeds: Array, used: Array, blank: float, grip: float) -> Positions:
    """Positions that follow from incremental feeds and the blank used by each bend, (n,) arrays [mm]."""
    passed = np.cumsum(feeds)
    passed[1:] += np.cumsum(used[:-1])
    before = blank - grip - passed
    return Positions(straight_ahead=feeds, passed=passed, carriage_before=before, carriage_after=before - used)


def rounded_commands(bends: Bends, blank: BlankPlan, profile: MachineProfile) -> Commands:
    """Commands at the machine's resolution; each rounds the quantity that the machine is given."""
    commanded = _rounded(bends.commanded_deg, profile.bend.resolution_deg)
    finished = finished_for_bends(bends.curves, commanded - bends.lost_motion_deg)
    given = allowances_for_bends(bends.curves, finished)
    used = given.clr * finished * RADIANS_PER_DEGREE - given.elongation
    grip = profile.carriage.grip
    exact = positions_from_feeds(exact_feeds(bends, blank.front_trim), bends.used, blank.length, grip)
    machine_feeds, feeds = _rounded_feeds(exact, used, blank.length - grip, profile)
    machine_rotations, turns = rounded_turns(bends.rotations_deg, profile)
    return Commands(
        feeds=feeds,
        rotations_deg=_within_half_turn(turns),
        turns_deg=turns,
        commanded_deg=commanded,
        machine_feeds=machine_feeds,
        machine_rotations_deg=machine_rotations,
        finished_deg=finished,
        given=given,
        used=used,
        positions=positions_from_feeds(feeds, used, blank.length, grip),
    )


def _rounded_feeds(exact: Positions, used: Array, reach: float, profile: MachineProfile) -> tuple[Array, Array]:
    """Feeds as the machine is given them, and the incremental feeds that they come to, (n,) arrays [mm].

    Parameters
    ----------
    exact : positions before rounding
    used : blank that each rounded bend will use; a position-fed machine meets the next bend that much later
    reach : collet face to front end, blank less grip
    """
    resolution = profile.feed.resolution
    form = profile.output.feed
    if form in ("incremental", "summed"):
        summed = _rounded(np.cumsum(exact.straight_ahead), resolution)
        feeds = np.round(np.diff(summed, prepend=0.0), NOISE_DECIMALS)
        return (feeds if form == "incremental" else summed), feeds
    if form == "passed":
        given = passed = _rounded(exact.passed, resolution)
    else:
        given = _rounded(exact.carriage_before, resolution)
        passed = reach - given
    feeds = np.diff(passed, prepend=0.0)
    feeds[1:] -= used[:-1]
    return given, feeds


def rounded_turns(rotations_deg: Array, profile: MachineProfile) -> tuple[Array, Array]:
    """Rotations as the machine is given them, and the turns that the collet then makes, clockwise, (n,) arrays [deg].

    A collet with a limited range turns the other way round where only that stays within it.
    """
    resolution = profile.rotation.resolution_deg
    positions = collet_positions(rotations_deg, profile)
    if profile.output.rotation == "absolute":
        given = _rounded(positions, resolution)
        if profile.rotation.range_deg is None:
            given = _within_half_turn(given)  # a position, not a sum that grows turn by turn
        turns = np.diff(given, prepend=0.0)
    else:
        turns = _rounded(np.diff(positions, prepend=0.0), resolution)
        if profile.rotation.range_deg is None:
            turns = _within_half_turn(turns)
        given = turns
    return clockwise_sign(profile.output) * given + 0.0, turns


def clockwise_sign(output: OutputForm) -> float:
    """Sign that the machine's own rotations have where they turn clockwise seen from the carriage."""
    return 1.0 if output.rotation_positive == "clockwise_from_carriage" else -1.0


def collet_positions(rotations_deg: Array, profile: MachineProfile) -> Array:
    """Position of the collet at each bend, counted from the loaded tube [deg]; outside the range where none fits."""
    allowed = profile.rotation.range_deg
    positions = np.cumsum(rotations_deg)
    if allowed is None:
        return positions
    low, high = allowed[0] - 1e-6, allowed[1] + 1e-6
    for i, position in enumerate(positions):
        if not low <= position <= high:
            for other in (position - 360.0, position + 360.0):
                if low <= other <= high:
                    positions[i:] += other - position
                    break
    return positions


def machine_steps(commands: Commands, bends: Bends, profile: MachineProfile) -> tuple[MachineStep, ...]:
    """Steps in the unit and form of the profile's output."""
    units = profile.output.units
    return tuple(
        MachineStep(number=i + 1, die=die.id, feed=units_from_mm(feed, units), rotation=rotation, bend=bend)
        for i, (die, feed, rotation, bend) in enumerate(
            zip(
                bends.dies,
                commands.machine_feeds.tolist(),
                commands.machine_rotations_deg.tolist(),
                commands.commanded_deg.tolist(),
                strict=True,
            )
        )
    )


def _rounded(values: Array, resolution: float) -> Array:
    """Nearest multiple of the resolution; never -0.

    What lies halfway but for noise is halfway, so that a part moved or turned in space keeps its steps.
    """
    return np.round(np.round(values / resolution, HALFWAY_DECIMALS)) * resolution + 0.0


def _within_half_turn(rotations_deg: Array) -> Array:
    """The same rotations in (-180, 180]; a half turn but for noise is a half turn, and no noise is left."""
    told = np.round(rotations_deg, NOISE_DECIMALS)
    return np.round([within_half_turn(turn) for turn in told.tolist()], NOISE_DECIMALS)


def rear_straight(bends: Bends, blank: BlankPlan, commands: Commands, *, fed_beyond: float) -> float:
    """Straight behind the last bend: cut to the wanted length, or whatever is left where nothing is cut [mm].

    fed_beyond : how much more all feeds together bring forward than is commanded [mm]
    """
    if blank.rear_trim > STAYS_ON or not bends.dies:
        return float(bends.straights[-1])
    return float(blank.length - commands.positions.passed[-1] - commands.used[-1] - fed_beyond)
