"""What explains a miss with the fewest changes.

Every explanation foretells readings of its own. How well they fit is weighed against how much the explanation could
have said beforehand: a cause with a free amount must earn it, and the plainest that fits is named. That is the
evidence of [MacKay1992] with the amount at its likeliest and a prior whose tail is long: what goes farther than usual
is rare, not impossible. Minus twice its logarithm, `cost`, is compared, and a cause is taken only where the part is far
more likely with it than without.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import combinations
from math import log

import numpy as np

from bendgen.bending.explanations import (
    RARE,
    Explanation,
    foretold_values,
    from_other_end,
    mirrored,
)
from bendgen.bending.story import Story, linearised, misfit_of, missed, story_of
from bendgen.records.comparison import Cause
from bendgen.records.foretold import Foretold

MARGIN = 7.0  # a cause must make the part some 30 times as likely, exp(7 / 2)
TOLD_APART = 2.0  # misfits that differ by less say nothing about which of two causes it was
FAR_FETCHED = 12.0  # a cause so much rarer is not worth naming beside the other
MOST_CAUSES = 6
ITERATIONS = 4  # of Gauss and Newton: readings bend only a little over the amounts that matter
UNSEEN = 1e-12  # an amount that moves no reading stays 0
SAME = 1e-6  # readings that differ by less are one [mm, deg]


def explain(
    foretold: Foretold, readings: Mapping[str, float], *, taken_singly: bool = True
) -> tuple[tuple[Cause, ...], float]:
    """Causes of what the readings miss, in the order found, and the share of the miss that they explain.

    Parameters
    ----------
    readings : value by check id [mm, deg]; checks that were not read are left out
    taken_singly : each by itself, so that one may be misread or two exchanged; not where points told them all
    """
    as_told = story_of(foretold, readings, taken_singly=taken_singly)
    if as_told is None:
        return (), 0.0
    best = min(
        (_completed(story) for story in (as_told, *_made_otherwise(as_told, readings))), key=lambda story: story.cost
    )
    return _causes(best, as_told.misfit), _share(as_told.misfit, best.misfit, as_told.misfit)


def _made_otherwise(as_told: Story, readings: Mapping[str, float]) -> Iterator[Story]:
    """The same, mirrored or read from the other end, where that makes a difference."""
    others = (("mirror image", mirrored(as_told.foretold)), ("other end", from_other_end(as_told.foretold)))
    for kind, foretold in others:
        story = story_of(foretold, readings, taken_singly=as_told.taken_singly)
        if story is None or abs(story.misfit - as_told.misfit) <= SAME:
            continue
        cause = Cause(kind="mirror image" if kind == "mirror image" else "other end", amount=0.0, unit="", share=0.0)
        yield replace(story, chapters=((cause, story.misfit, -1),), overhead=story.overhead + RARE)


def _completed(story: Story) -> Story:
    """The story with every cause that makes it far more likely, the best one first."""
    for _ in range(MOST_CAUSES):
        others = sorted((*_with_amount(story), *_with_exchange(story)), key=lambda other: other.cost)
        if not others or others[0].cost > story.cost - MARGIN:
            break
        story = _refitted(_with_rivals(others))
    return story


def _with_rivals(others: list[Story]) -> Story:
    """The likeliest story, its last cause naming the others that fit the readings as well."""
    best = others[0]
    cause, misfit, place = best.chapters[-1]
    rivals = {
        _without_amount(rival): replace(rival, amount=float(story.amounts[at]))
        for story in reversed(others)
        for rival, _, at in story.chapters[-1:]
        if story.misfit <= best.misfit + TOLD_APART
        and story.cost <= best.cost + FAR_FETCHED
        and _without_amount(rival) != _without_amount(cause)
    }
    return replace(best, chapters=(*best.chapters[:-1], (replace(cause, rivals=tuple(rivals.values())), misfit, place)))


def _without_amount(cause: Cause) -> Cause:
    return replace(cause, amount=0.0, share=0.0, rivals=())


def _with_amount(story: Story) -> Iterator[Story]:
    """One more explanation each, by the amount that suits it best."""
    told = {place for _, _, place in story.chapters}
    free = [i for i in range(len(story.explanations)) if i not in told]
    usual = np.array([story.explanations[i].usual for i in free])
    amounts = np.repeat(story.amounts[None], len(free), axis=0)
    rows = np.arange(len(free))
    for _ in range(ITERATIONS):
        misses, slopes = linearised(story, amounts, free)
        strength = (slopes**2).sum(axis=1)
        amounts[rows, free] += (slopes * misses).sum(axis=1) / np.maximum(strength, UNSEEN)
    misfits = (missed(story, amounts) ** 2).sum(axis=1)
    said = 2.0 * np.log1p((amounts[rows, free] / usual) ** 2) + np.log1p(strength * usual**2)
    for row, place in enumerate(free):
        explanation, misfit = story.explanations[place], float(misfits[row])
        chapter = (_cause(explanation, 0.0), misfit, place)
        yield replace(
            story,
            amounts=amounts[row],
            chapters=(*story.chapters, chapter),
            misfit=misfit,
            overhead=story.overhead + explanation.cost + float(said[row]),
        )


def _with_exchange(story: Story) -> Iterator[Story]:
    """Two readings each that may have changed places."""
    if not story.taken_singly:
        return
    values = foretold_values(story.foretold, story.explanations, story.amounts[None])[0, story.places]
    pairs = [
        (a, b)
        for a, b in combinations(range(len(story.places)), 2)
        if abs(story.readings[a] - story.readings[b]) > SAME
        and abs(story.readings[a] - values[b]) + abs(story.readings[b] - values[a])
        < abs(story.readings[a] - values[a]) + abs(story.readings[b] - values[b])
    ]
    for a, b in pairs:
        readings = story.readings.copy()
        readings[[a, b]] = readings[[b, a]]
        names = tuple(story.foretold.checks[story.places[i]].id for i in (a, b))
        other = replace(story, readings=readings, overhead=story.overhead + RARE + 2.0 * log(len(pairs)))
        misfit = misfit_of(other)
        cause = Cause(kind="exchanged", amount=0.0, unit="", share=0.0, checks=names)
        yield replace(other, misfit=misfit, chapters=(*story.chapters, (cause, misfit, -1)))


def _refitted(story: Story) -> Story:
    """All amounts told so far, fitted together."""
    told = [place for _, _, place in story.chapters if place >= 0]
    if len(told) < 2:
        return story
    amounts = story.amounts.copy()
    for _ in range(ITERATIONS):
        misses, slopes = linearised(story, np.repeat(amounts[None], len(told), axis=0), told)
        amounts[told] += np.linalg.lstsq(slopes.T, misses[0], rcond=None)[0]
    return replace(story, amounts=amounts)


def _causes(story: Story, first_misfit: float) -> tuple[Cause, ...]:
    """Causes of a story with their amounts, each with the share that it took off the misfit before it."""
    before, causes = first_misfit, []
    for cause, misfit, place in story.chapters:
        amount = float(story.amounts[place]) if place >= 0 else 0.0
        causes.append(replace(cause, amount=amount, share=_share(before, misfit, first_misfit)))
        before = misfit
    return tuple(causes)


def _share(before: float, after: float, of: float) -> float:
    return max(before - after, 0.0) / of if of > 0.0 else 0.0


def _cause(explanation: Explanation, amount: float) -> Cause:
    return Cause(
        kind=explanation.kind,
        amount=amount,
        unit=explanation.unit,
        share=0.0,
        step=explanation.step,
        end=explanation.end,
        checks=explanation.checks,
    )
