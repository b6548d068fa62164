"""What is sawn, marked and cut: everything a person does with a tape."""

from collections.abc import Iterator

from bendgen.records.bend_program import BendProgram, Blank, CutMark
from bendgen.reports.blocks import BOX, Section, bullets, fields, running, section, table
from bendgen.reports.sheet.numbers import SheetNumbers

SAW_CHECK_ID = "rear-cut"

PLACES = {
    "front_end": "the front end of the blank",
    "rear_end": "the rear end",
    "front_cut": "the front cut",
    "last_bend_end": "the end of the last bend, where the straight begins",
    "last_outer_apex": "the last outer apex, where straightedges on the outside of both legs cross",
}


def saw_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Blank and saw list."""
    return section("Blank and saw list", fields(saw_rows(program, numbers)))


def saw_rows(program: BendProgram, numbers: SheetNumbers) -> Iterator[tuple[str, str]]:
    """How many blanks of what length, and how much of it is cut off again."""
    wanted = program.part.quantity
    quantity = 1 if program.trial_piece else wanted
    yield "saw", f"{quantity}  x  {numbers.tape(program.blank.length)}"
    if quantity != wanted:
        yield "", f"one for the trial; the other {wanted - quantity} only after it was measured"
    yield "of it trim", _trim_words(program.blank, numbers)


def _trim_words(blank: Blank, numbers: SheetNumbers) -> str:
    sawn = {mark.end for mark in blank.cut_marks}
    ends = (("front", blank.front_trim), ("rear", blank.rear_trim))
    trims = [
        f"{numbers.length(trim)} at the {end}" + ", too little to saw off: it stays on" * (end not in sawn)
        for end, trim in ends
        if float(numbers.bare(trim)) != 0.0
    ]
    return ", ".join(trims) or "none: the blank is the part, nothing is cut off"


def tape_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Marks on the straight blank, tape hooked on its front end."""
    marks = sorted(_tape_marks(program), key=lambda mark: mark[0])
    if not marks:
        return None
    rows = [[*numbers.tape_cells(distance), what] for distance, what in marks]
    fraction = ["nearest 1/32"] * (numbers.units == "in")
    return section(
        "Marks on the blank, before bending",
        running(f"Every reading is taken from {PLACES['front_end']}: hook the tape there and do not move it."),
        table(["tape reads", *fraction, "what to mark"], rows, align="r" + "l" * len(rows[0][1:])),
        bullets(_sleeve_notes(program, numbers)),
    )


def _tape_marks(program: BendProgram) -> Iterator[tuple[float, str]]:
    for mark in program.blank.cut_marks:
        if mark.when == "before_bending" and mark.measured_from == "front_end":
            yield mark.distance, f"CUT, {mark.end}: saw here after bending"
    for step in program.steps:
        yield step.passed, f"bend {step.number} starts here"


def _sleeve_notes(program: BendProgram, numbers: SheetNumbers) -> Iterator[str]:
    for die in program.dies:
        if die.sleeve is not None:
            yield (
                f"Die set {die.id} hides the tangent line: the edge that you can see lies {numbers.tape(die.sleeve)} "
                "behind it, towards the carriage. When a bend starts, its mark lies that far under the die: what "
                "stands at the edge is that much farther from the front end."
            )


def cutting_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Cuts on the bent tube, how to find them, and the reading that proves the elongation."""
    marks = program.blank.cut_marks
    front = [mark for mark in marks if mark.when == "before_bending"]
    rear = [mark for mark in marks if mark.when == "after_bending"]
    return section(
        "Cutting, after bending",
        bullets(f"Cut the {mark.end}: at the mark made before bending." for mark in front),
        bullets([f"Cut the rear: {_ways_to_find(rear, numbers)}."] * bool(rear)),
        bullets(_saw_check(mark, program, numbers) for mark in marks if mark.when == "check_only"),
    )


def _ways_to_find(marks: list[CutMark], numbers: SheetNumbers) -> str:
    return "; or ".join(f"{numbers.tape(mark.distance)} from {PLACES[mark.measured_from]}" for mark in marks)


def _saw_check(mark: CutMark, program: BendProgram, numbers: SheetNumbers) -> str:
    """Reading that must agree before anything is sawn, with a box for it."""
    allowed = [numbers.length(check.tolerance) for check in program.checks if check.id == SAW_CHECK_ID]
    off = f"Off by more than {allowed[0]}" if allowed else "If it does not agree"
    return (
        f"Check before sawing: from the {mark.end} cut to {PLACES[mark.measured_from]} it must be "
        f"{numbers.tape(mark.distance)}.\n{BOX}  {off}: the elongation is wrong. "
        "STOP, do not saw, tell the programmer."
    )


def part_marks_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Places that the part asks to be marked on the finished tube."""
    rows = [
        [str(number), f"straight {mark.straight}", numbers.tape(mark.from_front)]
        for number, mark in enumerate(program.marks, start=1)
    ]
    if not rows:
        return None
    return section(
        "Marks the part asks for",
        table(["mark", "on", "along the axis of the finished part, from its front end"], rows, align="rll"),
    )
