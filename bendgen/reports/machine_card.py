"""The machine card: what an operator needs to recognise a machine's set-up and to read its numbers."""

from collections.abc import Sequence
from textwrap import indent

from bendgen.records.machine import Column, MachineProfile
from bendgen.reports.cautions import NOT_CHECKED
from bendgen.reports.machine_words import (
    CHALK_TEST,
    FEED_WORDS,
    OPERATOR_WORDS,
    ROTATION_WORDS,
    feed_example,
    rotation_words,
    side_words,
)
from bendgen.reports.paragraphs import paragraph
from bendgen.reports.proof_text import proof_words
from bendgen.reports.text_table import display_width, text_table
from bendgen.reports.tooling_list import (
    allowance_list,
    angle_range,
    angle_text,
    die_list,
    dies_without_table,
    material_list,
)
from bendgen.units import Units, format_length

WIDTH = 96
UNIT_WORDS: dict[Units, str] = {"mm": "millimetres", "in": "inches"}
ABSENT = "not given, so not checked"


def machine_card(profile: MachineProfile, cautions: Sequence[str] = ()) -> str:
    """Text of the whole card, ending with a line feed; lengths in the unit of the profile.

    cautions : what is odd about the profile though not wrong, one text each
    """
    unit = UNIT_WORDS[profile.units]
    sections = [
        f"{profile.name}\n{'=' * display_width(profile.name)}",
        _section("Which way the die draws", _sentences(*side_words(profile.bend), _operator_sentence(profile))),
        _section(
            "Which way the tube turns",
            _sentences(*rotation_words(profile.output), CHALK_TEST, f"Signs: {proof_words(profile.proved_on)}."),
        ),
        _section("What its steps say", _step_columns(profile)),
        _section("What the feed number means", _sentences(*_feed_sentences(profile))),
        _section("Limits", _limits(profile)),
        _section(f"Die sets (lengths in {unit}; - is {ABSENT})", die_list(profile.dies, profile.units)),
        _section(f"Tables from trial bends (wall in {unit})", _tables(profile)),
        _section("Materials for estimates", material_list(profile.materials) if profile.materials else "none"),
        _section("Cautions", _sentences(*cautions, NOT_CHECKED)),
    ]
    return "\n\n".join(sections) + f"\n\nsha256 of the profile's files: {profile.sha256}\n"


def _section(title: str, body: str) -> str:
    return f"{title}\n{indent(body, '  ')}"


def _sentences(*sentences: str) -> str:
    return "\n".join(paragraph(sentence, width=WIDTH) for sentence in sentences)


def _operator_sentence(profile: MachineProfile) -> str:
    stands = profile.operator_stands
    place = "not told, so not marked in the pictures of the steps" if stands is None else OPERATOR_WORDS[stands]
    return f"The operator's own place: {place}."


def _feed_sentences(profile: MachineProfile) -> list[str]:
    example = feed_example(profile)
    words = f"It is {FEED_WORDS[profile.output.feed]}."
    return [words] if example is None else [words, example]


def _step_columns(profile: MachineProfile) -> str:
    output = profile.output
    meanings: dict[Column, tuple[str, str]] = {
        "number": ("number of the bend", ""),
        "die": ("id of the die set to use", ""),
        "feed": ("feed, explained below", output.units),
        "rotation": (f"rotation: {ROTATION_WORDS[output.rotation]}", "deg"),
        "bend": ("bend as commanded, springback included", "deg"),
    }
    rows = [[heading, *meanings[column]] for column, heading in zip(output.columns, output.headings, strict=True)]
    return text_table(["column", "what it holds", "unit"], rows, align="lll")


def _limits(profile: MachineProfile) -> str:
    rows = [*_axis_limits(profile), *_carriage_limits(profile), *_blank_limits(profile), *_shape_limits(profile)]
    return text_table(["", ""], [list(row) for row in rows], align="ll")


def _axis_limits(profile: MachineProfile) -> list[tuple[str, str]]:
    bend, rotation, feed, units = profile.bend, profile.rotation, profile.feed, profile.units
    collet = ABSENT if rotation.range_deg is None else angle_range(*rotation.range_deg)
    return [
        ("bend", angle_range(bend.smallest_deg, bend.largest_deg)),
        ("bend steps", _step_words(angle_text(bend.resolution_deg), angle_text(bend.repeatability_deg))),
        ("rotation, position of the collet", collet),
        ("rotation steps", _step_words(angle_text(rotation.resolution_deg), angle_text(rotation.repeatability_deg))),
        ("feed, smallest", _length_or_not(feed.smallest, profile)),
        ("feed, largest", _length_or_not(feed.largest, profile)),
        ("feed steps", _step_words(format_length(feed.resolution, units), format_length(feed.repeatability, units))),
    ]


def _carriage_limits(profile: MachineProfile) -> list[tuple[str, str]]:
    carriage, units = profile.carriage, profile.units
    opens = carriage.open_before_last and carriage.last_rear is not None
    last = f"yes, with {_length_or_not(carriage.last_rear, profile)} of straight behind it" if opens else "no"
    return [
        ("collet face to tangent line, farthest", format_length(carriage.travel, units)),
        ("collet face to tangent line, nearest", format_length(carriage.closest, units)),
        ("tube inside the collet", format_length(carriage.grip, units)),
        ("front end past the tangent line at loading", format_length(carriage.load_at, units)),
        ("collet opens before the last bend", last),
        ("collet may take a second hold", "yes" if carriage.regrip else "no"),
        ("tube axis above the floor", _length_or_not(carriage.centre_height, profile)),
    ]


def _blank_limits(profile: MachineProfile) -> list[tuple[str, str]]:
    blank, units = profile.blank, profile.units
    saw = (
        "no steps: sawn to any length"
        if blank.resolution is None
        else f"every {format_length(blank.resolution, units)}"
    )
    return [
        ("blank", f"{format_length(blank.shortest, units)} to {format_length(blank.longest, units)}"),
        ("saw stop", saw),
    ]


def _shape_limits(profile: MachineProfile) -> list[tuple[str, str]]:
    limits = profile.limits
    thinning = ABSENT if limits.thinning_percent is None else f"at most {limits.thinning_percent:g} %"
    wall_factor = ABSENT if limits.wall_factor is None else f"at most {limits.wall_factor:g}"
    return [("wall thinning", thinning), ("wall factor (OD / wall)", wall_factor)]


def _step_words(resolution: str, repeatability: str) -> str:
    return f"{resolution}, repeats within {repeatability} (one standard deviation)"


def _length_or_not(length: float | None, profile: MachineProfile) -> str:
    return ABSENT if length is None else format_length(length, profile.units)


def _tables(profile: MachineProfile) -> str:
    lines = [allowance_list(profile.tables, profile.units)] if profile.tables else []
    without = ", ".join(die.id for die in dies_without_table(profile))
    if without:
        lines.append(f"Die sets without a table, good for trial pieces only: {without}")
    return "\n".join(lines) or "none"
