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
from math import log, log1p

import numpy as np

from bendgen.bending.explanations import (
    RARE,
    Explanation,
    from_other_end,
    mirrored,
)
from bendgen.bending.story import Chapter, Story, foretold_readings, linearised, misfit_of, missed, story_of, whitened
from bendgen.geometry.vectors import Array
from bendgen.records.cause_kind import CauseKind
from bendgen.records.comparison import Cause
from bendgen.records.foretold import Foretold

MARGIN = 7.0  # a cause must make the part some 30 times as likely, exp(7 / 2)
TOLD_APART = 2.0  # misfits that differ by less say nothing about which of two causes it was
FAR_FETCHED = 12.0  # a cause so much rarer is not worth naming beside the other
MOST_CAUSES = 6
ROUNDS = 3
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
    stories = (as_told, *_made_otherwise(as_told, readings))
    best = min((_completed(story) for story in stories), key=lambda story: story.cost)
    return _causes(best, as_told.misfit), max(as_told.misfit - best.misfit, 0.0) / max(as_told.misfit, UNSEEN)


def _made_otherwise(as_told: Story, readings: Mapping[str, float]) -> Iterator[Story]:
    """The same, mirrored or read from the other end, where that makes a difference."""
    others: tuple[tuple[CauseKind, Foretold], ...] = (
        ("mirror image", mirrored(as_told.foretold)),
        ("other end", from_other_end(as_told.foretold)),
    )
    for kind, foretold in others:
        story = story_of(foretold, readings, taken_singly=as_told.taken_singly)
        if story is not None and abs(story.misfit - as_told.misfit) > SAME:
            cause = Cause(kind=kind, amount=0.0, unit="", share=0.0)
            chapter = Chapter(cause=cause, place=None, price=RARE, took=as_told.misfit - story.misfit)
            yield replace(story, chapters=(chapter,))


def _completed(story: Story) -> Story:
    """The story with every cause that makes it far more likely; each held against all others until none gives way."""
    for _ in range(ROUNDS):
        longer = _lengthened(story)
        story = _reconsidered(longer)
        if story is longer:
            break
    return story


def _lengthened(story: Story) -> Story:
    """One cause after another, the best first, while each makes the story far more likely."""
    while len(story.chapters) < MOST_CAUSES:
        others = sorted((*_with_amount(story), *_with_exchange(story)), key=lambda other: other.cost)
        if not others or others[0].cost > story.cost - MARGIN:
            break
        story = _refitted(_with_rivals(others))
    return story


def _with_rivals(others: list[Story]) -> Story:
    """The likeliest story, its last cause naming the others that fit the readings as well."""
    best = others[0]
    last = best.chapters[-1]
    rivals = {
        _what(rival.cause): replace(rival.cause, amount=_amount(story, rival))
        for story in reversed(others)
        for rival in story.chapters[-1:]
        if story.misfit <= best.misfit + TOLD_APART
        and story.cost <= best.cost + FAR_FETCHED
        and _what(rival.cause) != _what(last.cause)
    }
    named = replace(last, cause=replace(last.cause, rivals=tuple(rivals.values())))
    return replace(best, chapters=(*best.chapters[:-1], named))


def _what(cause: Cause) -> tuple[object, ...]:
    """What a cause concerns; that an angle was lost before or after winding makes no other cause of it."""
    return cause.kind, cause.step, cause.end, cause.checks


def _amount(story: Story, chapter: Chapter) -> float:
    return 0.0 if chapter.place is None else float(story.amounts[chapter.place])


def _with_amount(story: Story) -> Iterator[Story]:
    """One more explanation each, by the amount that suits it best."""
    told = story.told
    free = [i for i in range(len(story.explanations)) if i not in told]
    amounts = np.repeat(story.amounts[None], len(free), axis=0)
    rows = np.arange(len(free))
    strength = np.zeros(len(free))
    for _ in range(ITERATIONS):
        misses, slopes = linearised(story, amounts, free)
        strength = (slopes**2).sum(axis=1)
        amounts[rows, free] += (slopes * misses).sum(axis=1) / np.maximum(strength, UNSEEN)
    misfits = (missed(story, amounts) ** 2).sum(axis=1)
    for row, place in enumerate(free):
        explanation = story.explanations[place]
        chapter = Chapter(
            cause=_cause(explanation),
            place=place,
            price=_price(explanation, float(amounts[row, place]), float(strength[row])),
            took=story.misfit - float(misfits[row]),
        )
        yield replace(story, amounts=amounts[row], misfit=float(misfits[row]), chapters=(*story.chapters, chapter))


