"""A page as lines that a person can compare: its words in order, and the pieces of its drawings with their places."""

import re
from html.parser import HTMLParser

NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
SHAPES = {"path", "circle", "ellipse", "text", "g"}
LEFT_OUT = {"style", "script", "title"}
LOOKS = ("class", "fill", "stroke", "stroke-width", "stroke-dasharray", "font-weight", "text-anchor")
PLACES = ("d", "cx", "cy", "r", "rx", "ry", "x", "y", "width", "height", "transform")
PIECE = "    "  # what lines of drawings begin with


def page_digest(html: str) -> str:
    """One line for each text and each piece of a drawing; places in tenths of a paper millimetre."""
    digest = _Digest()
    digest.feed(html)
    return "\n".join(digest.lines) + "\n"


class _Digest(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.lines: list[str] = []
        self._open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._open.append(tag)
        said = dict(attrs)
        if tag == "svg":
            self.lines.append(f"drawing: {said['aria-label']} {_tenths(said['viewbox'])}")
        elif tag in SHAPES:
            looks = [said[name] or "" for name in LOOKS if name in said]
            places = [_tenths(said[name]) for name in PLACES if name in said]
            self.lines.append(PIECE + " ".join([tag, *looks, *places]))
        elif tag in {"input", "button", "output"}:
            self.lines.append(" ".join([tag, said.get("id") or said.get("for") or said.get("value") or ""]))

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop() != tag:
            pass

    def handle_data(self, data: str) -> None:
        words = " ".join(data.split())
        if words and not LEFT_OUT & set(self._open):
            self._say(words)

    def _say(self, words: str) -> None:
        """Words of a drawing go on in the line of their place."""
        if "svg" in self._open:
            self.lines[-1] += f": {words}"
        else:
            self.lines.append(words)


def _tenths(text: str | None) -> str:
    return " ".join(f"{float(found):z.1f}" for found in NUMBER.findall(text or ""))
