"""The printable sheet of one part: first what the operator needs, then what whoever checks the part needs."""

from collections.abc import Iterable, Iterator, Sequence

from bendgen.records.bend_program import BendProgram
from bendgen.reports.blocks import Section
from bendgen.reports.sheet import (
    bendability,
    blank,
    checks,
    correction,
    fitting,
    job,
    machine_block,
    neutral,
    offset,
    result,
    room,
)
from bendgen.reports.sheet.lines import ruled, section_text
from bendgen.reports.sheet.numbers import numbers_of_machine


def check_sheet(program: BendProgram, *, program_id: str, issue: int, wanted: Sequence[float]) -> str:
    """Text of the whole sheet, at most `lines.WIDTH` places wide, ending with a line feed.

    wanted : what each check reads on the part that was asked for [mm, deg]
    """
    name = f"issue {issue}   id {program_id}"
    hand = (job.OPPOSITE_HAND,) if program.part.mirrored else ()
    part = (f"part {program.part.number}", f"revision {program.part.revision}", *hand)
    texts = [
        ruled("CHECK SHEET", name, *part),
        job.trial_banner(program),
        *_texts(operator_sections(program)),
        ruled("FOR WHOEVER CHECKS THE PART", name, *part),
        *_texts(bench_sections(program, wanted)),
        ruled("END OF SHEET", name, *part),
    ]
    return "\n\n".join(text for text in texts if text) + "\n"


def _texts(sections: Iterable[Section | None]) -> Iterator[str]:
    return (section_text(section) for section in sections if section is not None)


def operator_sections(program: BendProgram) -> list[Section | None]:
    """What the operator needs."""
    numbers = numbers_of_machine(program.profile)
    return [
        correction.correction_section(program, numbers),
        job.part_section(program, numbers),
        job.set_up_section(program, numbers),
        job.findings_section(program),
        job.cautions_section(program),
        blank.saw_section(program, numbers),
        blank.tape_section(program, numbers),
        machine_block.machine_section(program),
        fitting.seam_section(program, numbers),
        room.room_section(program, numbers),
        blank.cutting_section(program, numbers),
        blank.part_marks_section(program, numbers),
        checks.not_checked_section(program),
        job.release_section(),
    ]


def bench_sections(program: BendProgram, wanted: Sequence[float]) -> list[Section | None]:
    """What whoever checks the part needs."""
    numbers = numbers_of_machine(program.profile)
    return [
        checks.checks_section(program, numbers, wanted),
        checks.diameters_section(program),
        fitting.ends_section(program, numbers),
        offset.offset_section(program, numbers),
        result.tolerance_section(program, numbers),
        result.finished_section(program, numbers),
        result.basis_section(program, numbers),
        bendability.bendability_section(program, numbers),
        neutral.neutral_section(program),
    ]
