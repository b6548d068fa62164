"""Pages as PDF, printed by a browser that is asked for nothing else."""

import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Literal

from bendgen.errors import OutputError

if TYPE_CHECKING:
    from playwright.sync_api import Browser

Paper = Literal["A4", "Letter"]
PrintPage = Callable[[str, Paper], bytes]

BROWSER = "chromium"
NO_BROWSER = f"--pdf needs Debian's package {BROWSER}, which is not installed"
NO_DRIVER = "--pdf needs the extra pdf: pip install 'bendgen[pdf]'"
# Nothing is fetched, nothing kept. The sandbox would refuse the root user, and the page may load nothing anyway.
ARGUMENTS = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update")


@contextmanager
def page_printer() -> Iterator[PrintPage]:
    """Function from HTML and a size of paper to a PDF; raises OutputError where there is nothing to print with."""
    try:
        from playwright.sync_api import Error, sync_playwright
    except ImportError as error:
        raise OutputError(NO_DRIVER) from error
    browser_file = shutil.which(BROWSER)
    if browser_file is None:
        raise OutputError(NO_BROWSER)
    try:
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=browser_file, args=list(ARGUMENTS))
            yield lambda html, paper: _printed(browser, html, paper)
    except Error as error:
        raise OutputError(f"{BROWSER} could not print: {error.message}") from error


def _printed(browser: "Browser", html: str, paper: Paper) -> bytes:
    with browser.new_context(java_script_enabled=False, offline=True) as context:
        page = context.new_page()
        page.set_content(html)
        return page.pdf(format=paper)
