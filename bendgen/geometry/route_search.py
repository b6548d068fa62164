"""The shortest route of so many bends, or the one that is nearest to fitting, by a search from many starts at once.

Each start is a chain that keeps the best of its children, drawn around it ever nearer. A route that does not fit is
worse than any that does, and better the less it is short; so one search finds what fits and what almost does.
"""

from dataclasses import dataclass

import numpy as np

from bendgen.geometry.route_space import Measured, RouteSpace, measured_routes
from bendgen.geometry.vectors import Array

SEED = 20260314  # the same search every time
CHAINS = 48
CHILDREN = 40
LEVELS = 56
NEARER = 0.74  # share of a level's spread that the next one has
FITS = 1e-7  # mm that may be missing and are rounding
UNFIT = 1e9  # mm; longer than any route


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Found:
    """The best route: its vertices, (n + 2, 3), and its measures, of one route."""

    path: Array
    measured: Measured


def best_route(space: RouteSpace, bends: int) -> Found:
    """Shortest route of two bends or more that fits, else the one that is least short of fitting."""
    generator = np.random.default_rng(SEED)
    reach = _reach(space)
    best = _starts(space, bends, reach, generator)
    scores = _scores(measured_routes(space, space.paths(best, bends)))
    order = np.argsort(scores)[:CHAINS]
    best, scores = best[order], scores[order]
    spread = 0.5 * reach
    for _ in range(LEVELS):
        children = best[:, None] + spread * generator.normal(size=(CHAINS, CHILDREN, best.shape[1]))
        their_scores = _scores(measured_routes(space, space.paths(children.reshape(-1, best.shape[1]), bends)))
        of_chain = their_scores.reshape(CHAINS, CHILDREN)
        winner = np.argmin(of_chain, axis=1)
        better = of_chain[np.arange(CHAINS), winner] < scores
        best = np.where(better[:, None], children[np.arange(CHAINS), winner], best)
        scores = np.where(better, of_chain[np.arange(CHAINS), winner], scores)
        spread *= NEARER
    return found_route(space, best[int(np.argmin(scores))], bends)


def found_route(space: RouteSpace, unknowns: Array, bends: int) -> Found:
    """Route of (p,) unknowns, as `RouteSpace.paths` takes them, with its measures."""
    path = space.paths(unknowns[None], bends)
    return Found(path=path[0], measured=measured_routes(space, path))


def _reach(space: RouteSpace) -> float:
    """Length within which vertices are looked for: as far as the ports are apart, and room to turn round."""
    apart = space.rear - space.front
    return float(np.sqrt(apart @ apart)) + 6.0 * float(np.median(space.clr)) + sum(space.shortest)


def _starts(space: RouteSpace, bends: int, reach: float, generator: np.random.Generator) -> Array:
    count = CHAINS * CHILDREN
    along = reach * generator.random((count, 2)) ** 2  # short ways out of the ports are likelier
    middle = 0.5 * (space.front + space.rear) + 0.5 * reach * generator.normal(size=(count, bends - 2, 3))
    return np.concatenate((along, middle.reshape(count, -1)), axis=1)


def _scores(measured: Measured) -> Array:
    short = measured.missing.sum(axis=1)
    return np.where(short > FITS, UNFIT * (1.0 + short), measured.length)
