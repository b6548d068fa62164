"""Readings to take, each with value, tolerance and a place to write; and what nobody checked."""

import re
from collections.abc import Iterator

from bendgen.records.bend_program import BendProgram, Check
from bendgen.records.tooling import DieSet
from bendgen.reports.cautions import NEVER_CHECKED, NOT_CHECKED
from bendgen.reports.paragraphs import broken_lines
from bendgen.reports.sheet.blocks import BOX, NEUTRAL_ROTATION, Lines, Section, bullets, running, section
from bendgen.reports.sheet.lines import INDENT, WIDTH
from bendgen.reports.sheet.numbers import SheetNumbers
from bendgen.reports.text_table import padded

ORDER = ("before bending", "after step", "after bending", "after cutting")
ID_WIDTH = 21
VALUE_WIDTH = 20
UNCERTAINTY = (
    "U: 95 of 100 parts should read within this of the value (k = 2); where several bends make it, the one that makes "
    "most of it is named. Saw and tape are not in it."
)
ALONE = 0.99  # a share of all but everything
LABEL_WIDTH = WIDTH - len(INDENT) - ID_WIDTH - VALUE_WIDTH - len(BOX) - 1


def checks_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Checks in the order in which they can be made, one group for each moment."""
    groups = [
        Lines(text="\n".join([INDENT + moment.upper(), *(_check_lines(check, numbers) for check in checks)]))
        for moment, checks in checks_by_moment(program)
    ]
    return section("Checks", *map(running, check_notes(program)), *groups)


def check_notes(program: BendProgram) -> Iterator[str]:
    """What a reader of the checks has to know."""
    if any(check.id.startswith("rotation-") for check in program.checks):
        yield NEUTRAL_ROTATION
    if any(check.uncertainty for check in program.checks):
        yield UNCERTAINTY


def checks_by_moment(program: BendProgram) -> Iterator[tuple[str, list[Check]]]:
    """Checks of each moment, moments in the order in which they come."""
    for moment in sorted(dict.fromkeys(check.when for check in program.checks), key=_moment_order):
        yield moment, [check for check in program.checks if check.when == moment]


def _moment_order(moment: str) -> tuple[int, int]:
    """Place in ORDER, then the number of the step."""
    number = re.search(r"\d+", moment)
    places = [place for place, start in enumerate(ORDER) if moment.startswith(start)]
    return (places[0] if places else len(ORDER), int(number[0]) if number else 0)


def _check_lines(check: Check, numbers: SheetNumbers) -> str:
    """Name, what is measured, between which places, value and tolerance, box."""
    texts = (check.quantity, f"{check.start} to {check.end}", band_words(check, numbers))
    label = [line for text in texts if text for line in broken_lines(text, LABEL_WIDTH)]
    value = padded(toleranced_words(check, check.predicted, numbers), VALUE_WIDTH, "r")
    first = f"{padded(check.id, ID_WIDTH, 'l')}{padded(label[0], LABEL_WIDTH, 'l')}{value} {BOX}"
    half = padded(uncertainty_words(check, numbers), VALUE_WIDTH, "r")
    second = f"{' ' * ID_WIDTH}{padded(label[1], LABEL_WIDTH, 'l')}{half}"
    others = (" " * ID_WIDTH + text for text in label[2:])
    return "\n".join(INDENT + line.rstrip() for line in (first, second, *others))


def toleranced_words(check: Check, value: float, numbers: SheetNumbers) -> str:
    """A value and the tolerance around it."""
    if check.unit == "deg":
        return f"{numbers.angle(value)} ± {numbers.angle(check.tolerance)} °"
    return f"{numbers.bare(value)} ± {numbers.bare(check.tolerance)} {numbers.units}"


def predicted_words(check: Check, numbers: SheetNumbers) -> str:
    """What the commands will make of it."""
    return f"{numbers.angle(check.predicted)} °" if check.unit == "deg" else numbers.length(check.predicted)


def uncertainty_words(check: Check, numbers: SheetNumbers) -> str:
    """Expanded uncertainty, with one decimal more than the value, and the bend that makes most of it if several do."""
    uncertainty = check.uncertainty
    if uncertainty is None:
        return ""
    half = uncertainty.expanded
    words = f"U {numbers.finer_angle(half)} °" if check.unit == "deg" else f"U {numbers.finer(half)} {numbers.units}"
    step, share = max(enumerate(uncertainty.shares, start=1), key=lambda of_step: of_step[1])
    return f"{words}: bend {step}" if share < ALONE else words


def band_words(check: Check, numbers: SheetNumbers) -> str:
    """How far off its prediction a value may come out by springback that is only estimated; empty where it is not."""
    low, high = check.band or (0.0, 0.0)
    if low == high:
        return ""
    if check.unit == "deg":
        return f"ESTIMATE: may come out {numbers.angle(low)} to {numbers.angle(high)} °"
    return f"ESTIMATE: may come out {numbers.bare(low)} to {numbers.bare(high)} {numbers.units}"


def not_checked_section(program: BendProgram) -> Section | None:
    """What no program checks, and what this one could not because the profile does not say it."""
    silent = tuple(_absent_keys(program))
    because = running("Not checked either, because the machine's profile gives no value:") if silent else None
    return section("Not checked", running(f"{NOT_CHECKED} {NEVER_CHECKED}"), (because, bullets(silent)))


def _absent_keys(program: BendProgram) -> Iterator[str]:
    profile, part = program.profile, program.part
    shared = {
        "smallest bend of the machine": profile.bend.smallest_deg,
        "range of the collet's rotation": profile.rotation.range_deg,
        "smallest feed": profile.feed.smallest,
        "largest feed": profile.feed.largest,
        "height of the tube's axis above the floor": profile.carriage.centre_height,
        "wall thinning": part.limits.thinning_percent or profile.limits.thinning_percent,
        "wall factor": part.limits.wall_factor or profile.limits.wall_factor,
    }
    if program.steps:
        yield from (what for what, value in shared.items() if value is None)
    for die in program.dies:
        yield from (f"die set {die.id}: {what}" for what, value in _die_keys(die).items() if value is None)


def _die_keys(die: DieSet) -> dict[str, object]:
    return {
        "smallest bend": die.smallest_bend_deg,
        "room for the pressure die": die.pressure_die,
        "travel of the pressure die": die.pressure_travel,
        "straight for the mandrel": die.mandrel_ahead,
        "walls that the mandrel takes": die.walls,
    }
