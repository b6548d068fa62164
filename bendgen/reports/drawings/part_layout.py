"""Where the three views of a part stand, and how large; paper millimetres but for the part itself."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bendgen.geometry.vectors import Array
from bendgen.reports.drawings.axes import Axis
from bendgen.reports.drawings.drawing_scale import drawing_scale
from bendgen.reports.drawings.labels import Box
from bendgen.reports.drawings.view_directions import Directions
from bendgen.reports.drawings.views import View, fitting_view

HIGHEST = 115.0  # of all views
BESIDE, ABOVE, BELOW = 13.0, 14.0, 10.0  # room around a true view for numbers and dimension lines
TITLE = 64.0  # width of the longest
NUMBER, THIN = 7.0, 15.0  # room for the number of a bend; a view so low has none within
OBLIQUE_ABOVE = 11.0  # room above and below the oblique view
TRUE_SHARE = 0.5  # of the width, where the oblique view stands beside the true ones
OBLIQUE_HEIGHT = 50.0  # where it stands below them
WORTH_IT = 1.4  # so much larger the true views must become for it to stand below

Size = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Panel:
    """A view, its directions, and the paper that belongs to it."""

    directions: Directions
    view: View
    frame: Box


def part_panels(
    axis: Axis, directions: Sequence[Directions], od: float, width: float, *, words_beside: float
) -> list[Panel]:
    """Panels of the front view, the view from above below it, and the oblique view; the last beside them or below."""
    front, above, oblique = directions
    outline = np.concatenate((axis.corners, axis.points - 0.5 * od, axis.points + 0.5 * od, [axis.low, axis.high]))
    sizes = (_size(outline, front), _size(outline, above))
    beside, below = _true_scale(sizes, TRUE_SHARE * width, HIGHEST), _true_scale(sizes, width, HIGHEST - OBLIQUE_HEIGHT)
    is_beside = below < WORTH_IT * beside
    scale = drawing_scale(beside if is_beside else below)
    frames = _true_frames(sizes, scale, width if not is_beside else None, len(axis.bend_middles))
    left, top = (frames[0].right, 0.0) if is_beside else (0.0, frames[1].bottom)
    bottom = max(frames[1].bottom, OBLIQUE_HEIGHT) if is_beside else top + OBLIQUE_HEIGHT
    rest = Box(left=left, top=top, right=width, bottom=bottom)
    views = [_true_view(outline, seen, scale, frame) for seen, frame in zip((front, above), frames, strict=True)]
    views.append(_oblique_view(outline, oblique, rest, words_beside))
    return [
        Panel(directions=seen, view=view, frame=frame)
        for seen, view, frame in zip(directions, views, (*frames, rest), strict=True)
    ]


def _size(outline: Array, seen: Directions) -> Size:
    """How far the part goes to the right and up [mm]."""
    return float(np.ptp(outline @ seen.right)), float(np.ptp(outline @ seen.up))


def _true_scale(sizes: Sequence[Size], width: float, height: float) -> float:
    """Largest scale at which both true views, one above the other, have room."""
    wide, high = max(size[0] for size in sizes), sum(size[1] for size in sizes)
    return min((width - 2.0 * BESIDE) / wide, (height - 2.0 * (ABOVE + BELOW)) / high)


def _true_frames(sizes: Sequence[Size], scale: float, width: float | None, bends: int) -> tuple[Box, Box]:
    """Paper of the two true views; width: of the whole, or no more than they need."""
    right = width or max(TITLE, scale * sizes[0][0] + 2.0 * BESIDE)
    rows = math.ceil(NUMBER * bends / right) - 1  # beyond the one for which there is always room
    front, above = (scale * high + ABOVE + BELOW + NUMBER * rows * (scale * high < THIN) for _, high in sizes)
    return (
        Box(left=0.0, top=0.0, right=right, bottom=front),
        Box(left=0.0, top=front, right=right, bottom=front + above),
    )


def _true_view(outline: Array, seen: Directions, scale: float, frame: Box) -> View:
    """View at a scale, in the middle of the room that its frame leaves beside words and dimensions."""
    across, above = outline @ seen.right, outline @ seen.up
    x = frame.centre[0] - scale * 0.5 * float(across.min() + across.max())
    y = 0.5 * (frame.top + ABOVE + frame.bottom - BELOW) + scale * 0.5 * float(above.min() + above.max())
    return View(right=seen.right, up=seen.up, scale=scale, origin=(x, y))


def _oblique_view(outline: Array, seen: Directions, frame: Box, words_beside: float) -> View:
    """View as large as its frame lets it be, with room for words around it."""
    room = Box(
        left=frame.left + words_beside,
        top=frame.top + OBLIQUE_ABOVE,
        right=frame.right - words_beside,
        bottom=frame.bottom - OBLIQUE_ABOVE,
    )
    return fitting_view((seen.right, seen.up), outline, room)
