"""Reports as pages: words and drawings, no scripts, hostile text as text."""

import re
from dataclasses import replace
from html.parser import HTMLParser

from bendgen.records.trials import Lesson
from bendgen.reports.page.report_page import comparison_page, trials_page
from tests.reports.drawings.test_charts import LESSON, SERIES
from tests.reports.drawings.test_deviation_drawing import foretold, measured

HOSTILE = "</pre><script>alert('&amp;')</script>\"'"


class Found(HTMLParser):
    """Tags and text of a page."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.text = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += attrs

    def handle_data(self, data: str) -> None:
        self.text += data


def test_every_lesson_with_rows_has_its_plot() -> None:
    bare = replace(LESSON, rows=(), fit=None, refusal="too few")
    page = trials_page("trials.csv", [LESSON, bare, LESSON], "mm")
    found = Found(page)
    assert "<ul></ul>" not in page
    assert found.tags.count("svg") == 2
    for told in (LESSON.kind.die, "not written: too few"):
        assert told in found.text
    assert "trials.csv" in found.text


def test_pieces_that_are_out_are_drawn_and_every_series_charted() -> None:
    part = foretold("dryer_inlet", "GD-118_B_1")
    good, bad = measured(part), measured(part, angle_1=-3.0)
    found = Found(comparison_page(part, [good, bad], [SERIES, SERIES]))
    assert found.tags.count("svg") == 3
    assert Found(comparison_page(part, [good], [])).tags.count("svg") == 1


def test_rows_out_of_tolerance_are_marked_and_say_so() -> None:
    part = foretold("dryer_inlet", "GD-118_B_1")
    page = comparison_page(part, [measured(part, angle_1=-3.0)], [])
    (row,) = re.findall(r'<tr class="marked">.*?</tr>', page)
    assert "angle-1" in row
    assert "OUT" in row


def test_a_report_has_no_scripts_and_lets_none_in() -> None:
    found = Found(trials_page(HOSTILE, [of_lot(HOSTILE)], "mm"))
    assert "script" not in found.tags
    assert found.text.count(HOSTILE) == 4  # window's title, title block, title of the lesson, caption of the plot
    (policy,) = [text for name, text in found.attributes if name == "content" and "default-src" in (text or "")]
    assert policy is not None
    assert policy.startswith("default-src 'none'; style-src 'sha256-")
    assert "script-src 'none'" in policy
    assert not any(name == "style" or name.startswith("on") for name, _ in found.attributes)


def of_lot(lot: str) -> Lesson:
    return replace(LESSON, lot=lot)
