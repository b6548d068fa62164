"""Which way a machine goes and what its numbers mean, in words for somebody who stands beside it."""

from itertools import accumulate

from bendgen.records.machine import BendAxis, FeedForm, MachineProfile, OperatorStands, OutputForm, RotationForm
from bendgen.records.machine_cells import decimals_from_resolution
from bendgen.units import RADIANS_PER_DEGREE, Units, format_length, mm_from_units, units_from_mm

FROM_CARRIAGE = "Stand behind the carriage and look along the tube to the die"
FROM_DIE = "Stand at the die and look back to the carriage"

TURN_DECIMALS = 6  # the difference of two positions is off by less than that
CHALK_TEST = "To be sure: chalk a line along the top of a loaded tube, command a rotation of 10 and watch the line."

FEED_WORDS: dict[FeedForm, str] = {
    "incremental": "the straight to feed: from the end of the bend before (first bend: the front end) to the start "
    "of this bend",
    "summed": "the sum of all straights fed so far, this one included; the arcs of the bends are not in it",
    "passed": "the length of blank past the tangent line when this bend starts, the tube used up by the bends "
    "before it included",
    "carriage": "the distance from the collet face to the tangent line when this bend starts; it gets smaller from "
    "bend to bend",
}

ROTATION_WORDS: dict[RotationForm, str] = {
    "incremental": "the turn from the bend before to this one",
    "absolute": "the position of the collet, counted from the loaded tube",
}

OPERATOR_WORDS: dict[OperatorStands, str] = {
    "left": "on the left, seen from the carriage",
    "right": "on the right, seen from the carriage",
    "carriage": "behind the carriage",
}

# Straights before two bends, and a blank, for a worked example: round in the unit they are read in.
EXAMPLE_STRAIGHTS: dict[Units, tuple[float, float]] = {"mm": (200.0, 150.0), "in": (8.0, 6.0)}
EXAMPLE_BLANK: dict[Units, float] = {"mm": 1000.0, "in": 40.0}


def side_words(bend: BendAxis) -> tuple[str, str]:
    """Which way the die draws: as seen from the carriage, and as seen from the die."""
    other = "right" if bend.side == "left" else "left"
    swing = "counterclockwise" if bend.side == "left" else "clockwise"
    return (
        f"{FROM_CARRIAGE}: the bend die is on your {bend.side} and draws the tube to your {bend.side}. "
        f"Seen from above, the front end swings {swing}.",
        f"{FROM_DIE}: the tube is drawn to your {other}.",
    )


def rotation_words(output: OutputForm) -> tuple[str, str]:
    """Which way a positive rotation turns the tube: as seen from the carriage, and as seen from the die."""
    ways = (("right", "clockwise"), ("left", "counterclockwise"))
    carriage, die = ways if output.rotation_positive == "clockwise_from_carriage" else ways[::-1]
    return (
        f"{FROM_CARRIAGE}: a positive number turns the top of the tube to your {carriage[0]} ({carriage[1]}).",
        f"{FROM_DIE}: the same turn takes the top to your {die[0]} ({die[1]}).",
    )


def turn_words(rotation_deg: float) -> str:
    """Which way one step turns the tube, seen from the carriage; rotation_deg: as commanded, neutral."""
    turn = round(rotation_deg, TURN_DECIMALS)
    if turn == 0.0:
        return "no turn"
    if abs(turn) == 180.0:
        return "half a turn"
    return f"turns {'clockwise' if turn > 0.0 else 'counterclockwise'}"


def feed_example(profile: MachineProfile) -> str | None:
    """Worked example: both feed numbers of a tube with two bends, in the machine's unit; None without any die set."""
    if not profile.dies:
        return None
    die, units = profile.dies[0], profile.output.units
    first, second = (mm_from_units(straight, units) for straight in EXAMPLE_STRAIGHTS[units])
    blank = mm_from_units(EXAMPLE_BLANK[units], units)
    arc = die.clr * 90.0 * RADIANS_PER_DEGREE
    decimals = decimals_from_resolution(units_from_mm(profile.feed.resolution, units))
    feeds = _feed_numbers(profile, (first, second), arc, blank)
    numbers = " and then ".join(format_length(feed, units, decimals) for feed in feeds)
    from_blank = f", from a blank of {format_length(blank, units)}" if profile.output.feed == "carriage" else ""
    return (
        f"For example: {format_length(first, units)} straight, a bend of 90° on {die.id} that uses "
        f"{format_length(arc, units, decimals)} of tube, {format_length(second, units)} straight, a second "
        f"bend{from_blank}. The feed numbers are {numbers}. (Springback and elongation are left aside here.)"
    )


def _feed_numbers(profile: MachineProfile, straights: tuple[float, float], arc: float, blank: float) -> list[float]:
    """Both feeds in the machine's form [mm]."""
    passed = list(accumulate((straights[0], arc + straights[1])))
    numbers: dict[FeedForm, list[float]] = {
        "incremental": list(straights),
        "summed": list(accumulate(straights)),
        "passed": passed,
        "carriage": [blank - profile.carriage.grip - length for length in passed],
    }
    return numbers[profile.output.feed]
