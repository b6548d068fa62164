"""What the steps will give against what was wanted, and how far each value can be trusted."""

from collections.abc import Iterator
from itertools import zip_longest

from bendgen.records.bend_program import BasisWord, BendProgram, BendStep
from bendgen.records.bent_tube import Bend
from bendgen.records.part import Part, Tolerance
from bendgen.reports.basis_words import BASIS_WORDS
from bendgen.reports.blocks import (
    Passage,
    Section,
    Table,
    bullets,
    fields,
    running,
    section,
    table,
)
from bendgen.reports.sheet.neutral import NEUTRAL_ROTATION
from bendgen.reports.sheet.numbers import SheetNumbers
from bendgen.units import format_number

SPRINGBACK_DECIMALS = 2
SLOPE_DECIMALS = 3
SLOPE_MEANING = "Per 1°: how much more to command where a finished angle comes out 1° too small."
BENDS_HELD = "Bends whose straights are held (above 150°, or given as steps) end wider than the die by:"


def finished_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Finished straights, rotations and angles against the wanted ones; change of width; largest deviation."""
    return section(
        "Finished part, predicted against wanted",
        running(NEUTRAL_ROTATION) if program.steps else None,
        _finished_table(program, numbers),
        _width_changes(program, numbers),
        running(_deviation_words(program, numbers)),
    )


def _finished_table(program: BendProgram, numbers: SheetNumbers) -> Table | None:
    """One line for each straight with the bend behind it; a part without bends has no columns for them."""
    pairs = (program.finished, program.wanted_tube)
    straights = zip(*(tube.straights for tube in pairs), strict=True)
    bends = zip(*(tube.bends for tube in pairs), strict=True)
    unit = numbers.units
    headings = ["no", f"straight {unit}", "wanted", "rotation °", "wanted", "angle °", "wanted", f"CLR {unit}"]
    columns = len(headings) if program.finished.bends else 3
    rows = []
    for number, (lengths, pair) in enumerate(zip_longest(straights, bends), start=1):
        bend = _bend_cells(*pair, numbers=numbers) if pair else [""] * (len(headings) - 3)
        cells = [str(number), *map(numbers.bare, lengths), *bend]
        rows.append(cells[:columns])
    return table(headings[:columns], rows, align="r" * columns, gap=2)


def _bend_cells(finished: Bend, wanted: Bend, *, numbers: SheetNumbers) -> list[str]:
    angles = (finished.rotation_deg, wanted.rotation_deg, finished.angle_deg, wanted.angle_deg)
    return [*map(numbers.angle, angles), numbers.bare(finished.clr)]


def _deviation_words(program: BendProgram, numbers: SheetNumbers) -> str:
    deviation, tolerance = program.largest_deviation, program.part.tolerance
    words = f"Largest predicted deviation from the wanted axis: {numbers.length(deviation)}."
    if tolerance.iso2768 is None and deviation > tolerance.length:
        words += f" THAT IS MORE THAN THE TOLERANCE ON LENGTHS, ± {numbers.length(tolerance.length)}."
    return words


def _width_changes(program: BendProgram, numbers: SheetNumbers) -> Passage:
    changes = [
        f"bend {step.number}: {numbers.length(step.width_change)}"
        for step in program.steps
        if step.width_change is not None
    ]
    return (running(BENDS_HELD), bullets(changes)) if changes else ()


def basis_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Springback, formed radius and elongation of every bend, where each comes from, and what those words mean."""
    if not program.steps:
        return None
    unit = numbers.units
    headings = ["bend", "springback °", f"formed CLR {unit}", f"elongation {unit}", "per 1°"]
    rows = [_basis_cells(step, numbers) for step in program.steps]
    used = {word for step in program.steps for word in _basis_words(step)}
    legend = bullets(f"{word}: {meaning}" for word, meaning in BASIS_WORDS.items() if word in used)
    return section("Where the values come from", table(headings, rows, align="rlllr"), legend, running(SLOPE_MEANING))


def _basis_cells(step: BendStep, numbers: SheetNumbers) -> list[str]:
    values = (
        format_number(step.springback_deg, SPRINGBACK_DECIMALS),
        numbers.bare(step.formed_clr),
        numbers.bare(step.elongation),
    )
    known = [f"{value}  {word}" for value, word in zip(values, _basis_words(step), strict=True)]
    return [str(step.number), *known, format_number(step.slope, SLOPE_DECIMALS)]


def _basis_words(step: BendStep) -> tuple[BasisWord, BasisWord, BasisWord]:
    return step.basis.springback, step.basis.formed_clr, step.basis.elongation


def tolerance_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Tolerances and who set them."""
    return section("Tolerances", fields(_tolerance_fields(program.part, numbers)))


def _tolerance_fields(part: Part, numbers: SheetNumbers) -> Iterator[tuple[str, str]]:
    tolerance = part.tolerance
    yield "source", _source_words(tolerance)
    if tolerance.iso2768 is None:
        yield "lengths", f"± {numbers.length(tolerance.length)}"
        yield "angles", f"± {numbers.angle(tolerance.angle_deg)}°"
    else:
        yield "lengths, angles", f"ISO 2768 class {tolerance.iso2768}, by nominal size: see each check"
    yield "offset", f"± {numbers.length(tolerance.offset)}"


def _source_words(tolerance: Tolerance) -> str:
    return "the part's file" if tolerance.source == "part" else "TOOL'S DEFAULT: nobody named any for this part"
