"""A page opened in the browser, and whatever it complained of or asked for."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Browser, Page

FILE = "GD-118_B_3.sheet.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A page and what it did: troubles are errors and requests for anything but itself."""

    page: Page
    troubles: list[str] = field(default_factory=list)


@contextmanager
def opened(browser: Browser, html: str, folder: Path, *, scripts: bool = True) -> Iterator[Opened]:
    """Open a page from a file, as a person would; lengths of the window are those of a small screen."""
    file = folder / FILE
    file.write_text(html, encoding="utf-8")
    with browser.new_context(java_script_enabled=scripts, viewport={"width": 1000, "height": 800}) as context:
        page = context.new_page()
        sheet = Opened(page=page)
        page.on("console", lambda message: sheet.troubles.append(message.text))
        page.on("pageerror", lambda error: sheet.troubles.append(str(error)))
        page.on("request", lambda request: sheet.troubles.extend([request.url] * (request.url != file.as_uri())))
        page.goto(file.as_uri())
        yield sheet
