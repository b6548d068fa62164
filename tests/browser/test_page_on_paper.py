"""The page on paper: how many sheets, whole and without overlaps, for parts of every size."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from bendgen.records.bend_program import BendProgram
from bendgen.records.machine import MachineProfile
from bendgen.records.machine_cells import machine_cells
from bendgen.records.part import Part
from bendgen.records.tooling import DieSet
from bendgen.reports.page.machine_page import CAUTIONS_ELSEWHERE
from bendgen.reports.sheet.job import OPPOSITE_HAND, RELEASE_FIELDS, TRIAL_WORDS
from tests.browser.opened import opened
from tests.browser.printed import Paper, farthest_out, overlaps, printed
from tests.pages import (
    ID,
    alternating_part,
    corrected,
    five_column_bender,
    large_bender,
    page_of,
    perforated_alternating_part,
    perforated_part,
    planned,
    sample_program,
    stopping_bender,
    two_die_part,
    winding_part,
)

SIZES = ("A4", "Letter")
MARGIN = 5.0  # nearly every printer reaches that far [mm]
LONG_NAME = "Air duct around the frame of the dryer, long side, with two branches to the cooler and one to the cyclone"
SCRIPTS_OF_THE_WORLD = "مجرى الهواء للمجفف 12 مم · סעפת · 乾燥機の送風管 · Воздуховод · ท่อลม"


def papers_of(
    browser: Browser, program: BendProgram, folder: Path, sizes: Sequence[str] = SIZES
) -> dict[str, list[Paper]]:
    with opened(browser, page_of(program), folder) as sheet:
        return {size: printed(sheet.page, size) for size in sizes}


def check_papers(papers: list[Paper]) -> None:
    """Every sheet of paper is numbered, says whose it is, and holds its words side by side within the margins."""
    for number, paper in enumerate(papers, start=1):
        assert f"sheet {number} of {len(papers)}" in paper.text
        assert ID in paper.text
        assert overlaps(paper) == 0
        assert farthest_out(paper) >= MARGIN


def check_steps(papers: list[Paper], program: BendProgram) -> None:
    """No number is broken in two, and none stands without the others of its step."""
    text = " ".join(paper.text for paper in papers)
    for step in program.machine_steps:
        assert " ".join(machine_cells(step, program.profile)) in text


def sheets_of(papers: list[Paper], kind: str) -> int:
    return sum(kind in paper.text for paper in papers)


@pytest.mark.parametrize("bends", [1, 4, 8])
def test_up_to_eight_bends_on_one_paper(browser: Browser, tmp_path: Path, bends: int) -> None:
    program = planned(winding_part(bends), large_bender())
    for papers in papers_of(browser, program, tmp_path).values():
        check_papers(papers)
        check_steps(papers, program)
        assert sheets_of(papers, "At the machine") == 1


CROWDED = {
    "perforated": (perforated_part, large_bender),
    "two dies": (two_die_part, large_bender),
    "five columns": (perforated_part, five_column_bender),
    "a die set at every bend": (alternating_part, large_bender),
    "a stop at every bend": (alternating_part, stopping_bender),
    "everything": (perforated_alternating_part, stopping_bender),
}


@pytest.mark.parametrize("job", CROWDED)
def test_eight_bends_with_all_their_cautions_on_one_paper(browser: Browser, tmp_path: Path, job: str) -> None:
    part, profile = (made() for made in CROWDED[job])
    assert isinstance(part, Part)
    assert isinstance(profile, MachineProfile)
    program = corrected(planned(part, profile))
    for papers in papers_of(browser, program, tmp_path).values():
        check_papers(papers)
        check_steps(papers, program)
        assert sheets_of(papers, "At the machine") == 1
        first, second = (paper.text for paper in papers[:2])
        assert OPPOSITE_HAND in first
        assert all(TRIAL_WORDS in paper.text for paper in papers)
        place = second if CAUTIONS_ELSEWHERE in first else first
        for finding in program.findings:
            assert finding.text in place
        for field in RELEASE_FIELDS:
            assert field in first


SIZES_OF_PICTURES = """() => [...document.querySelectorAll('.steps svg')].map((svg) => {
    const box = svg.getBoundingClientRect(), cell = svg.closest('td').getBoundingClientRect();
    return { scale: box.width * 25.4 / 96 / svg.viewBox.baseVal.width, out: box.bottom - cell.bottom };
})"""
LETTERS_OF_NUMBERS = """() => [...document.querySelectorAll('.steps .numbers td.number')].map((cell) => ({
    size: parseFloat(getComputedStyle(cell).fontSize) * 72 / 96, out: cell.scrollWidth - cell.clientWidth,
}))"""
ARMS_LENGTH = 18.0  # type whose figures are seen under 22 minutes of arc from 0.7 m [pt]


@pytest.mark.parametrize("bends", [2, 8])
@pytest.mark.parametrize("profile", [large_bender, five_column_bender])
def test_pictures_are_full_size_and_numbers_are_read_at_arm_s_length(
    browser: Browser, tmp_path: Path, bends: int, profile: Callable[[], MachineProfile]
) -> None:
    """Letters of the pictures are 2.5 mm high in the drawing, so the page must not draw it smaller."""
    with opened(browser, page_of(planned(winding_part(bends), profile())), tmp_path) as sheet:
        sheet.page.set_viewport_size({"width": round(194 / 25.4 * 96), "height": 1000})  # A4 within its margins
        sheet.page.emulate_media(media="print")
        pictures, numbers = (sheet.page.evaluate(script) for script in (SIZES_OF_PICTURES, LETTERS_OF_NUMBERS))
    assert [picture["scale"] for picture in pictures] == pytest.approx([1.0] * bends, abs=0.005)
    assert max(picture["out"] for picture in pictures) <= 0.0
    assert len(numbers) >= 4 * bends
    assert min(number["size"] for number in numbers) >= ARMS_LENGTH
    assert max(number["out"] for number in numbers) <= 0


def test_twenty_bends_go_on_cleanly(browser: Browser, tmp_path: Path) -> None:
    program = planned(winding_part(20), large_bender())
    for papers in papers_of(browser, program, tmp_path).values():
        check_papers(papers)
        check_steps(papers, program)
        assert 2 <= sheets_of(papers, "At the machine") <= 4
        text = " ".join(paper.text for paper in papers)
        assert all(f"angle-{number} " in text for number in range(1, 21))


@pytest.mark.parametrize("name", [LONG_NAME, SCRIPTS_OF_THE_WORLD, "W" * 120], ids=["long", "scripts", "one word"])
def test_long_and_foreign_names(browser: Browser, tmp_path: Path, name: str) -> None:
    part = winding_part(3, name=name)
    program = planned(named(part, name), large_bender())
    for papers in papers_of(browser, program, tmp_path, sizes=["Letter"]).values():
        check_papers(papers)


def test_long_names_leave_eight_bends_on_one_paper(browser: Browser, tmp_path: Path) -> None:
    program = planned(named(winding_part(8), LONG_NAME), large_bender())
    for papers in papers_of(browser, program, tmp_path).values():
        check_papers(papers)
        assert sheets_of(papers, "At the machine") == 1


def named(part: Part, name: str) -> Part:
    """The part with that text wherever it goes by a name."""
    return replace(part, name=name, number=name[:60], revision=name[:20], tube=replace(part.tube, lot=name[:30]))


@pytest.mark.parametrize("sample", ["bearing_jog", "dryer_inlet", "six_bend_duct"])
def test_what_is_said_of_the_readings_stands_on_the_paper_of_the_first_of_them(
    browser: Browser, tmp_path: Path, sample: str
) -> None:
    for papers in papers_of(browser, sample_program(sample), tmp_path).values():
        (paper,) = (paper for paper in papers if "A reading is good within its tolerance" in paper.text)
        assert "blank length" in paper.text


@pytest.mark.parametrize(("sample", "machine"), [("diffuser_drop", "bay5_inch"), ("guard_hoop", "bay2")])
def test_samples(browser: Browser, tmp_path: Path, sample: str, machine: str) -> None:
    program = sample_program(sample, machine)
    for papers in papers_of(browser, program, tmp_path).values():
        check_papers(papers)
        check_steps(papers, program)
        assert sheets_of(papers, "At the machine") == 1


def test_a_part_of_ten_millimetres(browser: Browser, tmp_path: Path) -> None:
    program = planned(*tiny_job(0.015))
    assert sum(program.finished.straights) == pytest.approx(10.0, abs=0.1)
    papers = papers_of(browser, program, tmp_path, sizes=["Letter"])["Letter"]
    check_papers(papers)
    check_steps(papers, program)


def tiny_job(scale: float) -> tuple[Part, MachineProfile]:
    """A winding part of four bends and its bender, every length of both multiplied."""
    part, profile = winding_part(4), large_bender()
    assert part.steps is not None
    bends = tuple(replace(bend, straight=scale * bend.straight) for bend in part.steps.bends)
    die = DieSet(id="d50-r100", tube_od=50.0 * scale, clr=100.0 * scale, clamp=110.0 * scale, largest_bend_deg=180.0)
    tables = [table for table in profile.tables if table.die == die.id and table.lot is None and not table.perforated]
    return (
        replace(
            part,
            tube=replace(part.tube, od=die.tube_od, wall=1.5 * scale),
            steps=replace(part.steps, bends=bends, rear=150.0 * scale),
        ),
        replace(
            profile,
            dies=(die,),
            tables=tuple(replace(table, wall=1.5 * scale) for table in tables),
            carriage=replace(profile.carriage, grip=60.0 * scale, closest=60.0 * scale),
        ),
    )


def test_a_part_of_six_metres(browser: Browser, tmp_path: Path) -> None:
    part = winding_part(3)
    assert part.steps is not None
    bends = tuple(replace(bend, straight=1850.0) for bend in part.steps.bends)
    program = planned(replace(part, steps=replace(part.steps, bends=bends, rear=400.0)), large_bender())
    assert sum(program.finished.straights) == pytest.approx(5950.0, abs=1.0)
    papers = papers_of(browser, program, tmp_path, sizes=["A4"])["A4"]
    check_papers(papers)
    check_steps(papers, program)
