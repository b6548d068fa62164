"""What the sheet says about use: ends, weld seam, how hard the bends are, and how far an estimate may be off."""

from dataclasses import replace

from bendgen.bending.lying import lying_before_bends
from bendgen.records.bend_program import Bendability, BendProgram, EndLeft, Uncertainty
from bendgen.records.part import PipingCode
from bendgen.records.tube import Perforation
from bendgen.reports.check_sheet import check_sheet
from bendgen.reports.page.sheet_page import sheet_page
from bendgen.reports.sheet.bendability import CODE_CAUTION, HOLES_CAUTION
from bendgen.reports.sheet.checks import UNCERTAINTY
from bendgen.reports.sheet.job import OPPOSITE_HAND
from tests.pages import bare_text_of

# Tube OD 50, CLR 100: CLR / OD 2, outer strain 50 / 200; the figures below follow from the definitions by hand.
FIGURES = Bendability(die="d50-r100", bend_ratio=2.0, wall_factor=33.3, outer_strain=0.25, thinning_percent=20.0)


def words_of(program: BendProgram) -> str:
    """Whole sheet with its lines run together."""
    return " ".join(bare_text_of(program).split())


def test_ends_say_what_is_needed_and_what_is_left(example_program: BendProgram) -> None:
    ends = (
        EndLeft(end="front", kind="sized", needed=40.0, left=200.04),
        EndLeft(end="rear", kind="plain", needed=60.0, left=58.5),
    )
    words = words_of(replace(example_program, ends=ends))
    assert "front end to be sized over another tube: needs 40.0 mm of straight, 200.0 mm is left rear end" in words
    assert "rear end plain, for a weld: needs 60.0 mm of straight, 58.5 mm is left: TOO SHORT BY 1.5 mm" in words


def test_the_two_hands_are_told_apart_on_every_title(example_program: BendProgram) -> None:
    mirrored = replace(example_program, part=replace(example_program.part, mirrored=True))
    assert words_of(mirrored).count(f"revision B {OPPOSITE_HAND} ====") == 3
    assert OPPOSITE_HAND not in words_of(example_program)
    assert "hand as in the part's file" in words_of(example_program)


def test_seam_at_every_bend(example_program: BendProgram) -> None:
    tube = replace(example_program.part.tube, seam_deg=15.0)
    steps = tuple(
        replace(step, seam_deg=place) for step, place in zip(example_program.steps, (15.0, 105.0), strict=True)
    )
    words = words_of(replace(example_program, part=replace(example_program.part, tube=tube), steps=steps))
    assert "Load the tube with its seam at 15.0°. bend seam at ---- ------- 1 15.0° 2 105.0°" in words


def test_an_estimate_says_how_far_off_it_may_be(example_program: BendProgram) -> None:
    checks = tuple(replace(check, band=(1.04, 2.06)) for check in example_program.checks)
    words = words_of(replace(example_program, checks=checks))
    assert words.count("ESTIMATE: may come out 1.0 to 2.1 mm") == sum(check.unit == "mm" for check in checks)
    assert words.count("ESTIMATE: may come out 1.0 to 2.1 °") == sum(check.unit == "deg" for check in checks)


def test_what_an_estimate_does_not_move_says_nothing(example_program: BendProgram) -> None:
    checks = tuple(replace(check, band=(check.predicted, check.predicted)) for check in example_program.checks)
    assert "ESTIMATE" not in words_of(replace(example_program, checks=checks))


def test_each_figure_under_its_own_name(example_program: BendProgram) -> None:
    words = words_of(replace(example_program, bendability=(FIGURES,)))
    assert "bend ratio CLR / OD = 2.00 wall factor OD / wall = 33.3 outer strain 25.0 % thinning 20.0 % on" in words
    assert CODE_CAUTION not in words
    assert "open area" not in words


def test_code_only_where_the_part_asks_for_it(example_program: BendProgram) -> None:
    part = replace(example_program.part, code=PipingCode(rule="B31.1", minimum_wall=1.2))
    program = replace(
        example_program, part=part, bendability=(replace(FIGURES, code_wall=1.5021, code_factors=(1.1, 13 / 14)),)
    )
    words = words_of(program)
    # A wall needed is rounded up: 1.5021 printed as 1.50 would be too thin.
    assert "B31.1 minimum wall 1.20 mm; this tube has 1.50 mm d50-r100: 1.51 mm needed before bending" in words
    assert "d50-r100: wall over that of straight pipe 1.100 inside the bend, 0.929 outside" in words
    assert CODE_CAUTION in words


def test_holes_as_geometry_and_no_more(example_program: BendProgram) -> None:
    # Round holes of 3 at a pitch of 5 in squares: open area pi / 4 · 9 / 25 = 28.3 %, ligament 2 of 5.
    holes = Perforation(hole=3.0, pitch=5.0, pattern="square")
    tube = replace(example_program.part.tube, perforated=True, perforation=holes)
    figures = replace(FIGURES, outer_pitch=6.25)
    words = words_of(replace(example_program, part=replace(example_program.part, tube=tube), bendability=(figures,)))
    assert "open area 28.3 % ligament 2.00 mm, 40.0 % of a pitch" in words
    assert "pitch 5.00 mm becomes 6.25 mm on the outside of a bend of d50-r100" in words
    assert HOLES_CAUTION in words


def test_uncertainty_names_the_bend_that_makes_most_of_it(example_program: BendProgram) -> None:
    first, second, *others = example_program.checks
    shared = replace(first, unit="mm", uncertainty=Uncertainty(expanded=0.42, shares=(0.2, 0.8)))
    alone = replace(second, unit="deg", uncertainty=Uncertainty(expanded=0.1666, shares=(1.0, 0.0)))
    words = words_of(replace(example_program, checks=(shared, alone, *others)))
    assert f"predicted {first.predicted:.2f} ± 0.42 mm most of ± by bend 2" in words
    assert f"predicted {second.predicted:.2f} ± 0.17 °" in words
    assert words.count("most of ±") == 1
    assert UNCERTAINTY in words
    assert UNCERTAINTY not in words_of(example_program)


def test_a_check_that_cannot_be_good_says_so(example_program: BendProgram) -> None:
    """A rotation of 180 predicted as -179.9 is a tenth off; a straight may be off by its tolerance and no more."""
    first = replace(example_program.checks[0], unit="mm", tolerance=1.0, predicted=100.0)
    turn = replace(first, id="rotation-2", unit="deg", tolerance=0.5, predicted=-179.9)
    for check, wanted, is_out in ((first, 99.0, False), (first, 98.9, True), (turn, 180.0, False), (turn, 179.0, True)):
        program = replace(example_program, checks=(check,))
        sheets = (
            check_sheet(program, program_id="0a1b2c3d", issue=1, wanted=[wanted]),
            sheet_page(program, program_id="0a1b2c3d", issue=1, wanted=[wanted], lying=lying_before_bends(program)),
        )
        for sheet in sheets:
            assert ("PREDICTED OUT OF TOLERANCE" in sheet) is is_out


def test_what_is_not_known_has_no_uncertainty(example_program: BendProgram) -> None:
    unknown = replace(example_program.checks[0], predicted=12.34, unit="mm", uncertainty=None)
    words = words_of(replace(example_program, checks=(unknown,)))
    assert "predicted 12.3 mm" in words
