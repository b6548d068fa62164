"""`bendgen program --pdf` on a machine that lacks what it needs."""

import shutil
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner

from bendgen.cli.app import app
from bendgen.cli.page_printer import NO_BROWSER, NO_DRIVER

ROOT = Path(__file__).parents[2]


def check_refused(folder: Path, message: str) -> None:
    """Status 2, one line that names what is missing, and nothing written."""
    arguments = ["program", str(ROOT / "samples" / "dryer_inlet.toml"), "--pdf"]
    machine = str(ROOT / "machine_profiles" / "bay2")
    result = CliRunner().invoke(app, [*arguments, "--machine", machine, "--out", str(folder / "out")])
    assert (result.exit_code, result.stderr) == (2, f"{message}\n")
    assert list(folder.iterdir()) == []


def test_without_the_extra(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setitem(sys.modules, "playwright.sync_api", None)
    check_refused(tmp_path, NO_DRIVER)


def test_without_a_browser(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(shutil, "which", lambda _: None)
    check_refused(tmp_path, NO_BROWSER)
