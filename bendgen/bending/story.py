"""How a part was made and read, as far as it is told: readings, what may be wrong, and how badly they fit."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from bendgen.bending.explanations import Explanation, explanations_of, foretold_values
from bendgen.bending.reading_noise import noise_of_readings
from bendgen.geometry.vectors import Array
from bendgen.records.bend_program import is_rotation
from bendgen.records.comparison import Cause
from bendgen.records.foretold import Foretold
from bendgen.units import shorter_way

NUDGE = 1e-3  # [mm, deg]


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """A cause that a story tells.

    place : of its explanation among all, None for a cause without an amount
    price : what it costs the story to tell it; took: what it took off the misfit when it was told
    """

    cause: Cause
    place: int | None
    price: float
    took: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Story:
    """How a part was made and read, as far as it is told.

    foretold : the program, perhaps made otherwise than meant
    explanations : all that may be wrong beyond that; amounts: (e,) array, of each
    readings : (k,) array, exchanged ones put right; places: of those readings among the checks
    rotations : (k,) array, which readings are rotations
    whitening : (k, k) array that makes independent misses of unit size of misses of the readings
    taken_singly : whether each reading was
    chapters : causes told, in the order found
    misfit : sum of squared whitened misses; overhead: what it costs to tell nothing at all
    """

    foretold: Foretold
    explanations: tuple[Explanation, ...]
    amounts: Array
    readings: Array
    places: Array
    rotations: Array
    whitening: Array
    taken_singly: bool
    chapters: tuple[Chapter, ...]
    misfit: float
    overhead: float

    @property
    def cost(self) -> float:
        """Minus twice the logarithm of how likely the story is, but for a constant."""
        return self.misfit + self.overhead + sum(chapter.price for chapter in self.chapters)

    @property
    def told(self) -> list[int]:
        """Places of the explanations told."""
        return [chapter.place for chapter in self.chapters if chapter.place is not None]


def story_of(foretold: Foretold, readings: Mapping[str, float], *, taken_singly: bool) -> Story | None:
    """Nothing wrong but noise; None where no reading is of a check that is known here."""
    noise = noise_of_readings(foretold)
    known = np.isfinite(np.diag(noise))
    places = [i for i, check in enumerate(foretold.checks) if check.id in readings and known[i]]
    if not places:
        return None
    names = [foretold.checks[i].id for i in places]
    factor = np.linalg.cholesky(noise[np.ix_(places, places)])
    explanations = tuple(one for one in explanations_of(foretold) if taken_singly or one.kind != "misread")
    story = Story(
        foretold=foretold,
        explanations=explanations,
        amounts=np.zeros(len(explanations)),
        readings=np.array([readings[name] for name in names]),
        places=np.array(places),
        rotations=np.array([is_rotation(name) for name in names]),
        whitening=np.linalg.inv(factor),
        taken_singly=taken_singly,
        chapters=(),
        misfit=0.0,
        overhead=2.0 * float(np.log(np.diag(factor)).sum()),
    )
    return replace(story, misfit=misfit_of(story))


def foretold_readings(story: Story, amounts: Array) -> Array:
    """What the readings should be for (m, e) amounts, an (m, k) array."""
    return foretold_values(story.foretold, story.explanations, amounts)[:, story.places]


def whitened(story: Story, misses: Array) -> Array:
    """Misses of the readings as independent ones of unit size, (m, k) arrays; a rotation misses the shorter way."""
    return np.where(story.rotations, shorter_way(misses), misses) @ story.whitening.T


def missed(story: Story, amounts: Array) -> Array:
    """Whitened misses of the readings for (m, e) amounts, an (m, k) array."""
    return whitened(story, story.readings - foretold_readings(story, amounts))


def misfit_of(story: Story) -> float:
    """Sum of squared whitened misses of a story with its amounts."""
    return float((missed(story, story.amounts[None]) ** 2).sum())


def linearised(story: Story, amounts: Array, free: list[int]) -> tuple[Array, Array]:
    """Misses for amounts (m, e), and how they shrink with the one of `free` in each row, (m, k) arrays."""
    rows = np.arange(len(free))
    nudged = amounts.copy()
    nudged[rows, free] += NUDGE
    here, there = np.split(missed(story, np.concatenate((amounts, nudged))), 2)
    return here, (here - there) / NUDGE
