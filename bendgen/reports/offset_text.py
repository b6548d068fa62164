"""An offset explored at the command line, as text."""

from bendgen.records.bend_program import BendProgram
from bendgen.records.offset import OffsetSolution, OffsetWish
from bendgen.reports.basis_words import BASIS_WORDS
from bendgen.reports.findings_text import TERMINAL_WIDTH, findings_text
from bendgen.reports.offset_words import RANGE_ALIGN, RANGE_HEADINGS, answer_rows, plane_sentences, range_rows
from bendgen.reports.paragraphs import paragraph
from bendgen.reports.text_table import padded, text_table
from bendgen.units import FINE_DECIMALS, Units, format_length

NAME_WIDTH = 17


def offset_text(program: BendProgram, wish: OffsetWish, solution: OffsetSolution, *, units: Units) -> str:
    """Answer, all that would fit, how it is turned into its place, tooling, and cautions.

    Parameters
    ----------
    program : the part planned with this offset
    wish, solution : of that part
    units : unit of the lengths in the text
    """

    def length(value: float) -> str:
        return format_length(value, units, FINE_DECIMALS[units])

    rows = range_rows(solution, length)
    sections = [
        _fields([*answer_rows(wish, solution, length), *_tooling_rows(program, solution)]),
        f"What fits\n{text_table(RANGE_HEADINGS, rows, align=RANGE_ALIGN, gap=3)}" if rows else "",
        "\n".join(paragraph(text, width=TERMINAL_WIDTH) for text in plane_sentences(wish, solution)),
        findings_text(program.findings),
    ]
    return "\n\n".join(section for section in sections if section) + "\n"


def _fields(rows: list[tuple[str, str]]) -> str:
    return "\n".join(
        paragraph(text, width=TERMINAL_WIDTH, first=padded(name, NAME_WIDTH, "l")).rstrip() for name, text in rows
    )


def _tooling_rows(program: BendProgram, solution: OffsetSolution) -> list[tuple[str, str]]:
    if not program.steps:
        return []
    table = program.tables[0].file if program.tables else "none serves this tube"
    step = program.steps[0]
    return [
        ("to command", f"{step.bend_deg:g}°, springback {BASIS_WORDS[step.basis.springback]}"),
        ("die set", solution.die),
        ("table", table),
    ]
