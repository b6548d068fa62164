"""Dimension lines after ISO 129, from memory: figures above the line, arrows at its ends, extension lines beyond it."""

from collections.abc import Iterator, Sequence

from bendgen.reports.drawings.paper import (
    HEAD_LENGTH,
    MIDDLE_TO_BASELINE,
    Ink,
    Place,
    arrow_head,
    circle,
    polyline,
    upright_words,
    words,
    words_width,
)

BEYOND = 1.5  # an extension line goes past the dimension line [paper mm]
ABOVE = 0.8  # figures stand that far off the line


def level_dimension(text: str, left: Place, right: Place, y: float) -> Iterator[Ink]:
    """Horizontal distance of two places, with its dimension line at height y."""
    for x, from_y in (left, right):
        yield polyline("narrow", ((x, from_y), (x, y + (BEYOND if y > from_y else -BEYOND))))
    yield from _line((left[0], y), (right[0], y))
    yield words(text, (0.5 * (left[0] + right[0]), y - ABOVE))


def upright_dimension(text: str, top: Place, bottom: Place, x: float) -> Iterator[Ink]:
    """Vertical distance of two places, with its dimension line at x, read from the right.

    Figures that have no room between the extension lines stand beyond them.
    """
    for from_x, y in (top, bottom):
        yield polyline("narrow", ((from_x, y), (x + (BEYOND if x > from_x else -BEYOND), y)))
    yield from _line((x, top[1]), (x, bottom[1]))
    between = words_width(text) < abs(bottom[1] - top[1])
    off = ABOVE if between else BEYOND + ABOVE
    yield upright_words(text, (x - off, 0.5 * (top[1] + bottom[1] + words_width(text))))


def _line(a: Place, b: Place) -> Iterator[Ink]:
    """Line with an arrow at either end; arrows that have no room between stand outside and point in."""
    along = (b[0] - a[0], b[1] - a[1])
    size = abs(along[0]) + abs(along[1])  # one of them is 0
    x, y = (along[0] / size, along[1] / size) if size else (1.0, 0.0)
    inside = size > 2.5 * HEAD_LENGTH
    out = 0.0 if inside else 2.0 * HEAD_LENGTH
    yield polyline("narrow", ((a[0] - out * x, a[1] - out * y), (b[0] + out * x, b[1] + out * y)))
    sense = 1.0 if inside else -1.0
    yield arrow_head(a, (-sense * x, -sense * y))
    yield arrow_head(b, (sense * x, sense * y))


def running_dimension(marks: Sequence[tuple[float, str]], y: float, fan: tuple[float, float]) -> Iterator[Ink]:
    """Running dimension from the first mark to all others; figures stand upright above, side by side.

    Parameters
    ----------
    marks : place along the paper and figures of each, in order; the first is the origin
    y : of what is dimensioned, from where lines go up
    fan : height over which lines spread to their figures, and the least distance of two figures
    """
    height, pitch = fan
    line = y - 2.0
    places = [x for x, _ in marks]
    yield polyline("narrow", ((places[0], line), (places[-1], line)))
    yield circle("narrow", (places[0], line), 0.8, "white")
    for (x, text), label in zip(marks, spread(places, pitch), strict=True):
        yield polyline("narrow", ((x, y), (x, line - 1.0), (label, line - height), (label, line - height - 1.0)))
        yield upright_words(text, (label + MIDDLE_TO_BASELINE, line - height - 1.5))
        if x > places[0]:
            yield arrow_head((x, line), (1.0, 0.0))


def spread(places: Sequence[float], pitch: float) -> list[float]:
    """Places in order moved apart to at least a pitch, within the first and last where that leaves room for all."""
    moved = list(places)
    for i in range(1, len(moved)):
        moved[i] = max(moved[i], moved[i - 1] + pitch)
    moved[-1] = min(moved[-1], max(places[-1], places[0] + pitch * (len(moved) - 1)))
    for i in range(len(moved) - 2, -1, -1):
        moved[i] = min(moved[i], moved[i + 1] - pitch)
    return moved
