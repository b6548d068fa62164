"""What the steps will give against what was wanted, and how far each value can be trusted."""

from collections.abc import Iterator

from bendgen.records.bend_program import BendProgram
from bendgen.records.part import Part, Tolerance
from bendgen.reports.basis_words import BASIS_WORDS
from bendgen.reports.sheet.lines import NEUTRAL_ROTATION, bullets, fields, running, section, table
from bendgen.reports.sheet.numbers import SheetNumbers
from bendgen.units import format_number

SPRINGBACK_DECIMALS = 2
SLOPE_DECIMALS = 3
SLOPE_MEANING = "Per 1°: how much more to command where a finished angle comes out 1° too small."
BENDS_HELD = "Bends whose straights are held (above 150°, or given as steps) end wider than the die by:"


def finished_section(program: BendProgram, numbers: SheetNumbers) -> str:
    """Finished straights, rotations and angles against the wanted ones; change of width; largest deviation."""
    return section(
        "Finished part, predicted against wanted",
        running(NEUTRAL_ROTATION) if program.steps else "",
        _finished_table(program, numbers),
        _width_changes(program, numbers),
        running(_deviation_words(program, numbers)),
    )


def _finished_table(program: BendProgram, numbers: SheetNumbers) -> str:
    finished, wanted = program.finished, program.wanted_tube
    rows = []
    straights = zip(finished.straights, wanted.straights, strict=True)
    for number, lengths in enumerate(straights, start=1):
        rows.append([str(number), *(numbers.bare(length) for length in lengths), "", "", "", "", ""])
    for row, got, asked in zip(rows, finished.bends, wanted.bends, strict=False):
        row[3:] = [
            *(numbers.angle(bend.rotation_deg) for bend in (got, asked)),
            *(numbers.angle(bend.angle_deg) for bend in (got, asked)),
            numbers.bare(got.clr),
        ]
    unit = numbers.units
    headings = ["no", f"straight {unit}", "wanted", "rotation °", "wanted", "angle °", "wanted", f"CLR {unit}"]
    used = len(headings) if finished.bends else 3
    return table([*headings[:used]], [row[:used] for row in rows], align="r" * used, gap=2)


def _deviation_words(program: BendProgram, numbers: SheetNumbers) -> str:
    deviation, tolerance = program.largest_deviation, program.part.tolerance
    words = f"Largest predicted deviation from the wanted axis: {numbers.length(deviation)}."
    if tolerance.iso2768 is None and deviation > tolerance.length:
        words += f" THAT IS MORE THAN THE TOLERANCE ON LENGTHS, ± {numbers.length(tolerance.length)}."
    return words


def _width_changes(program: BendProgram, numbers: SheetNumbers) -> str:
    changes = [
        f"bend {step.number}: {numbers.length(step.width_change)}"
        for step in program.steps
        if step.width_change is not None
    ]
    return "\n".join([running(BENDS_HELD), bullets(changes)]) if changes else ""


def basis_section(program: BendProgram, numbers: SheetNumbers) -> str:
    """Springback, formed radius and elongation of every bend, where each comes from, and what those words mean."""
    rows, used = [], {}
    for step in program.steps:
        basis = step.basis
        words = (basis.springback, basis.formed_clr, basis.elongation)
        springback = f"{format_number(step.springback_deg, SPRINGBACK_DECIMALS)}  {words[0]}"
        clr, elongation = (numbers.bare(value) for value in (step.formed_clr, step.elongation))
        rows.append(
            [
                str(step.number),
                springback,
                f"{clr}  {words[1]}",
                f"{elongation}  {words[2]}",
                format_number(step.slope, SLOPE_DECIMALS),
            ]
        )
        used.update(dict.fromkeys(words))
    if not rows:
        return ""
    unit = numbers.units
    headings = ["bend", "springback °", f"formed CLR {unit}", f"elongation {unit}", "per 1°"]
    legend = bullets(f"{word}: {BASIS_WORDS[word]}" for word in BASIS_WORDS if word in used)
    return section("Where the values come from", table(headings, rows, align="rlllr"), legend, running(SLOPE_MEANING))


def tolerance_section(program: BendProgram, numbers: SheetNumbers) -> str:
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
