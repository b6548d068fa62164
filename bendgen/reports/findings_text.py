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
    removes it. What is found at several bends alike, cures included, is said once.
    """
    ordered = sorted(findings, key=lambda finding: finding.level != "limit")
    return "\n\n".join(_finding_text(line, cures, width) for line, cures in lines_with_cures(ordered))


def _finding_text(line: str, cures: Sequence[Cure], width: int) -> str:
    head = paragraph(line, width=width, other=SPACE_BEFORE_CURE)
    below = (paragraph(cure_line(cure), width=width, first=f"{SPACE_BEFORE_CURE}cure: ") for cure in cures)
    return "\n".join([head, *below])


def finding_lines(findings: Iterable[Finding]) -> list[str]:
    """Level, rule, bends and what was found there."""
    return [line for line, _ in lines_with_cures(replace(finding, cures=()) for finding in findings)]


def lines_with_cures(findings: Iterable[Finding]) -> list[tuple[str, tuple[Cure, ...]]]:
    """The same line of each finding, and its cures; what is found at several bends alike is said once."""
    bends: dict[Finding, list[int]] = {}
    for finding in findings:
        alike = replace(finding, step=None, value=None, limit=None)
        bends.setdefault(alike, []).extend([] if finding.step is None else [finding.step])
    return [(_line(finding, numbers), finding.cures) for finding, numbers in bends.items()]


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
    """What would remove a finding, and the line of the part's file, or the option, that does it."""
    return f"{cure.text} ({change_text(cure.change)})"


def change_text(change: Change) -> str:
    """Change as a line of the part's file, "tube.wall = 2", or as an option of the command, "--from-rear"."""
    if change.key.startswith("--"):
        return change.key if change.value else f"without {change.key}"
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
