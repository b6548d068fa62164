"""Drawings read back from their text, by nothing but an XML parser."""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree import ElementTree as ET

import numpy as np
from htpy import Element
from markupsafe import Markup

from tests.independent_bender import Array

NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
CAPITALS = 0.72  # height of capitals over the size of type


@dataclass(frozen=True, kw_only=True)
class TextBox:
    """Words and the rectangle they cover [paper mm]."""

    words: str
    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: "TextBox") -> bool:
        """Whether some place is covered by both."""
        return min(self.right, other.right) > max(self.left, other.left) and min(self.bottom, other.bottom) > max(
            self.top, other.top
        )


def read_drawing(drawing: Element | Markup) -> ET.Element:
    """The drawing, or a piece of one, as an XML tree."""
    return ET.fromstring(str(drawing))  # noqa: S314 - it is our own


def numbers(text: str | None) -> list[float]:
    """Every number of an attribute."""
    return [float(found) for found in NUMBER.findall(text or "")]


def path_places(path: ET.Element) -> Array:
    """Corners of a path, a (k, 2) array."""
    return np.array(numbers(path.get("d"))).reshape(-1, 2)


def seen_in(view: ET.Element, points: Array) -> Array:
    """Where (k, 3) points lie on paper by what the view says about itself, a (k, 2) array."""
    (scale,), (x, y) = numbers(view.get("data-scale")), numbers(view.get("data-origin"))
    right, up = np.array(numbers(view.get("data-right"))), np.array(numbers(view.get("data-up")))
    return np.stack((x + scale * (points @ right), y - scale * (points @ up)), axis=1)


def text_boxes(tree: ET.Element, advance: float = 0.56, size: float = math.nan) -> Iterator[TextBox]:
    """Boxes of all texts.

    advance : width of a letter over the size of type, that of figures in common sans serifs
    size : of type where neither a text nor the tree names it
    """
    for text in tree.iter("text"):
        size = float(text.get("font-size") or tree.get("font-size") or size)
        words = "".join(text.itertext())
        x, y, wide = float(text.get("x") or "nan"), float(text.get("y") or "nan"), advance * size * len(words)
        if (text.get("transform") or "").startswith("rotate(-90"):
            yield TextBox(words=words, left=x - CAPITALS * size, right=x, top=y - wide, bottom=y)
            continue
        left = {"start": x, "middle": x - 0.5 * wide, "end": x - wide}[text.get("text-anchor") or "start"]
        yield TextBox(words=words, left=left, right=left + wide, top=y - CAPITALS * size, bottom=y)


def overlapping_texts(tree: ET.Element) -> list[tuple[str, str]]:
    """Pairs of texts that cover each other."""
    boxes = list(text_boxes(tree))
    return [(a.words, b.words) for i, a in enumerate(boxes) for b in boxes[:i] if a.overlaps(b)]


def texts_outside(tree: ET.Element) -> list[str]:
    """Texts that are cut off at the drawing's edge."""
    _, _, width, height = numbers(tree.get("viewBox"))
    return [
        box.words
        for box in text_boxes(tree)
        if box.left < 0.0 or box.top < 0.0 or box.right > width or box.bottom > height
    ]


def smallest_capitals(tree: ET.Element) -> float:
    """Height of the smallest capitals [paper mm]."""
    sizes = [float(text.get("font-size") or tree.get("font-size") or "nan") for text in tree.iter("text")]
    return min((CAPITALS * size for size in sizes), default=math.inf)
