"""Readings to take, each with what is accepted, what is predicted and a place to write; and what nobody checked."""

import re
from collections.abc import Iterator, Mapping, Sequence

from bendgen.records.bend_program import BendProgram, Check, is_rotation
from bendgen.records.comparison import missed_by
from bendgen.records.measured import diameter_names
from bendgen.records.tooling import DieSet
from bendgen.reports.blocks import BOX, Lines, Section, bullets, running, section
from bendgen.reports.cautions import NEVER_CHECKED, NOT_CHECKED
from bendgen.reports.paragraphs import broken_lines
from bendgen.reports.sheet.lines import INDENT, WIDTH
from bendgen.reports.sheet.neutral import NEUTRAL_ROTATION
from bendgen.reports.sheet.numbers import SheetNumbers
from bendgen.reports.text_table import padded

ORDER = ("before bending", "after step", "after bending", "after cutting")
ID_WIDTH = 21
VALUE_WIDTH = 20
ACCEPTED = "A reading is good within its tolerance of the wanted value; predicted is what these commands will make."
UNCERTAINTY = (
    "± behind a predicted value: 95 of 100 parts should read within it (k = 2), saw and tape not counted; where "
    "several bends make it, the one that makes most of it is named. Where nobody measured it, none is given."
)
OVALITY = (
    "Diameters across the middle of a bend, for ovality: nothing forecasts them, and no tolerance is named for them."
)
HEADINGS = ("check", "what, from where to where", "wanted ± tolerance", "read")
ALONE = 0.99  # a share of all but everything
LABEL_WIDTH = WIDTH - len(INDENT) - ID_WIDTH - VALUE_WIDTH - len(BOX) - 1


def checks_section(program: BendProgram, numbers: SheetNumbers, wanted: Sequence[float]) -> Section | None:
    """Checks in the order in which they can be made, one group for each moment.

    wanted : what each reads on the part that was asked for
    """
    wanted_of = wanted_by_id(program, wanted)
    groups = [
        Lines(
            text="\n".join(
                [INDENT + moment.upper(), *(_lines(check, wanted_of[check.id], numbers) for check in checks)]
            )
        )
        for moment, checks in checks_by_moment(program)
    ]
    return section("Checks", *map(running, check_notes(program)), Lines(text=_row(*HEADINGS)), *groups)


def diameters_section(program: BendProgram) -> Section | None:
    """Where to write the largest and the smallest diameter in every bend; None where nothing is bent."""
    if not program.steps:
        return None
    rows = [
        _row(name, f"{which} diameter in bend {step.number}", "", BOX)
        for step in program.steps
        for name, which in zip(diameter_names(step.number), ("largest", "smallest"), strict=True)
    ]
    return section("Diameters", running(OVALITY), Lines(text="\n".join(rows)))


def wanted_by_id(program: BendProgram, wanted: Sequence[float]) -> Mapping[str, float]:
    """The same by the names of the checks."""
    return {check.id: value for check, value in zip(program.checks, wanted, strict=True)}


def check_notes(program: BendProgram) -> Iterator[str]:
    """What a reader of the checks has to know."""
    yield ACCEPTED
    if any(is_rotation(check.id) for check in program.checks):
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


def _lines(check: Check, wanted: float, numbers: SheetNumbers) -> str:
    """Name, what is measured between which places, wanted value and tolerance, box; below them what is predicted."""
    first, *others = (
        line
        for text in (
            check.quantity,
            f"{check.start} to {check.end}",
            f"predicted {predicted_words(check, numbers)}",
            out_words(check, wanted),
            doubt_words(check),
            band_words(check, numbers),
        )
        if text
        for line in broken_lines(text, LABEL_WIDTH)
    )
    top = _row(check.id, first, wanted_words(check, wanted, numbers), BOX)
    return "\n".join([top, *(INDENT + " " * ID_WIDTH + line for line in others)])


def _row(name: str, label: str, wanted: str, box: str) -> str:
    columns = (padded(name, ID_WIDTH, "l"), padded(label, LABEL_WIDTH, "l"), padded(wanted, VALUE_WIDTH, "r"))
    return f"{INDENT}{''.join(columns)} {box}"


def wanted_words(check: Check, wanted: float, numbers: SheetNumbers) -> str:
    """What is accepted: the wanted value and the tolerance around it."""
    if check.unit == "deg":
        return f"{numbers.angle(wanted)} ± {numbers.angle(check.tolerance)} °"
    return f"{numbers.bare(wanted)} ± {numbers.bare(check.tolerance)} {numbers.units}"


def predicted_words(check: Check, numbers: SheetNumbers) -> str:
    """What the commands will make of it, and how far a part may come out from there, if that is known.

    The uncertainty is told with one decimal more than other values, else small ones read as 0, and so is what it
    belongs to.
    """
    coarse, fine = (numbers.angle, numbers.finer_angle) if check.unit == "deg" else (numbers.bare, numbers.finer)
    unit, uncertainty = "°" if check.unit == "deg" else numbers.units, check.uncertainty
    if uncertainty is None:
        return f"{coarse(check.predicted)} {unit}"
    return f"{fine(check.predicted)} ± {fine(uncertainty.expanded)} {unit}"


def out_words(check: Check, wanted: float) -> str:
    """That what the commands make is not what is accepted; empty where it is."""
    return "PREDICTED OUT OF TOLERANCE" if missed_by(check, wanted) else ""


def doubt_words(check: Check) -> str:
    """The bend that makes most of the uncertainty; empty where one bend makes all of it, or it is not known."""
    shares = () if check.uncertainty is None else check.uncertainty.shares
    step, share = max(enumerate(shares, start=1), key=lambda of_step: of_step[1], default=(0, 1.0))
    return f"most of ± by bend {step}" if share < ALONE else ""


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
