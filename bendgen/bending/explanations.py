"""What may have gone wrong with a part, one explanation at a time, before anything is measured."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import log
from typing import Literal

import numpy as np

from bendgen.bending.blank import NO_TRIM, STAYS_ON
from bendgen.bending.check_values import check_values, finished_tubes
from bendgen.bending.misses import KINDS, missed_tubes, misses_of_array
from bendgen.geometry.vectors import Array
from bendgen.records.bent_tube import BentTube, Shape
from bendgen.records.cause_kind import CauseKind
from bendgen.records.foretold import Foretold
from bendgen.units import RADIANS_PER_DEGREE

# How far each usually goes, one standard deviation; common practice, no source.
USUAL_SPRINGBACK_DEG = 1.5
USUAL_STRETCH = 0.02  # of the length of all arcs
LEAST_USUAL_STRETCH = 1.0  # mm
USUAL_BEND_DEG = 3.0
USUAL_ROTATION_DEG = 6.0
USUAL_LENGTH = 6.0  # mm
USUAL_MISREAD_DEG, USUAL_MISREAD = 30.0, 60.0

# Minus twice the logarithm of how often each happens, against the commonest.
COMMON, RARE = 2.0, 5.0
LESS_OFTEN = 1.0
ANGLES, ROTATIONS, FEEDS, ARCS, USED = range(len(KINDS))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Explanation:
    """One thing that may be wrong by an unknown amount; each array is for one unit of it.

    unit : of the amount, mm or deg
    misses : (5, n) array, kinds in the order of `KINDS` [rad, mm]; ends: (2,) array, front and rear straight [mm]
    reads : (c,) array, the readings alone [mm, deg]
    wound : whether an angle that misses was wound on the die and lost on release, or never wound
    usual : how far it usually goes; cost: minus twice the logarithm of how often it happens
    """

    kind: CauseKind
    unit: Literal["mm", "deg"]
    misses: Array
    ends: Array
    reads: Array
    usual: float
    cost: float
    wound: bool = True
    step: int | None = None
    end: Literal["front", "rear"] | None = None
    checks: tuple[str, ...] = ()


def explanations_of(foretold: Foretold) -> tuple[Explanation, ...]:
    """Everything that one amount can explain about parts of this program."""
    return (
        *_of_all_bends(foretold),
        *_of_one_bend(foretold),
        *_of_one_end(foretold),
        *_of_one_reading(foretold),
    )


def foretold_values(foretold: Foretold, explanations: tuple[Explanation, ...], amounts: Array) -> Array:
    """Readings if all those explanations hold at once, an (m, c) array, for (m, e) amounts [mm, deg]."""
    if not explanations:
        return np.repeat(check_values(foretold, finished_tubes(foretold)), len(amounts), axis=0)
    # Readings that are wrong by themselves change no tube: what differs in nothing else is bent once.
    bends = [i for i, one in enumerate(explanations) if one.kind != "misread"]
    unlike, which = np.unique(amounts[:, bends], axis=0, return_inverse=True)
    misses = np.einsum("me,ejn->mjn", unlike, np.stack([explanations[i].misses for i in bends]))
    ends = unlike @ np.stack([explanations[i].ends for i in bends])
    tubes = missed_tubes(foretold, misses_of_array(misses))
    tubes.straights[:, 0] += ends[:, 0]
    tubes.straights[:, -1] += ends[:, 1]
    values: Array = check_values(foretold, tubes)[which.ravel()]
    return values + amounts @ np.stack([one.reads for one in explanations])


def _nothing(foretold: Foretold, kind: CauseKind, unit: Literal["mm", "deg"], usual: float, cost: float) -> Explanation:
    """Explanation that does not change anything yet; its maker fills in what one unit of it does."""
    return Explanation(
        kind=kind,
        unit=unit,
        misses=np.zeros((len(KINDS), len(foretold.steps))),
        ends=np.zeros(2),
        reads=np.zeros(len(foretold.checks)),
        usual=usual,
        cost=cost,
    )


def _of_all_bends(foretold: Foretold) -> Iterator[Explanation]:
    """The same springback, or the same lost motion of the arm, at every bend; elongation in proportion to the arcs."""
    arcs = np.array([bend.clr * bend.angle_deg * RADIANS_PER_DEGREE for bend in foretold.finished.bends])
    if not len(arcs):
        return
    released = _nothing(foretold, "springback", "deg", USUAL_SPRINGBACK_DEG, COMMON)
    released.misses[ANGLES] = -RADIANS_PER_DEGREE
    yield released
    yield _not_wound(foretold, replace(released, cost=COMMON + LESS_OFTEN))
    longer = _nothing(foretold, "elongation", "mm", max(USUAL_STRETCH * float(arcs.sum()), LEAST_USUAL_STRETCH), COMMON)
    longer.misses[USED] = -arcs / arcs.sum()
    yield longer


def _of_one_bend(foretold: Foretold) -> Iterator[Explanation]:
    """A single angle, rotation or feed."""
    count = len(foretold.steps)
    cost = RARE + 2.0 * log(max(count, 1))
    for i in range(count):
        released = replace(_nothing(foretold, "bend", "deg", USUAL_BEND_DEG, cost), step=i + 1)
        released.misses[ANGLES, i] = -RADIANS_PER_DEGREE
        fed = replace(_nothing(foretold, "feed", "mm", USUAL_LENGTH, cost), step=i + 1)
        fed.misses[FEEDS, i] = 1.0
        turned = replace(_nothing(foretold, "rotation", "deg", USUAL_ROTATION_DEG, cost), step=i + 1)
        turned.misses[ROTATIONS, i] = RADIANS_PER_DEGREE
        yield from (released, _not_wound(foretold, released), fed)
        if i > 0:
            yield turned


def _not_wound(foretold: Foretold, released: Explanation) -> Explanation:
    """The same angles, but never wound on the die instead of lost on release: the arcs are shorter, too."""
    misses = released.misses.copy()
    misses[ARCS] = misses[USED] = misses[ANGLES] * [bend.clr for bend in foretold.finished.bends]
    return replace(released, misses=misses, wound=False)


def _of_one_end(foretold: Foretold) -> Iterator[Explanation]:
    """An end cut in the wrong place."""
    ends: tuple[tuple[Literal["front", "rear"], bool], ...] = (
        ("front", foretold.blank.front_trim > NO_TRIM),
        ("rear", foretold.blank.rear_trim > STAYS_ON),
    )
    for place, (end, is_cut) in enumerate(ends):
        if is_cut:
            cut = replace(_nothing(foretold, "end", "mm", USUAL_LENGTH, RARE), end=end)
            cut.ends[place] = 1.0
            yield cut


def _of_one_reading(foretold: Foretold) -> Iterator[Explanation]:
    """A reading that can't be: taken or written wrong."""
    cost = RARE + 2.0 * log(max(len(foretold.checks), 1))
    for place, check in enumerate(foretold.checks):
        usual = USUAL_MISREAD if check.unit == "mm" else USUAL_MISREAD_DEG
        misread = replace(_nothing(foretold, "misread", check.unit, usual, cost), checks=(check.id,))
        misread.reads[place] = 1.0
        yield misread


