"""Findings as text: one paragraph each, its cures below it."""

import json
from collections.abc import Iterable, Sequence
from dataclasses import replace

from bendgen.records.findings import Change, Cure, Finding, Value
from bendgen.reports.paragraphs import paragraph

TERMINAL_WIDTH = 100
SPACE_BEFORE_CURE = "  "


def findings_text(findings: Sequence[Finding], *, width: int = TERMINAL_WIDTH) -> str:
    """Limits first, then cautions, with an empty line between any two; empty text for none.

    Each finding reads "LIMIT clamp, bend 2: …" and is followed by its cures, "cure: … (key = value)", any one of which
    removes it.
    """
    ordered = sorted(findings, key=lambda finding: finding.level != "limit")
    return "\n\n".join(_finding_text(finding, width) for finding in ordered)


def _finding_text(finding: Finding, width: int) -> str:
    head = paragraph(finding_line(finding), width=width, other=SPACE_BEFORE_CURE)
    cures = (paragraph(cure_line(cure), width=width, first=f"{SPACE_BEFORE_CURE}cure: ") for cure in finding.cures)
    return "\n".join([head, *cures])


def finding_line(finding: Finding) -> str:
    """Level, rule, bend and what was found."""
    return _line(finding, [] if finding.step is None else [finding.step])


def finding_lines(findings: Iterable[Finding]) -> list[str]:
    """The same for many; what is found at several bends alike is said once."""
    bends: dict[Finding, list[int]] = {}
    for finding in findings:
        alike = replace(finding, step=None, value=None, limit=None, cures=())
        bends.setdefault(alike, []).extend([] if finding.step is None else [finding.step])
    return [_line(finding, numbers) for finding, numbers in bends.items()]


def _line(finding: Finding, bends: Sequence[int]) -> str:
    where = f", bend{'s' * (len(bends) > 1)} {_runs(bends)}" if bends else ""
    return f"{finding.level.upper()} {finding.rule}{where}: {finding.text}"


def _runs(numbers: Sequence[int]) -> str:
    """Numbers in order, three and more in a row as the first and the last."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs)


def cure_line(cure: Cure) -> str:
    """What would remove a finding, and the line of the part's file that does it."""
    return f"{cure.text} ({change_text(cure.change)})"


def change_text(change: Change) -> str:
    """Change as a line of the part's file, "tube.wall = 2"."""
    return f"{change.key} = {_toml_text(change.value)}"


def _toml_text(value: Value) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, tuple):
        return "[" + ", ".join(_toml_text(item) for item in value) + "]"
    return _toml_number(value)


def _toml_number(number: float) -> str:
    """Shortest digits that the file's reader turns into the same number, to 12 places; no -0."""
    return f"{number + 0.0:.12g}"
