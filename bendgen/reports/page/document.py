"""The page's frame: its own style and scripts inside, and a policy that lets nothing else in."""

import base64
import hashlib
import json
from collections.abc import Iterator, Sequence
from functools import cache
from pathlib import Path

from htpy import Node, body, head, html, meta, script, style, title
from markupsafe import Markup

STYLES = "sheet.css"
SCRIPTS = ("readings.js", "turnable.js")
DATA_ID = "sheet-data"
# In a script element `<` could end it or begin a comment; the line separators end a line in old engines.
UNSAFE_IN_SCRIPT = {ord(sign): f"\\u{ord(sign):04x}" for sign in "<>&\u2028\u2029"}


def page(name: str, content: Node, data: object = None) -> str:
    """A whole document.

    Parameters
    ----------
    name : title of the window
    content : what stands on the page
    data : what the scripts read, ready for JSON; a page without it has no scripts
    """
    styles, scripts = _file_text(STYLES), [] if data is None else [_file_text(file) for file in SCRIPTS]
    document = html(lang="en")[
        head[
            meta(charset="utf-8"),
            meta(http_equiv="Content-Security-Policy", content=_policy(styles, *scripts)),
            meta(name="viewport", content="width=device-width, initial-scale=1"),
            title[name],
            style[Markup(styles)],  # noqa: S704 - the package's own file
        ],
        body[content, _scripts(data, scripts)],
    ]
    return f"{document}\n"


def _scripts(data: object, scripts: Sequence[str]) -> Iterator[Node]:
    if scripts:
        yield script(id=DATA_ID, type="application/json")[Markup(data_text(data))]  # noqa: S704 - escaped there
        yield from (script[Markup(text)] for text in scripts)  # noqa: S704 - the package's own files


def data_text(data: object) -> str:
    """JSON that no text in it can break out of a script element."""
    return json.dumps(data, ensure_ascii=False, separators=(",", ":")).translate(UNSAFE_IN_SCRIPT)


@cache
def _file_text(name: str) -> str:
    return Path(__file__).with_name(name).read_text(encoding="utf-8")


@cache
def _policy(styles: str, *scripts: str) -> str:
    """Content-Security-Policy: nothing is loaded, and only these styles and scripts are followed."""
    allowed = " ".join(map(_digest, scripts)) or "'none'"
    return f"default-src 'none'; style-src {_digest(styles)}; script-src {allowed}; base-uri 'none'; form-action 'none'"


def _digest(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"
