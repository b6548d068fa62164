"""Reports opened and printed by a real browser."""

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser

from bendgen.reports.page.report_page import comparison_page, trials_page
from tests.browser.opened import opened
from tests.browser.printed import farthest_out, overlaps, printed
from tests.reports.drawings.test_charts import LESSON, SERIES
from tests.reports.drawings.test_deviation_drawing import foretold, measured

MARGIN = 5.0  # nearly every printer reaches that far [mm]


def trial_report() -> str:
    return trials_page("trials.csv", [LESSON], "mm")


def comparison_report() -> str:
    part = foretold("six_bend_duct", "GD-204_A_1")
    pieces = [measured(part, angle_1=-3.0, straight_2=2.0), measured(part, rotation_3=2.0)]
    return comparison_page(part, pieces, [SERIES] * 4)


@pytest.mark.parametrize("report", [trial_report(), comparison_report()], ids=["trials", "compare"])
def test_a_report_asks_for_nothing_and_prints_whole(browser: Browser, tmp_path: Path, report: str) -> None:
    with opened(browser, report, tmp_path) as shown:
        papers = [paper for size in ("A4", "Letter") for paper in printed(shown.page, size)]
        assert shown.troubles == []
        assert [rule["id"] for rule in Axe().run(shown.page).response["violations"]] == []
    for paper in papers:
        assert overlaps(paper) == 0
        assert farthest_out(paper) >= MARGIN
