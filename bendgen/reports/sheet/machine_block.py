"""The machine's own steps, large: what the operator types and does, in order, and nothing else."""

from collections.abc import Iterator, Sequence
from itertools import zip_longest

from bendgen.records.bend_program import BendProgram, BendStep
from bendgen.records.machine import Column, MachineProfile
from bendgen.records.machine_cells import machine_cells
from bendgen.records.tooling import DieSet
from bendgen.reports.blocks import Lines, Section, bullets, running, section
from bendgen.reports.machine_words import FEED_WORDS, ROTATION_WORDS, rotation_words
from bendgen.reports.paragraphs import broken_lines, left_to_right, paragraph
from bendgen.reports.sheet.lines import WIDTH
from bendgen.reports.text_table import display_width, padded

INNER = WIDTH - 4  # between the frame's bars and a space at each
TICK, TICK_WIDTH = "[ ]", 8
BAR = "  |"  # behind every cell
MOST_STEPS_WITH_AIR = 12  # with more, a frame with empty lines would not stay on one page


def machine_section(program: BendProgram) -> Section | None:
    """Steps in a frame, and what their numbers mean; empty where nothing is bent."""
    if not program.steps:
        return None
    title = running(f"For {program.profile.name}:")
    return section("Machine steps", title, Lines(text=_frame(program)), bullets(meanings(program.profile)))


def _frame(program: BendProgram) -> str:
    edge, rule = "#" * WIDTH, f"|{'-' * (WIDTH - 2)}|"
    air = [_framed("")] if len(program.steps) <= MOST_STEPS_WITH_AIR else []
    lines = [edge, *_heading_lines(program.profile)]
    for step, machine_step in zip(program.steps, program.machine_steps, strict=True):
        lines.append(rule)
        lines += [*_notice_lines(program, step), *air, *_row(machine_cells(machine_step, program.profile), TICK), *air]
    return "\n".join([*lines, edge])


def _heading_lines(profile: MachineProfile) -> list[str]:
    return [*_row(profile.output.headings, "done"), *_row(column_units(profile), "")]


def column_units(profile: MachineProfile) -> list[str]:
    """Unit of each column, empty for one that has none."""
    units: dict[Column, str] = {"number": "", "die": "", "feed": profile.output.units, "rotation": "°", "bend": "°"}
    return [units[column] for column in profile.output.columns]


def _row(cells: Sequence[str], last: str) -> list[str]:
    """Cells over the frame's width, right aligned so that points stand below each other; long ones broken."""
    width = (INNER - TICK_WIDTH) // len(cells) - display_width(BAR)
    broken = [*(broken_lines(cell, width) for cell in cells), [last]]
    lines = []
    for pieces in zip_longest(*broken, fillvalue=""):
        columns = "".join(padded(left_to_right(piece), width, "r") + BAR for piece in pieces[:-1])
        lines.append(_framed(columns + padded(pieces[-1], TICK_WIDTH - 1, "r")))
    return lines


def _framed(text: str) -> str:
    return f"| {padded(text, INNER, 'l')} |"


def _notice_lines(program: BendProgram, step: BendStep) -> Iterator[str]:
    for notice in (*_stack_notices(program, step), *notices(program, step)):
        yield from map(_framed, paragraph(left_to_right(notice), width=INNER, first="  >>>  ").splitlines())


def notices(program: BendProgram, step: BendStep) -> Iterator[str]:
    """What somebody must do or watch between the bend before and this one."""
    before, die = _die_change(program, step)
    if before is None and len(program.dies) > 1:
        yield f"START WITH DIE SET {die.id}"
    if before is not None and before != die and not die.shares_stack(before):
        yield f"STOP - CHANGE DIE HERE: take off {before.id}, mount {die.id}"
    if step.collet_open:
        yield f"COLLET OPENS before bend {step.number}"


def _stack_notices(program: BendProgram, step: BendStep) -> Iterator[str]:
    """What changes by itself."""
    before, die = _die_change(program, step)
    if before is not None and before != die and die.shares_stack(before):
        yield f"next on die set {die.id}: same stack, changes without a stop"


def _die_change(program: BendProgram, step: BendStep) -> tuple[DieSet | None, DieSet]:
    """Die set of the bend before, None ahead of the first; and of this one."""
    dies = {die.id: die for die in program.dies}
    return dies[program.steps[step.number - 2].die] if step.number > 1 else None, dies[step.die]


def meanings(profile: MachineProfile) -> Iterator[str]:
    """What the numbers of each column mean, and which way they count."""
    output = profile.output
    heading = dict(zip(output.columns, output.headings, strict=True))
    if "feed" in heading:
        yield f"{heading['feed']}: {FEED_WORDS[output.feed]}."
    if "rotation" in heading:
        yield f"{heading['rotation']}: {ROTATION_WORDS[output.rotation]}."
        yield from rotation_words(output)
    if "bend" in heading:
        yield f"{heading['bend']}: as commanded. Springback is in it already; add nothing."
