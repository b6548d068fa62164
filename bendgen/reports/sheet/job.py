"""What is made and on which set-up: part, machine, die sets, tables, and whether only one piece may be made."""

from collections.abc import Iterator, Sequence

from bendgen.records.allowances import AllowanceTable
from bendgen.records.bend_program import BendProgram
from bendgen.records.part import Part
from bendgen.records.tooling import DieSet
from bendgen.records.tube import Tube
from bendgen.reports.blocks import Lines, Section, bullets, fields, running, section
from bendgen.reports.cautions import cautions_of_part
from bendgen.reports.findings_text import findings_text
from bendgen.reports.machine_words import side_words
from bendgen.reports.proof_text import proof_words
from bendgen.reports.sheet.lines import INDENT, WIDTH, passage_text
from bendgen.reports.sheet.numbers import SheetNumbers
from bendgen.reports.text_table import padded
from bendgen.units import UNIT_NAMES

OPPOSITE_HAND = "OPPOSITE HAND: mirror image of the part's file"
TRIAL_ADVICE = "Bend one, measure it, enter its readings in the die set's table, and make a new program for the rest."
TRIAL_WORDS = "TRIAL PIECE - MAKE ONE ONLY"
RELEASE_FIELDS = (
    "heat or lot",
    "owner",
    "made by",
    "approved by",
    "date of issue",
    "first piece: name",
    "first piece: date",
)
PEN_WIDTH = 24
TRIAL_TITLE = "   ".join(" ".join(word) for word in TRIAL_WORDS.split())


def trial_banner(program: BendProgram) -> str:
    """Frame that cannot be overlooked, and the reasons; empty where nothing asks for a trial."""
    if not program.trial_piece:
        return ""
    rule, edge = "#" * WIDTH, "#" * 4
    empty = f"{edge}{' ' * (WIDTH - 8)}{edge}"
    frame = [rule, empty, f"{edge}{TRIAL_TITLE:^{WIDTH - 8}}{edge}", empty, rule]
    return "\n".join([*frame, passage_text((running(TRIAL_ADVICE), bullets(program.trial_piece)))])


def trial_section(program: BendProgram) -> Section | None:
    """Why only one piece may be made; None where nothing asks for a trial."""
    return section("Why one piece only", bullets(program.trial_piece))


def part_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Name, tube, quantity, hand, end and the unit of the sheet; number and revision stand at its top."""
    return section("Part", fields([("name", program.part.name), *part_rows(program.part, numbers)]))


def part_rows(part: Part, numbers: SheetNumbers) -> Iterator[tuple[str, str]]:
    """What stands below the name of a part."""
    yield "quantity", str(part.quantity)
    yield "tube", tube_words(part.tube, numbers)
    yield from _hand_fields(part)
    yield from _unit_fields(part, numbers)


def _hand_fields(part: Part) -> Iterator[tuple[str, str]]:
    yield "hand", OPPOSITE_HAND if part.mirrored else "as in the part's file"
    end = "LAST" if part.from_rear else "first"
    yield "goes in first", f"the {end} end of the part's file; this sheet calls it the front end"


def _unit_fields(part: Part, numbers: SheetNumbers) -> Iterator[tuple[str, str]]:
    others = (
        "" if part.units == numbers.units else f"; cautions and cures in {UNIT_NAMES[part.units]}, as the part's file"
    )
    yield "lengths", f"in {UNIT_NAMES[numbers.units]}, as the machine{others}"


def tube_words(tube: Tube, numbers: SheetNumbers) -> str:
    """Size, what is special about the tube, and its material, which is free text, last."""
    facts = [f"OD {numbers.length(tube.od)}", f"wall {numbers.wall(tube.wall)}"]
    if tube.perforated:
        facts.append("PERFORATED")
    if tube.seam_deg is not None:
        facts.append(f"weld seam at {numbers.angle(tube.seam_deg)}° (0 is up, clockwise seen from the carriage)")
    facts += [f"{name} {text}" for name, text in (("lot", tube.lot), ("temper", tube.temper)) if text]
    return ", ".join([*facts, f"material {tube.material}"])


def set_up_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Machine, die sets with their set-up, tables."""
    title = "Machine and set-up" if program.steps else "Machine"
    machine = ("machine", program.profile.name)
    return section(title, fields([machine, *set_up_rows(program, numbers)]), fields(table_rows(program)))


def set_up_rows(program: BendProgram, numbers: SheetNumbers) -> Iterator[tuple[str, str]]:
    """What stands below the name of a machine that has something to bend."""
    if program.steps:
        yield "draws", side_words(program.profile.bend)[0]
        yield "signs", proof_words(program.profile.proved_on)
        for die in program.dies:
            yield from _die_fields(die, numbers)
        yield from _stack_fields(program.dies)


def _die_fields(die: DieSet, numbers: SheetNumbers) -> Iterator[tuple[str, str]]:
    yield "die set", f"{die.id}: CLR {numbers.length(die.clr)}, clamp {numbers.length(die.clamp)}"
    if die.set_up is not None:
        yield "set-up", die.set_up


def _stack_fields(dies: Sequence[DieSet]) -> Iterator[tuple[str, str]]:
    """Die sets between which the machine changes by itself."""
    stacks = {die.stack: [other.id for other in dies if other.shares_stack(die)] for die in dies}
    for stack, names in stacks.items():
        if len(names) > 1:
            yield f"stack {stack}", f"{' and '.join(names)} change without a stop"


def table_rows(program: BendProgram) -> Iterator[tuple[str, str]]:
    """Tables and material data that the values come from."""
    for table in program.tables:
        yield "table", table.file
        yield "", _table_words(table)
    without = [die.id for die in program.dies if die.id not in {table.die for table in program.tables}]
    if without:
        yield "table", f"NONE for {', '.join(without)}: springback is estimated from material data"
    data = program.estimated_from
    if data is not None:
        yield "material data", data.file
        yield "", f"issued {data.issued.isoformat()}, source: {data.source}"


def _table_words(table: AllowanceTable) -> str:
    lot = f"lot {table.lot}" if table.lot else "no lot named"
    return f"issued {table.issued.isoformat()}, {lot}, source: {table.source}"


def findings_section(program: BendProgram) -> Section | None:
    """What the limits found, with the changes that would remove each."""
    lines = findings_text(program.findings, width=WIDTH - len(INDENT)).splitlines()
    text = "\n".join((INDENT + line).rstrip() for line in lines)
    return section("Cautions for this part", Lines(text=text) if text else None)


def release_section() -> Section | None:
    """Names and dates for a pen."""
    lines = (f"{INDENT}{padded(name, PEN_WIDTH, 'l')}{'_' * PEN_WIDTH}" for name in RELEASE_FIELDS)
    return section("Release", Lines(text="\n".join(lines)))


def cautions_section(program: BendProgram) -> Section | None:
    """Cautions that stand on every sheet."""
    return section("Before you start", bullets(cautions_of_part(program.part)))
