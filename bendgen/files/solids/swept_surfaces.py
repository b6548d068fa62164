"""One B-spline surface along several straights and bends: a piece of tube between every two knots."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bendgen.files.solids.spline_entities import SplineSurface
from bendgen.geometry.tube_axes import TubeSurface, surface_of_grid
from bendgen.geometry.vectors import Array, cross, lengths

ROWS, COLUMNS = 13, 17  # points by which a piece of a surface is known
FITTED = 0.02  # mm; how far a surface made by approximation may lie off the tube it stands for
MOST_SPANS = 200


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TubePart:
    """A surface, or a part of one, that is a straight or a bend.

    away : whether the surface's own normal points away from the axis
    border : (n, 3) array, points round the part; None where it is all of a face, whose edges are round it
    """

    surface: TubeSurface
    away: bool
    border: Array | None = None


def part_of_grid(grid: Array, *, along: int | None = None) -> TubePart | None:
    """Part through an (m, k, 3) grid of points, whose normal is that of rows crossed with columns.

    along : the axis of the grid along which it is a part of something longer, None for all of a surface
    """
    surface = surface_of_grid(grid, FITTED)
    if surface is None:
        return None
    row, column = (count // 2 for count in grid.shape[:2])
    here = grid[row, column]
    normal = cross(grid[row + 1, column] - grid[row - 1, column], grid[row, column + 1] - grid[row, column - 1])
    away = here - surface.axis.nearest(here[None])[0]
    border = None if along is None else _border(grid.swapaxes(0, along))
    return TubePart(surface=surface, away=bool(normal @ away > 0.0), border=border)


def _border(sections: Array) -> Array:
    """First and last section, and a line from one to the other, (n, 3)."""
    return np.vstack((sections[0], sections[-1], sections[:, 0]))


def parts_of_spline(surface: SplineSurface) -> list[TubePart]:
    """Parts of a B-spline surface: one, or one between every two knots of either parameter; none if one is no tube."""
    (first_u, last_u), (first_v, last_v) = surface.ranges()
    whole = part_of_grid(surface.points(np.linspace(first_u, last_u, ROWS), np.linspace(first_v, last_v, COLUMNS)))
    if whole is not None:
        return [whole]
    for along, knots in enumerate(surface.knots):
        parts = _parts_along(surface, along, np.unique(np.clip(knots, *surface.ranges()[along])))
        if parts:
            return parts
    return []


def _parts_along(surface: SplineSurface, along: int, knots: Array) -> list[TubePart]:
    """Parts along one parameter, each over as many spans between knots as are one straight or bend."""
    if not 2 < len(knots) <= MOST_SPANS:
        return []
    around = np.linspace(*surface.ranges()[1 - along], COLUMNS)
    parts: list[TubePart] = []
    first = 0
    while first < len(knots) - 1:
        part, last = None, first
        for end in range(first + 1, len(knots)):
            sections = np.linspace(knots[first], knots[end], COLUMNS)
            grid = surface.points(sections, around) if along == 0 else surface.points(around, sections)
            longer = part_of_grid(grid, along=along)
            if longer is None:
                break
            part, last = longer, end
        if part is None:
            return []
        parts.append(part)
        first = last
    return parts


def reaches_ends(parts: Sequence[TubePart], points: Array) -> bool:
    """Whether a face that has parts is as long as its surface: its edges touch the first and the last section."""
    first, last = parts[0], parts[-1]
    if first.border is None or last.border is None:
        return True
    return _touches(first.border[:COLUMNS], points) and _touches(last.border[COLUMNS : 2 * COLUMNS], points)


def _touches(section: Array, points: Array) -> bool:
    """Whether some points lie on the rim that a section is: nearer to its plane than a face could be cut short by."""
    middle = section.mean(axis=0)
    normal = np.linalg.svd(section - middle)[2][2]
    radius = float(lengths(section - middle).max())
    beside = points[lengths(points - middle) <= 1.2 * radius]
    return bool(len(beside)) and float(np.abs((beside - middle) @ normal).min()) <= FITTED
