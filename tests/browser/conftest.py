"""A real browser, where this machine has one."""

import os
import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, sync_playwright

REQUIRED = "BROWSER_TESTS"  # set to `required`, a missing browser fails the tests that need it
QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Chromium without a window; it asks nothing of the network by itself."""
    chromium = shutil.which("chromium")
    if chromium is None:
        message = "browser tests need Debian's package chromium"
        pytest.fail(message) if os.environ.get(REQUIRED) == "required" else pytest.skip(message)
    with sync_playwright() as playwright:
        yield playwright.chromium.launch(executable_path=chromium, args=list(QUIET))
