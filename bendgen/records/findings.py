"""Findings: facts about a job, all of them at once, each with the changes that would remove it."""

from dataclasses import dataclass
from typing import Literal

Level = Literal["limit", "caution"]
Value = float | str | bool | tuple[float, ...] | tuple[tuple[float, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A key of the part's file and the value to give it, in the unit of that file."""

    key: str
    value: Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Cure:
    """One change that alone removes the finding, tried before it is offered; text: the same for a person."""

    text: str
    change: Change


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One rule, broken (a limit: no steps are written) or to be minded (a caution: printed on the sheet).

    rule : clamp, mandrel, pressure die, grip, carriage, bend, rotation, feed, tube, blank, geometry, floor, shape, …
    step : number of the bend, None for the part as a whole
    value, limit : what was found and what it was held against, in `unit`; None where there is no number
    text : one line for a person
    """

    rule: str
    level: Level
    step: int | None
    value: float | None
    limit: float | None
    unit: Literal["mm", "deg", "%", ""]
    text: str
    cures: tuple[Cure, ...] = ()