def mirrored(foretold: Foretold) -> Foretold:
    """The same program on a machine whose rotation counts the other way."""
    return replace(foretold, finished=_turned_over(foretold.finished))


def _turned_over(tube: BentTube) -> BentTube:
    bends = (
        replace(b, rotation_deg=b.rotation_deg if b.rotation_deg == 180.0 else -b.rotation_deg) for b in tube.bends
    )
    return replace(tube, bends=tuple(bends))


def from_other_end(foretold: Foretold) -> Foretold:
    """The same part read as if its rear were its front."""
    return replace(
        foretold,
        finished=_reversed_tube(foretold.finished),
        steps=foretold.steps[::-1],
        wanted=_reversed_shape(foretold.wanted),
    )


def _reversed_tube(tube: BentTube) -> BentTube:
    """A rotation stands between two bends, so each moves on by one."""
    backwards = tube.bends[::-1]
    turns = [tube.bends[0].rotation_deg, *(bend.rotation_deg for bend in backwards[:-1])] if backwards else []
    bends = (replace(bend, rotation_deg=turn) for bend, turn in zip(backwards, turns, strict=True))
    return BentTube(straights=tube.straights[::-1], bends=tuple(bends))


def _reversed_shape(shape: Shape) -> Shape:
    return Shape(points=shape.points[::-1], vertices=None if shape.vertices is None else shape.vertices[::-1])
