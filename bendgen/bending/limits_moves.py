"""Limits on what the machine does: bend, rotate, feed, carry, and swing clear of the floor."""

from collections.abc import Iterator
from itertools import pairwise

from bendgen.bending.allowances import degrees_beyond
from bendgen.bending.commands import collet_positions
from bendgen.bending.job import SPARE, Job, limit_in_deg, limit_in_mm, remark
from bendgen.records.findings import Finding
from bendgen.records.machine import MachineProfile
from bendgen.records.tooling import DieSet

BEYOND_THE_ROWS_DEG = 15.0  # a table says nothing trustworthy farther than this beyond its last row


def largest_bend(profile: MachineProfile, die: DieSet) -> float:
    """Largest commanded bend of machine and die [deg]."""
    return min(profile.bend.largest_deg, die.largest_bend_deg)


def smallest_bend(profile: MachineProfile, die: DieSet) -> float:
    """Smallest bend of machine and die, at least one step of the bend's resolution [deg]."""
    machine = profile.bend
    return max(machine.smallest_deg or 0.0, die.smallest_bend_deg or 0.0, machine.resolution_deg)


def check_bend(job: Job) -> Iterator[Finding]:
    """Commanded angle against machine and die; a vertex must also turn as much as the smallest bend."""
    bends = job.bends
    for step, die in enumerate(bends.dies, start=1):
        commanded, finished = float(bends.commanded_deg[step - 1]), float(bends.angles_deg[step - 1])
        largest, smallest = largest_bend(job.profile, die), smallest_bend(job.profile, die)
        if commanded > largest + SPARE:
            text = f"bend of {commanded:.2f}° to command; machine and die '{die.id}' reach {largest:.2f}°"
            yield limit_in_deg("bend", step, commanded, largest, text)
        elif min(commanded, finished) < smallest - SPARE:
            value = min(commanded, finished)
            text = f"bend of {value:.4g}°; the smallest for machine and die '{die.id}' is {smallest:.4g}°"
            yield limit_in_deg("bend", step, value, smallest, text)
        beyond = degrees_beyond(bends.curves[step - 1], finished)
        if beyond > BEYOND_THE_ROWS_DEG + SPARE:
            last_row = finished - beyond
            limit = last_row + BEYOND_THE_ROWS_DEG
            text = (
                f"finished angle {finished:.2f}° is {beyond:.2f}° beyond the table's last row, {last_row:.2f}°; "
                f"up to {BEYOND_THE_ROWS_DEG:g}° beyond can be tried"
            )
            yield limit_in_deg("table", step, finished, limit, text)


def check_rotation(job: Job) -> Iterator[Finding]:
    """Collet position at every bend against the machine's range."""
    allowed = job.profile.rotation.range_deg
    if allowed is None:
        return
    low, high = allowed
    for step, position in enumerate(collet_positions(job.bends.rotations_deg, job.profile).tolist(), start=1):
        if not low - SPARE <= position <= high + SPARE:
            text = f"collet would stand at {position:.2f}°; its range is {low:g}° to {high:g}°"
            yield limit_in_deg("rotation", step, position, low if position < low else high, text)


def check_die_changes(job: Job) -> Iterator[Finding]:
    """Stops between two bends to change the die set, where the dies do not stand in one stack."""
    for step, (before, after) in enumerate(pairwise(job.bends.dies), start=2):
        if after.id != before.id and not after.shares_stack(before):
            text = f"die change before this bend: take out '{before.id}', put in '{after.id}'"
            yield remark("die", "caution", step, text)


def check_feed(job: Job) -> Iterator[Finding]:
    """Incremental feed against the machine's smallest and largest."""
    smallest, largest = job.profile.feed.smallest, job.profile.feed.largest
    for step, feed in enumerate(job.positions.straight_ahead.tolist(), start=1):
        if largest is not None and feed > largest + SPARE:
            text = f"feed of {job.length(feed)}; the machine's largest is {job.length(largest)}"
            yield limit_in_mm("feed", step, feed, largest, text)
        if smallest is not None and feed < smallest - SPARE:
            text = f"feed of {job.length(feed)}; the machine's smallest is {job.length(smallest)}"
            yield limit_in_mm("feed", step, feed, smallest, text)


def check_carriage(job: Job) -> Iterator[Finding]:
    """Blank behind the tangent line at loading against the carriage's travel."""
    carriage = job.profile.carriage
    if not job.bends.dies:
        return
    behind = job.blank.length - carriage.grip - carriage.load_at
    excess = behind - carriage.travel
    if excess <= SPARE:
        return
    if carriage.regrip:
        text = (
            f"the blank is {job.length(excess)} too long for the carriage's travel of "
            f"{job.length(carriage.travel)}: load it with the collet that far ahead of the rear end and take a "
            "second hold there"
        )
        yield remark("carriage", "caution", None, text)
        return
    text = (
        f"the collet would start {job.length(behind)} from the tangent line; "
        f"the carriage travels {job.length(carriage.travel)}"
    )
    yield limit_in_mm("carriage", None, behind, carriage.travel, text)


def check_floor(job: Job) -> Iterator[Finding]:
    """Lowest point of every step's swing against the height of the tube's axis."""
    height = job.profile.carriage.centre_height
    if height is None:
        return
    for step, swing in enumerate(job.swings, start=1):
        if swing.lowest < -height - SPARE:
            text = (
                f"the tube hangs {job.length(-swing.lowest)} below the machine's axis; "
                f"the floor is {job.length(height)} below"
            )
            yield limit_in_mm("floor", step, -swing.lowest, height, text)
