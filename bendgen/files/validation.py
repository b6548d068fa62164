"""From pydantic's errors to mistakes: each with its file and place, what was expected and what was found.

Every table of a file is a `Table`. It gathers the flaws of its own keys, so that the checks of one key run although
another is wrong, and hands them up to the table around it, where their places grow. Places in lists count from 1, as
vertices and bends do: `row[2].angle`.
"""

import difflib
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, Self, TypeVar

from pydantic import (
    BaseModel,
    ConfigDict,
    ModelWrapValidatorHandler,
    PlainValidator,
    ValidationError,
    ValidationInfo,
    WrapValidator,
    model_validator,
)
from pydantic_core import ErrorDetails

from bendgen.errors import InputError, Mistake

Place = tuple[str | int, ...]
Item = TypeVar("Item")
SomeTable = TypeVar("SomeTable", bound="Table")

ABSENT = object()  # stands in for a required key, so that its own type says what it expects

# What pydantic's own types expect; numbers, lengths and texts have types of ours (`field_types`).
EXPECTED = {
    "bool_type": "true or false",
    "date_type": "a date such as 2026-03-14",
    "list_type": "a list",
    "literal_error": "{expected}",
    "too_long": "a list of at most {max_length}",
    "too_short": "a list of at least {min_length}",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Flaw:
    """A mistake before its file is known: place counted from 0 as Python does; found None: the value at the place."""

    expected: str
    found: str | None = None
    place: Place = ()


class UnfitError(ValueError):
    """What a validator raises: one or more flaws, their places relative to the value it was given."""

    def __init__(self, *flaws: Flaw) -> None:
        self.flaws = flaws
        super().__init__("; ".join(flaw.expected for flaw in flaws))


def unfit(expected: str, found: str | None = None) -> UnfitError:
    """One flaw of the value itself."""
    return UnfitError(Flaw(expected=expected, found=found))


class Table(BaseModel):
    """A table of a TOML file, key by key: no unknown key, nothing converted silently."""

    # Built when first used: only whole files are, and their tables within them, which saves start-up time.
    model_config = ConfigDict(extra="forbid", strict=True, allow_inf_nan=False, frozen=True, defer_build=True)

    @model_validator(mode="wrap")
    @classmethod
    def gather_flaws(cls, data: object, handler: ModelWrapValidatorHandler[Self]) -> Self:
        """Validate the table; its flaws come up as one `UnfitError`, unknown keys with the nearest right one."""
        if not isinstance(data, dict):
            raise unfit("a table")
        keys = {field.alias or name: field for name, field in cls.model_fields.items()}
        absent = {key: ABSENT for key, field in keys.items() if field.is_required() and key not in data}
        try:
            return handler(absent | data)
        except ValidationError as error:
            raise UnfitError(*flaws_from_error(error, known=keys)) from None


def validate(
    model: type[SomeTable], data: Mapping[str, object], context: object
) -> tuple[SomeTable | None, list[Flaw]]:
    """Table, or None and every flaw of it; `context` is what the field types need to know."""
    try:
        return model.model_validate(dict(data), context=context), []
    except ValidationError as error:
        return None, list(flaws_from_error(error))


def sound_table(model: type[SomeTable], data: Mapping[str, object], file: str, context: object) -> SomeTable:
    """Table of a file; raises InputError with every mistake."""
    table, flaws = validate(model, data, context)
    if table is None:
        raise InputError(mistakes_from_flaws(flaws, data, file))
    return table


def table_within(load: Callable[[], type[SomeTable]]) -> PlainValidator:
    """Table within another whose model loads only where a file has one: `load` imports it."""

    def validate_table(value: object, info: ValidationInfo) -> SomeTable:
        try:
            return load().model_validate(value, context=info.context)
        except ValidationError as error:
            raise UnfitError(*flaws_from_error(error)) from None

    return PlainValidator(validate_table)


def together(check: Callable[[Mapping[int, Item], int], Iterable[Flaw]]) -> WrapValidator:
    """Check that the items of a list suit one another, too.

    check : takes the sound items by their index from 0, and how many the list has; it runs although some items are
        wrong, and not at all where the list itself is
    """

    def validate_items(value: object, handler: Callable[[object], list[Item]]) -> list[Item]:
        flaws: list[Flaw] = []
        try:
            items = handler(value)
            sound = dict(enumerate(items))
        except ValidationError as error:
            flaws.extend(flaws_from_error(error))
            items, sound = [], _sound_items(value, {flaw.place[0] for flaw in flaws if flaw.place}, handler)
        if isinstance(value, list) and sound:
            flaws.extend(check(sound, len(value)))
        if flaws:
            raise UnfitError(*flaws)
        return items

    return WrapValidator(validate_items)


def _sound_items(value: object, wrong: set[str | int], handler: Callable[[object], list[Item]]) -> dict[int, Item]:
    """Items of a list that are sound by themselves, by index; none if no item is to blame."""
    if not isinstance(value, list) or not wrong:
        return {}
    indexes = [index for index in range(len(value)) if index not in wrong]
    try:
        return dict(zip(indexes, handler([value[index] for index in indexes]), strict=True))
    except ValidationError:  # too few are left
        return {}


def flaws_from_error(error: ValidationError, known: Iterable[str] = ()) -> Iterator[Flaw]:
    """Flaws in an error of pydantic; `known` are the keys of the table it was raised for."""
    for detail in error.errors(include_url=False):
        cause = detail.get("ctx", {}).get("error")
        flaws = cause.flaws if isinstance(cause, UnfitError) else (_own_flaw(detail, known),)
        for flaw in flaws:
            found = _found(detail["input"]) if flaw.found is None else flaw.found
            yield replace(flaw, place=detail["loc"] + flaw.place, found=found)


def _own_flaw(detail: ErrorDetails, known: Iterable[str]) -> Flaw:
    """Flaw that pydantic itself found."""
    if detail["type"] == "extra_forbidden":
        return Flaw(expected=nearest_of(str(detail["loc"][-1]), known, "key"), found="an unknown key")
    expected = EXPECTED.get(detail["type"])
    return Flaw(expected=expected.format(**detail.get("ctx", {})) if expected else detail["msg"])


def nearest_of(word: str, known: Iterable[str], kind: str) -> str:
    """Phrase for what to write instead of `word`: the nearest of the known words, or all of them."""
    words = sorted(known)
    near = difflib.get_close_matches(word[:80], words, n=1)
    if near:
        return f"a known {kind} (the nearest is '{near[0]}')"
    return f"a known {kind} ({', '.join(words)})"


def mistakes_from_flaws(flaws: Iterable[Flaw], data: Mapping[str, object], file: str) -> list[Mistake]:
    """Mistakes of one file in the order in which its keys stand there; absent keys at the end of their table."""
    ranks: dict[int, dict[str, int]] = {}
    in_order = sorted(flaws, key=lambda flaw: _position(flaw.place, data, ranks))
    return [
        Mistake(file=file, place=place_text(flaw.place), expected=flaw.expected, found=flaw.found or "")
        for flaw in in_order
    ]


def _position(place: Place, data: object, ranks: dict[int, dict[str, int]]) -> tuple[int, ...]:
    """Where a place stands in its file, comparable with others; ranks: of the keys of the tables met so far."""
    position = []
    for step in place:
        if isinstance(step, int):
            position.append(step)
            data = data[step] if isinstance(data, list) and step < len(data) else None
        else:
            table = data if isinstance(data, dict) else {}
            if id(data) not in ranks:
                ranks[id(data)] = {key: rank for rank, key in enumerate(table)}
            position.append(ranks[id(data)].get(step, len(table)))
            data = table.get(step)
    return tuple(position)


def place_text(place: Place) -> str:
    """Place as people count: `centreline.vertices[3]`, the first item of a list being 1; odd keys in quotes."""
    steps = (f"[{step + 1}]" if isinstance(step, int) else f".{_key_text(step)}" for step in place)
    return "".join(steps).removeprefix(".")


def _key_text(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z0-9_-]{1,60}", key) else _short(repr(key))


def _found(value: Any) -> str:  # noqa: ANN401 - whatever a file holds
    """Value as a file would show it, short and on one line; empty for nothing."""
    if value is ABSENT:
        return ""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int) and abs(value) >= 2**63:
        return "an integer of more than 64 bits"
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return f"a list of {len(value)}"
    return _short(value.isoformat() if isinstance(value, date) else repr(value))


def _short(text: str) -> str:
    return text if len(text) <= 60 else f"{text[:57]}…"
