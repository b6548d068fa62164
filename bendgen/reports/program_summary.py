"""What became of each part, one line a part, and of all of them in one."""

from collections.abc import Sequence

from bendgen.records.bend_program import BendProgram
from bendgen.records.findings import Finding
from bendgen.records.part import Part
from bendgen.units import counted, format_length


def written_line(program: BendProgram, *, program_id: str, issue: int, files: Sequence[str]) -> str:
    """A part whose files were written: "GD-118 B issue 1 (id …): 2 bends, blank 984.6 mm, 12 pieces; wrote …"."""
    facts = [
        counted(len(program.steps), "bend"),
        f"blank {format_length(program.blank.length, program.profile.output.units)}",
        "TRIAL PIECE, bend one only" if program.trial_piece else counted(program.part.quantity, "piece"),
    ]
    if program.findings:
        facts.append(counted(len(program.findings), "caution"))
    return f"{_part_words(program.part)} issue {issue} (id {program_id}): {', '.join(facts)}; wrote {', '.join(files)}"


def refused_line(part: Part, findings: Sequence[Finding]) -> str:
    """A part that cannot be bent: "GD-118 B: not written, 2 limits broken: clamp, grip"."""
    broken = [finding.rule for finding in findings if finding.level == "limit"]
    rules = ", ".join(dict.fromkeys(broken))
    return f"{_part_words(part)}: not written, {counted(len(broken), 'limit')} broken: {rules}"


def summary_line(*, written: int, trial_pieces: int, refused: int, unreadable: int) -> str:
    """All parts of one call: "3 parts: 2 written (1 as trial piece), 1 refused"."""
    trial = f" ({trial_pieces} as trial piece)" if trial_pieces else ""
    counts = [f"{written} written{trial}"]
    counts += [f"{refused} refused"] * bool(refused) + [f"{unreadable} not readable"] * bool(unreadable)
    return f"{counted(written + refused + unreadable, 'part')}: {', '.join(counts)}"


def _part_words(part: Part) -> str:
    return f"{part.number} {part.revision}"
