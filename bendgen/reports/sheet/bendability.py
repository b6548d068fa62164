"""How hard the bends are on the tube: each figure by the rule that gives it, none mixed with another."""

from collections.abc import Iterator

from bendgen.geometry.perforation import ligament_efficiency, open_area_share
from bendgen.records.bend_program import Bendability, BendProgram
from bendgen.records.part import PipingCode
from bendgen.records.tube import Perforation
from bendgen.reports.blocks import Passage, Section, bullets, fields, section
from bendgen.reports.sheet.numbers import SheetNumbers
from bendgen.units import format_number

MEANINGS = (
    "Outer strain is OD / (2 CLR); thinning is the volume-kept estimate. Neither is a measurement of this tube.",
    "Ovality is not forecast: measure the largest and the smallest diameter.",
)
CODE_CAUTION = "Pressure parts follow the code and its licensed people; this is one thickness rule of it, no approval."
HOLES_CAUTION = "Figures of the flat sheet; how such tube bends, nobody has claimed. The pitch assumes even stretch."


def bendability_section(program: BendProgram, numbers: SheetNumbers) -> Section | None:
    """Figures of every die set, of the code where the part asks for one, and of the holes."""
    if not program.bendability:
        return None
    rows = [row for figures in program.bendability for row in _die_rows(figures)]
    return section(
        "How hard the bends are on the tube",
        fields(rows),
        bullets(MEANINGS),
        _code_part(program, numbers),
        _holes_part(program, numbers),
    )


def _die_rows(figures: Bendability) -> Iterator[tuple[str, str]]:
    yield "die set", figures.die
    yield "bend ratio", f"CLR / OD = {format_number(figures.bend_ratio, 2)}"
    yield "wall factor", f"OD / wall = {format_number(figures.wall_factor, 1)}"
    yield "outer strain", f"{format_number(100.0 * figures.outer_strain, 1)} %"
    yield "thinning", f"{format_number(figures.thinning_percent, 1)} % on the outside of the bend"


def _code_part(program: BendProgram, numbers: SheetNumbers) -> Passage:
    code = program.part.code
    return () if code is None else (fields(_code_rows(program, code, numbers)), bullets([CODE_CAUTION]))


def _code_rows(program: BendProgram, code: PipingCode, numbers: SheetNumbers) -> Iterator[tuple[str, str]]:
    wall, needed = numbers.wall(program.part.tube.wall), numbers.wall_needed(code.minimum_wall)
    yield code.rule, f"minimum wall {needed}; this tube has {wall}"
    for figures in program.bendability:
        if figures.code_wall is not None:
            yield "", f"{figures.die}: {numbers.wall_needed(figures.code_wall)} needed before bending"
        if figures.code_factors is not None:
            inside, outside = (format_number(factor, 3) for factor in figures.code_factors)
            yield "", f"{figures.die}: wall over that of straight pipe {inside} inside the bend, {outside} outside"


def _holes_part(program: BendProgram, numbers: SheetNumbers) -> Passage:
    holes = program.part.tube.perforation
    return () if holes is None else (fields(_hole_rows(program, holes, numbers)), bullets([HOLES_CAUTION]))


def _hole_rows(program: BendProgram, holes: Perforation, numbers: SheetNumbers) -> Iterator[tuple[str, str]]:
    open_area = open_area_share(holes.hole, holes.pitch, holes.pattern)
    ligament = ligament_efficiency(holes.hole, holes.pitch)
    yield "open area", f"{format_number(100.0 * open_area, 1)} %"
    yield "ligament", f"{numbers.wall(holes.pitch - holes.hole)}, {format_number(100.0 * ligament, 1)} % of a pitch"
    for figures in program.bendability:
        if figures.outer_pitch is not None:
            grown = f"{numbers.wall(holes.pitch)} becomes {numbers.wall(figures.outer_pitch)}"
            yield "pitch", f"{grown} on the outside of a bend of {figures.die}"
