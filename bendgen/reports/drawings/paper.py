"""Ink on paper: lines, arrows and words as SVG; every length here is in paper millimetres.

Kinds of line after ISO 128, arrows after ISO 129, heights of letters after ISO 3098; all from memory. Everything is
black on white. Styles are attributes of the elements, so that a page may forbid styles within its elements.

Pieces are text from the start and only the whole is an htpy element: a drawing has hundreds of pieces, and six step
pictures took 15 ms less this way. What others may have written passes through `words` alone, which escapes it.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Literal

import htpy
import numpy as np
from htpy import Element
from markupsafe import Markup, escape

from bendgen.geometry.vectors import Array
from bendgen.reports.text_table import display_width

Ink = Markup  # a piece of a drawing
Place = tuple[float, float]
LineKind = Literal["outline", "narrow", "axis", "hidden", "adjacent", "alternative", "thick"]

WIDE, NARROW = 0.5, 0.25
LETTERS = 3.5  # size of type whose capitals are 2.5 mm high
MIDDLE_TO_BASELINE, TOP_TO_BASELINE = 0.36 * LETTERS, 0.86 * LETTERS  # of a line of words, downwards
LINE_PITCH = 1.2 * LETTERS  # from one line of words to the next
FIGURE_WIDTH = 0.6  # of one figure or letter, over the size of type: wider than most typefaces are
HEAD_LENGTH, HEAD_HALF_WIDTH = 2.5, 0.6

MACHINE = "#e6e6e6"  # machine parts, so that they are told from the tube; their outline says the same
# Dashes and gaps are multiples of the line's width: 12 to 24 for a dash, 3 for a gap, a half for a dot.
LINE_KINDS: Mapping[LineKind, str] = {
    "outline": f'stroke-width="{WIDE}"',
    "thick": f'stroke-width="{2.0 * WIDE}"',
    "narrow": f'stroke-width="{NARROW}"',
    "hidden": f'stroke-width="{NARROW}" stroke-dasharray="3 0.75"',
    "axis": f'stroke-width="{NARROW}" stroke-dasharray="6 0.75 0.125 0.75"',
    "alternative": f'stroke-width="{WIDE}" stroke-dasharray="6 1.5 0.25 1.5 0.25 1.5"',
    "adjacent": f'stroke-width="{NARROW}" stroke-dasharray="3 0.75 0.125 0.75 0.125 0.75"',
}


def drawing(width: float, height: float, title: str, pieces: Iterable[Ink]) -> Element:
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
            "stroke-linejoin": "round",
        }
    )[htpy.title[title], Markup("").join(pieces)]


def group(pieces: Iterable[Ink], **attributes: str) -> Ink:
    """Pieces that belong together."""
    return _element("g", "", attributes, Markup("").join(pieces))


def number(value: float) -> str:
    """Paper millimetres to a hundredth, no trailing zeros."""
    return f"{value:z.2f}".rstrip("0").rstrip(".")


def polyline(kind: LineKind, points: Iterable[Sequence[float]] | Array, **attributes: str) -> Ink:
    """Line through points."""
    return _element("path", f' d="{path_data(points)}" fill="none" stroke="black" {LINE_KINDS[kind]}', attributes)


def shape(kind: LineKind, path: str, fill: str = "none") -> Ink:
    """Closed line, given as the data of an SVG path."""
    return _element("path", f' d="{path}Z" fill="{fill}" stroke="black" {LINE_KINDS[kind]}', {})


def surface(path: str, fill: str) -> Ink:
    """Filled surface without a line around it, given as the data of an SVG path."""
    return _element("path", f' d="{path}Z" fill="{fill}"', {})


def rectangle(kind: LineKind, low: Place, high: Place, fill: str = "none") -> Ink:
    """Rectangle between two corners."""
    return shape(kind, path_data((low, (high[0], low[1]), high, (low[0], high[1]))), fill)


def circle(kind: LineKind, centre: Sequence[float], radius: float, fill: str = "none") -> Ink:
    """Circle."""
    return _element("circle", f'{_round(centre, radius)} fill="{fill}" stroke="black" {LINE_KINDS[kind]}', {})


def ellipse(kind: LineKind, centre: Sequence[float], radii: Place, turned: float, fill: str = "white") -> Ink:
    """Ellipse; turned: clockwise [deg]."""
    x, y = number(centre[0]), number(centre[1])
    placed = f' rx="{number(radii[0])}" ry="{number(radii[1])}" transform="translate({x} {y}) rotate({number(turned)})"'
    return _element("ellipse", f'{placed} fill="{fill}" stroke="black" {LINE_KINDS[kind]}', {})


def broad_line(points: Array, width: float, colour: str) -> Ink:
    """Line so broad that it is a surface."""
    line = f' d="{path_data(points)}" fill="none" stroke="{colour}" stroke-width="{number(width)}"'
    return _element("path", line, {})


def dot(centre: Sequence[float], radius: float = 0.6, **attributes: str) -> Ink:
    """Filled point."""
    return _element("circle", _round(centre, radius), attributes)


def words(text: str, at: Sequence[float], *, anchor: str = "middle", bold: bool = False) -> Ink:
    """Text with its baseline through a place."""
    weight = ' font-weight="bold"' if bold else ""
    placed = f' x="{number(at[0])}" y="{number(at[1])}" text-anchor="{anchor}"{weight}'
    return _element("text", placed, {}, escape(text))


def upright_words(text: str, at: Sequence[float]) -> Ink:
    """Text that runs upwards from a place, its baseline to the right of it."""
    x, y = number(at[0]), number(at[1])
    return _element("text", f' x="{x}" y="{y}" transform="rotate(-90 {x} {y})"', {}, escape(text))


def words_width(text: str) -> float:
    """Width of a text, more rather than less."""
    return FIGURE_WIDTH * LETTERS * display_width(text)


def shortened(text: str, width: float) -> str:
    """As much of a text as has room."""
    if words_width(text) <= width:
        return text
    kept = len(text)
    while kept and words_width(f"{text[:kept]}…") > width:
        kept -= 1
    return f"{text[:kept]}…"


def arrow_head(tip: Sequence[float], towards: Sequence[float]) -> Ink:
    """Filled arrow head with its tip at a place, pointing in a direction."""
    size = math.hypot(towards[0], towards[1])
    x, y = towards[0] / size, towards[1] / size
    back = (tip[0] - HEAD_LENGTH * x, tip[1] - HEAD_LENGTH * y)
    left = (back[0] - HEAD_HALF_WIDTH * y, back[1] + HEAD_HALF_WIDTH * x)
    right = (back[0] + HEAD_HALF_WIDTH * y, back[1] - HEAD_HALF_WIDTH * x)
    return _element("path", f' d="{path_data((tip, left, right))}Z"', {})


def arrow(kind: LineKind, points: Sequence[Sequence[float]] | Array) -> Ink:
    """Line through points with an arrow head at its last one."""
    last = np.asarray(points[-2:], dtype=float)
    return group((polyline(kind, points), arrow_head(last[1].tolist(), (last[1] - last[0]).tolist())))


def path_data(points: Iterable[Sequence[float]] | Array) -> str:
    """The points as the data of an SVG path."""
    rows = points.tolist() if isinstance(points, np.ndarray) else points
    return "M" + "L".join([f"{x:.2f} {y:.2f}" for x, y in rows])


def _round(centre: Sequence[float], radius: float) -> str:
    return f' cx="{number(centre[0])}" cy="{number(centre[1])}" r="{number(radius)}"'


def _element(tag: str, fixed: str, attributes: Mapping[str, str], content: str = "") -> Ink:
    """Element with attributes as text and attributes by name, in which an underscore stands for a hyphen."""
    named = "".join(f' {name.rstrip("_").replace("_", "-")}="{escape(text)}"' for name, text in attributes.items())
    return Markup(f"<{tag}{fixed}{named}>{content}</{tag}>")  # noqa: S704 - built of numbers and escaped text