def _price(explanation: Explanation, amount: float, strength: float) -> float:
    """What an explanation costs: how rare it is, how unusual its amount, how much it could have said.

    strength : how sharply the readings tell the amount, one over its variance
    """
    usual = explanation.usual
    return explanation.cost + 2.0 * log1p((amount / usual) ** 2) + log1p(strength * usual**2)


def _with_exchange(story: Story) -> Iterator[Story]:
    """Two readings each that may have changed places."""
    if not story.taken_singly:
        return
    values = foretold_readings(story, story.amounts[None])[0]
    pairs = [pair for pair in combinations(range(len(story.places)), 2) if _better_exchanged(story, values, *pair)]
    for a, b in pairs:
        readings = story.readings.copy()
        readings[[a, b]] = readings[[b, a]]
        misfit = float((whitened(story, (readings - values)[None]) ** 2).sum())
        names = tuple(story.foretold.checks[story.places[i]].id for i in (a, b))
        chapter = Chapter(
            cause=Cause(kind="exchanged", amount=0.0, unit="", share=0.0, checks=names),
            place=None,
            price=RARE + 2.0 * log(len(pairs)),
            took=story.misfit - misfit,
        )
        yield replace(story, readings=readings, misfit=misfit, chapters=(*story.chapters, chapter))


def _better_exchanged(story: Story, values: Array, a: int, b: int) -> bool:
    """Whether two readings lie nearer to each other's values than to their own."""
    one, other = float(story.readings[a]), float(story.readings[b])
    kept = abs(one - values[a]) + abs(other - values[b])
    return abs(one - other) > SAME and bool(abs(one - values[b]) + abs(other - values[a]) < kept)


def _refitted(story: Story) -> Story:
    """All amounts told so far, fitted together."""
    told = story.told
    if not told:
        return story
    amounts = story.amounts.copy()
    strength = np.zeros(len(told))
    for _ in range(ITERATIONS):
        misses, slopes = linearised(story, np.repeat(amounts[None], len(told), axis=0), told)
        strength = (slopes**2).sum(axis=1)
        amounts[told] += np.linalg.lstsq(slopes.T, misses[0], rcond=None)[0]
    prices = {
        place: _price(story.explanations[place], float(amounts[place]), float(sharp))
        for place, sharp in zip(told, strength, strict=True)
    }
    chapters = tuple(
        chapter if chapter.place is None else replace(chapter, price=prices[chapter.place])
        for chapter in story.chapters
    )
    refitted = replace(story, amounts=amounts, chapters=chapters)
    return replace(refitted, misfit=misfit_of(refitted))


def _reconsidered(story: Story) -> Story:
    """Each cause held against all others once more, now that the rest is known."""
    for at, chapter in enumerate(story.chapters):
        if chapter.place is not None and len(story.told) > 1:
            best = min(_with_amount(_without(story, at)), key=lambda other: other.cost)
            chapters = (*best.chapters[:at], best.chapters[-1], *best.chapters[at:-1])
            story = min(story, _refitted(replace(best, chapters=chapters)), key=lambda other: other.cost)
    return story


def _without(story: Story, at: int) -> Story:
    """The story without one of its causes."""
    amounts = story.amounts.copy()
    amounts[story.chapters[at].place] = 0.0
    return _refitted(replace(story, amounts=amounts, chapters=(*story.chapters[:at], *story.chapters[at + 1 :])))


def _causes(story: Story, first_misfit: float) -> tuple[Cause, ...]:
    """Causes of a story with their amounts, each with the share that it took off the misfit of those before it."""
    amounts = np.zeros_like(story.amounts)
    before = float((missed(story, amounts[None]) ** 2).sum())
    causes = []
    for chapter in story.chapters:
        took = chapter.took
        if chapter.place is not None:
            amounts[chapter.place] = story.amounts[chapter.place]
            after = float((missed(story, amounts[None]) ** 2).sum())
            before, took = after, before - after
        share = max(took, 0.0) / max(first_misfit, UNSEEN)
        causes.append(replace(chapter.cause, amount=_amount(story, chapter), share=share))
    return tuple(causes)


def _cause(explanation: Explanation) -> Cause:
    return Cause(
        kind=explanation.kind,
        amount=0.0,
        unit=explanation.unit,
        share=0.0,
        step=explanation.step,
        end=explanation.end,
        checks=explanation.checks,
        wound=explanation.wound,
    )
