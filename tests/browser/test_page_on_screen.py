"""The page on screen: readings typed, judged and saved, with and without scripts."""

import csv
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser

from bendgen.records.bend_program import BendProgram
from bendgen.records.machine import Column
from bendgen.records.measured import diameter_names
from tests.browser.opened import Opened, opened
from tests.hostile_text import HOSTILE
from tests.pages import page_of, sample_program
from tests.reports.page.test_sheet_page import with_text

DUCT = sample_program("six_bend_duct")
DROP = sample_program("diffuser_drop", "bay5_inch")


def test_opens_in_silence_and_asks_for_nothing(browser: Browser, tmp_path: Path) -> None:
    with opened(browser, page_of(DUCT), tmp_path) as sheet:
        assert sheet.page.title() == "GD-204 revision A issue 3"
        assert sheet.page.locator("#count").inner_text() == f"0 of {len(DUCT.checks)} read: 0 within, 0 out"
    assert sheet.troubles == []


WORDS_CUT_IN_TWO = """() => {
    const words = [];
    for (const heading of document.querySelectorAll('.steps th')) {
        const letters = document.createTreeWalker(heading, NodeFilter.SHOW_TEXT);
        while (letters.nextNode()) for (const word of letters.currentNode.data.matchAll(/\\S+/g)) {
            const range = document.createRange();
            range.setStart(letters.currentNode, word.index);
            range.setEnd(letters.currentNode, word.index + word[0].length);
            if (new Set([...range.getClientRects()].map((box) => box.top)).size > 1) words.push(word[0]);
        }
    }
    return words;
}"""


def test_headings_of_the_steps_are_whole_words(browser: Browser, tmp_path: Path) -> None:
    columns: tuple[Column, ...] = ("number", "die", "feed", "rotation", "bend")
    profile = DUCT.profile
    output = replace(profile.output, columns=columns, headings=columns)
    five = replace(DUCT, profile=replace(profile, output=output))
    with opened(browser, page_of(five), tmp_path) as sheet:
        assert sheet.page.evaluate(WORDS_CUT_IN_TWO) == []


BEYOND_THE_SCREEN = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
CELLS_TOO_NARROW = """() => [...document.querySelectorAll('.steps .numbers > *')]
    .filter((cell) => cell.scrollWidth > cell.clientWidth).map((cell) => cell.textContent)"""


@pytest.mark.parametrize("width", [320, 360, 700])
@pytest.mark.parametrize("program", [DUCT, DROP], ids=["four columns", "five columns"])
def test_a_telephone_need_not_be_scrolled_sideways(
    browser: Browser, tmp_path: Path, program: BendProgram, width: int
) -> None:
    with opened(browser, page_of(program), tmp_path) as sheet:
        sheet.page.set_viewport_size({"width": width, "height": 740})
        assert sheet.page.evaluate(BEYOND_THE_SCREEN) == 0
        assert sheet.page.evaluate(CELLS_TOO_NARROW) == []


VERDICTS_OF_AN_ANGLE = {
    "56.31": "within",
    "56.8": "within",
    "56,8": "within",
    "+55.82": "within",
    "56.9": "OUT: too large by 0.09",
    "50": "OUT: too small by 5.8",
    "fifty": "NO NUMBER, not saved",
    "56 1/3": "NO NUMBER, not saved",
    "1,256.3": "NO NUMBER, not saved",
    " ": "",
}
VERDICTS_OF_HALF_A_TURN = {"-179.9": "within", "180.3": "within", "179.2": "OUT: too small by 0.3"}


def test_verdict_of_an_angle_as_it_is_typed(browser: Browser, tmp_path: Path) -> None:
    """Wanted are 56.31°, atan(240 / 160) of the sample's vertices, and the tolerance is the tool's 0.5°."""
    with opened(browser, page_of(DUCT), tmp_path) as sheet:
        assert verdicts_of(sheet, "angle-1", VERDICTS_OF_AN_ANGLE) == VERDICTS_OF_AN_ANGLE


def test_rotations_are_judged_the_shorter_way_round(browser: Browser, tmp_path: Path) -> None:
    with opened(browser, page_of(sample_program("bearing_jog")), tmp_path) as sheet:
        assert verdicts_of(sheet, "rotation-2", VERDICTS_OF_HALF_A_TURN) == VERDICTS_OF_HALF_A_TURN


