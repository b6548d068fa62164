"""Ink on paper: lines, arrows and words as SVG elements; every length here is in paper millimetres.

Kinds of line after ISO 128, dimension lines and their terminators after ISO 129, heights of letters after ISO 3098; all
from memory. Everything is black on white. Styles are attributes of the elements, which a page may forbid nowhere.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Literal

import htpy
import numpy as np
from htpy import Element

from bendgen.geometry.vectors import Array

Place = tuple[float, float]
LineKind = Literal["outline", "narrow", "axis", "hidden", "adjacent", "thick"]

WIDE, NARROW = 0.5, 0.25
LETTERS = 3.5  # size of type whose capitals are 2.5 mm high
LARGE = 5.0
FIGURE_WIDTH = 0.6  # of one figure or letter, over the size of type: wider than most typefaces are
HEAD_LENGTH, HEAD_HALF_WIDTH = 2.5, 0.6

_PEN: Mapping[str, str] = {"fill": "none", "stroke": "black", "stroke-linejoin": "round"}
MACHINE = "#e6e6e6"  # machine parts, so that they are told from the tube; their outline says the same
# Dashes and gaps are multiples of the line's width: 12 to 24 for a dash, 3 for a gap, a half for a dot.
LINE_KINDS: Mapping[LineKind, Mapping[str, str]] = {
    "outline": {**_PEN, "stroke-width": f"{WIDE}"},
    "thick": {**_PEN, "stroke-width": f"{2.0 * WIDE}"},
    "narrow": {**_PEN, "stroke-width": f"{NARROW}"},
    "hidden": {**_PEN, "stroke-width": f"{NARROW}", "stroke-dasharray": "3 0.75"},
    "axis": {**_PEN, "stroke-width": f"{NARROW}", "stroke-dasharray": "6 0.75 0.125 0.75"},
    "adjacent": {**_PEN, "stroke-width": f"{NARROW}", "stroke-dasharray": "3 0.75 0.125 0.75 0.125 0.75"},
}


def drawing(width: float, height: float, title: str, children: Iterable[Element]) -> Element:
    """Root of a drawing; its title is what somebody hears who cannot see it."""
    return htpy.svg(
        {
            "viewBox": f"0 0 {number(width)} {number(height)}",
            "width": f"{number(width)}mm",
            "height": f"{number(height)}mm",
            "role": "img",
            "aria-label": title,
            "font-family": "Arial, Liberation Sans, sans-serif",
            "font-size": number(LETTERS),
        }
    )[htpy.title[title], *children]


def group(children: Iterable[Element], **attributes: str) -> Element:
    """Elements that belong together; an underscore in a name of an attribute stands for a hyphen."""
    return htpy.g(**attributes)[tuple(children)]


def number(value: float) -> str:
    """Paper millimetres to a hundredth, no trailing zeros."""
    return f"{value:z.2f}".rstrip("0").rstrip(".")


def polyline(kind: LineKind, points: Iterable[Sequence[float]] | Array, **attributes: str) -> Element:
    """Line through points."""
    return htpy.path({"d": path_data(points), **LINE_KINDS[kind]}, **attributes)


def polygon(kind: LineKind, points: Iterable[Sequence[float]] | Array, fill: str = "none") -> Element:
    """Closed line around points."""
    return htpy.path({"d": f"{path_data(points)}Z", **LINE_KINDS[kind], "fill": fill})


def rectangle(kind: LineKind, low: Place, high: Place, fill: str = "none") -> Element:
    """Rectangle between two corners."""
    return polygon(kind, ((low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1])), fill)


def circle(kind: LineKind, centre: Sequence[float], radius: float, fill: str = "none", **attributes: str) -> Element:
    """Circle."""
    placed = {"cx": number(centre[0]), "cy": number(centre[1]), "r": number(radius)}
    return htpy.circle({**placed, **LINE_KINDS[kind], "fill": fill}, **attributes)


def dot(centre: Sequence[float], radius: float = 0.6, **attributes: str) -> Element:
    """Filled point."""
    return htpy.circle({"cx": number(centre[0]), "cy": number(centre[1]), "r": number(radius)}, **attributes)


def words(
    text: str, at: Sequence[float], *, size: float = LETTERS, anchor: str = "middle", bold: bool = False
) -> Element:
    """Text with its baseline through a place."""
    attributes = {"x": number(at[0]), "y": number(at[1]), "text-anchor": anchor}
    if size != LETTERS:
        attributes["font-size"] = number(size)
    if bold:
        attributes["font-weight"] = "bold"
    return htpy.text(attributes)[text]


def upright_words(text: str, at: Sequence[float]) -> Element:
    """Text that runs upwards from a place, its baseline to the right of it."""
    x, y = number(at[0]), number(at[1])
    return htpy.text(x=x, y=y, transform=f"rotate(-90 {x} {y})")[text]


def words_width(text: str, size: float = LETTERS) -> float:
    """Width of a text, more rather than less."""
    return FIGURE_WIDTH * size * len(text)


def arrow_head(tip: Sequence[float], towards: Sequence[float]) -> Element:
    """Filled terminator with its tip at a place, pointing in a direction."""
    size = math.hypot(towards[0], towards[1])
    x, y = towards[0] / size, towards[1] / size
    back = (tip[0] - HEAD_LENGTH * x, tip[1] - HEAD_LENGTH * y)
    left = (back[0] - HEAD_HALF_WIDTH * y, back[1] + HEAD_HALF_WIDTH * x)
    right = (back[0] + HEAD_HALF_WIDTH * y, back[1] - HEAD_HALF_WIDTH * x)
    return htpy.path(d=f"{path_data((tip, left, right))}Z")


def arrow(kind: LineKind, points: Sequence[Sequence[float]] | Array) -> Element:
    """Line through points with a terminator at its last one."""
    last = np.asarray(points[-2:], dtype=float)
    return group((polyline(kind, points), arrow_head(last[1].tolist(), (last[1] - last[0]).tolist())))


def path_data(points: Iterable[Sequence[float]] | Array) -> str:
    """The points as the data of an SVG path."""
    rows = points.tolist() if isinstance(points, np.ndarray) else points
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in rows)
