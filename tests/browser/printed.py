"""The page as it comes out of a printer: words and where they stand on each sheet of paper."""

from dataclasses import dataclass

import numpy as np
import pypdfium2
from playwright.sync_api import Page

from bendgen.geometry.vectors import Array

POINTS_PER_MM = 72.0 / 25.4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Paper:
    """One sheet of paper.

    size : width and height [mm]
    text : all words
    boxes : (k, 4) array, left, bottom, right and top of each word from the lower left corner [mm]
    """

    size: tuple[float, float]
    text: str
    boxes: Array


def printed(page: Page, size: str) -> list[Paper]:
    """Papers of the size named, "A4" or "Letter"."""
    with pypdfium2.PdfDocument(page.pdf(format=size)) as document:
        return [_paper(document[number]) for number in range(len(document))]


def _paper(page: pypdfium2.PdfPage) -> Paper:
    text = page.get_textpage()
    boxes = np.array([text.get_rect(index) for index in range(text.count_rects())]).reshape(-1, 4)
    width, height = page.get_size()
    return Paper(
        size=(width / POINTS_PER_MM, height / POINTS_PER_MM),
        text=" ".join(text.get_text_range().split()),
        boxes=boxes / POINTS_PER_MM,
    )


def overlaps(paper: Paper, slack: float = 0.3) -> int:
    """Pairs of words that stand on each other by more than `slack` in both directions [mm]."""
    left, bottom, right, top = paper.boxes.T
    beside = left[:, None] + slack < right
    below = bottom[:, None] + slack < top
    return int(np.triu(beside & beside.T & below & below.T, k=1).sum())


def farthest_out(paper: Paper) -> float:
    """How near a word comes to the paper's edge [mm]."""
    low, high = paper.boxes[:, :2], paper.boxes[:, 2:]
    return float(min(low.min(), (np.array(paper.size) - high).min()))
