"""The page and `bendgen compare` judge alike: what is typed on one is read by the other."""

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page
from typer.testing import CliRunner

from bendgen.cli.app import app
from tests.browser.opened import opened
from tests.pages import ROOT, page_of, sample_program


@pytest.mark.parametrize(("sample", "machine"), [("dryer_inlet", "bay2"), ("diffuser_drop", "bay5_inch")])
def test_verdicts_of_page_and_compare_agree(browser: Browser, tmp_path: Path, sample: str, machine: str) -> None:
    """The first piece reads what is foretold; of the second every check is off a little more than the one before."""
    profile = str(ROOT / "machine_profiles" / machine)
    run("program", f"{ROOT / 'samples' / sample}.toml", "--machine", profile, "--out", str(tmp_path))
    steps, sheet = (next(tmp_path.glob(f"*.{name}")) for name in ("steps.json", "sheet.html"))
    checks = json.loads(steps.read_text(encoding="utf-8"))["checks"]
    verdicts = []
    with opened(browser, sheet.read_text(encoding="utf-8"), tmp_path) as opened_sheet:
        page = opened_sheet.page
        for share in (0.0, 2.0 / len(checks)):
            readings = [check["predicted"] + share * number * check["tolerance"] for number, check in enumerate(checks)]
            pairs = zip(checks, readings, strict=True)
            verdicts.append({check["id"]: typed(page, check, value) for check, value in pairs})
            if share == 0.0:
                page.get_by_role("button", name="Next piece").click()
        with page.expect_download() as download:
            page.get_by_role("button", name="Save the readings").click()
        download.value.save_as(tmp_path / "measured.csv")
    compared = json.loads(run("compare", str(steps), str(tmp_path / "measured.csv"), "--json", exit_code=1))["pieces"]
    assert [{of["id"]: of["in_tolerance"] for of in piece["checks"]} for piece in compared] == verdicts
    assert {True, False} <= set(verdicts[1].values())


DIAMETERS = {"51.6": "48.9", "50,4": "49.7", "50": "50"}


def test_ovality_on_the_page_is_that_of_compare(browser: Browser, tmp_path: Path) -> None:
    """One pair of diameters for a piece; of the first, (51.6 - 48.9) / 50 = 5.40 % of the nominal 50 mm, by hand."""
    profile = str(ROOT / "machine_profiles" / "bay2")
    run("program", f"{ROOT / 'samples' / 'dryer_inlet'}.toml", "--machine", profile, "--out", str(tmp_path))
    steps, sheet = (next(tmp_path.glob(f"*.{name}")) for name in ("steps.json", "sheet.html"))
    said = []
    with opened(browser, sheet.read_text(encoding="utf-8"), tmp_path) as opened_sheet:
        page = opened_sheet.page
        verdict = page.locator("output[for='read-diameter-largest-2 read-diameter-smallest-2']")
        for largest, smallest in DIAMETERS.items():
            page.get_by_label("largest diameter in bend 2").fill(largest)
            assert verdict.inner_text() == ""
            page.get_by_label("smallest diameter in bend 2").fill(smallest)
            said.append(verdict.inner_text())
            page.get_by_role("button", name="Next piece").click()
            assert verdict.inner_text() == ""
        with page.expect_download() as download:
            page.get_by_role("button", name="Save the readings").click()
        download.value.save_as(tmp_path / "measured.csv")
    compared = json.loads(run("compare", str(steps), str(tmp_path / "measured.csv"), "--json"))["pieces"]
    ovalities = [ovality for piece in compared for ovality in piece["ovality"]]
    assert [ovality["bend"] for ovality in ovalities] == [2, 2, 2]
    assert said == [f"oval by {o['of_mean']:.2f} % of mean, {o['of_nominal']:.2f} % of nominal" for o in ovalities]
    assert said[0] == "oval by 5.37 % of mean, 5.40 % of nominal"


def test_diameters_that_cannot_be(browser: Browser, tmp_path: Path) -> None:
    with opened(browser, page_of(sample_program("dryer_inlet")), tmp_path) as opened_sheet:
        page = opened_sheet.page
        verdict = page.locator("output[for='read-diameter-largest-1 read-diameter-smallest-1']")
        page.get_by_label("largest diameter in bend 1").fill("48.9")
        page.get_by_label("smallest diameter in bend 1").fill("51.6")
        assert verdict.inner_text() == "largest is less than smallest"
        page.get_by_label("smallest diameter in bend 1").fill("about 50")
        assert verdict.inner_text() == "NO NUMBER, not saved"


def typed(page: Page, check: dict[str, Any], value: float) -> bool:
    """Type a reading [mm, deg] in the sheet's unit; whether the page calls it within."""
    box = page.get_by_label(f"reading of {check['id']}", exact=True)
    in_inches = page.locator("td.number", has_text=" in").count() > 0
    box.fill(f"{value / 25.4 if in_inches and check['unit'] == 'mm' else value:.6f}")
    return within(page.locator(f"output[for=read-{check['id']}]").inner_text())


def within(verdict: str) -> bool:
    assert verdict == "within" or verdict.startswith("OUT: too ")
    return verdict == "within"


def run(*arguments: str, exit_code: int = 0) -> str:
    result = CliRunner().invoke(app, list(arguments))
    assert result.exit_code == exit_code, result.output
    return result.stdout