def verdicts_of(sheet: Opened, check: str, typed: Iterable[str]) -> dict[str, str]:
    """What the page says of each text while it stands in the box of a check."""
    verdicts = {}
    for text in typed:
        sheet.page.get_by_label(f"reading of {check}").fill(text)
        verdicts[text] = sheet.page.locator(f"output[for=read-{check}]").inner_text()
    return verdicts


def test_saved_readings_are_the_measured_csv(browser: Browser, tmp_path: Path) -> None:
    """Two pieces, lengths in the sheet's inches, one as a fraction; what is no number is left out."""
    with opened(browser, page_of(DROP), tmp_path) as sheet:
        page = sheet.page
        page.get_by_label("heat or lot").fill('lot "7", second')
        page.get_by_label("reading of straight-2").fill("4 1/2")
        page.get_by_label("reading of angle-1").fill("44,9")
        page.get_by_label("reading of angle-2").fill("none")
        page.get_by_role("button", name="Next piece").click()
        assert page.get_by_label("piece", exact=True).input_value() == "2"
        page.get_by_label("reading of angle-1").fill("45.1")
        with page.expect_download() as download:
            page.get_by_role("button", name="Save the readings").click()
        assert download.value.suggested_filename == "GD-118_B_3.measured.csv"
        download.value.save_as(tmp_path / "measured.csv")
    text = (tmp_path / "measured.csv").read_bytes().decode("utf-8")
    assert "\r" not in text
    same = {"part": DROP.part.number, "issue": "3", "lot": 'lot "7", second'}
    assert list(csv.DictReader(text.splitlines())) == [
        {**same, "piece": "1", "check": "angle-1", "value": "44.9", "unit": "deg"},
        {**same, "piece": "1", "check": "straight-2", "value": "4.5", "unit": "in"},
        {**same, "piece": "2", "check": "angle-1", "value": "45.1", "unit": "deg"},
    ]
    assert sheet.troubles == []


def test_keyboard_alone_is_enough(browser: Browser, tmp_path: Path) -> None:
    with opened(browser, page_of(DUCT), tmp_path) as sheet:
        page = sheet.page
        reached: list[str] = []
        for _ in range(len(DUCT.checks) + 2 * len(DUCT.steps) + 15):
            page.keyboard.press("Tab")
            name = page.evaluate("document.activeElement.id || document.activeElement.value || 'the page'")
            if name in reached:
                break
            reached.append(name)
        assert {
            "left",
            "right",
            "up",
            "down",
            "back",
            "piece",
            "lot",
            "save",
            "next",
            *(f"read-{check.id}" for check in DUCT.checks),
            *(f"read-{name}" for step in DUCT.steps for name in diameter_names(step.number)),
        } <= set(reached)
        page.locator("#save").focus()
        with page.expect_download():
            page.keyboard.press("Enter")


def test_without_scripts_everything_is_there(browser: Browser, tmp_path: Path) -> None:
    texts = []
    for scripts in (True, False):
        with opened(browser, page_of(DUCT), tmp_path, scripts=scripts) as sheet:
            text = sheet.page.locator("main").inner_text()
            for offered in map(sheet.page.locator, ("#saving", "#turnable")):
                assert offered.is_visible() is scripts
                text = text.replace(offered.inner_text(), "") if scripts else text
            texts.append(text.split())
        assert sheet.troubles == []
    assert texts[0] == texts[1]


def test_axe_finds_nothing_wrong(browser: Browser, tmp_path: Path) -> None:
    with opened(browser, page_of(sample_program("guard_hoop")), tmp_path) as sheet:
        sheet.page.get_by_label("reading of angle-1").fill("1")
        found = Axe().run(sheet.page)
        assert [f"{rule['id']}: {rule['help']}" for rule in found.response["violations"]] == []
        passed = {rule["id"] for rule in found.response["passes"]}
        assert {"color-contrast", "label", "document-title", "html-has-lang"} <= passed


def test_hostile_text_stays_text(browser: Browser, tmp_path: Path) -> None:
    hostile = " ".join(HOSTILE)
    with opened(browser, page_of(with_text(DUCT, hostile)), tmp_path) as sheet:
        assert sheet.page.title() == f"{hostile} revision {hostile} issue 3"
        assert " ".join(sheet.page.locator("article").first.inner_text().split()).count(hostile) >= 8
    assert sheet.troubles == []
