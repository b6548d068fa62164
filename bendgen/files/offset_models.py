"""`[offset]` of a part's file, key by key."""

from collections.abc import Sequence
from typing import Annotated, Any, Literal, Self

from pydantic import AfterValidator, ModelWrapValidatorHandler, ValidationError, model_validator

from bendgen.files.field_types import LengthFromZero, Number, PositiveLength, number
from bendgen.files.validation import Flaw, Table, UnfitError, flaws_from_error
from bendgen.records.offset import EndOffCentre, OffsetWish
from bendgen.units import within_half_turn

LARGEST_ANGLE_DEG = 90.0  # as far as the solver goes: beyond it the straight between runs back


OffsetAngle = Annotated[
    float,
    number(f"a number greater than 0 and at most {LARGEST_ANGLE_DEG:g}", lambda deg: 0.0 < deg <= LARGEST_ANGLE_DEG),
]
AnyClockPosition = Annotated[Number, AfterValidator(within_half_turn)]


class EndTable(Table):
    """`front` or `rear`: an end off the common axis."""

    out: LengthFromZero
    clock: AnyClockPosition

    def record(self) -> EndOffCentre:
        """End, in mm and degrees."""
        return EndOffCentre(out=self.out, clock_deg=self.clock)


class OffsetTable(Table):
    """`[offset]`."""

    rise: LengthFromZero | None = None
    front: EndTable | None = None
    rear: EndTable | None = None
    length: PositiveLength
    shortest_end: LengthFromZero
    angle: OffsetAngle | None = None
    between: LengthFromZero | None = None
    prefer: Literal["short", "gentle"] | None = None

    @model_validator(mode="wrap")
    @classmethod
    def check_choices(cls, data: Any, handler: ModelWrapValidatorHandler[Self]) -> Self:  # noqa: ANN401 - TOML
        """Refuse keys that exclude one another, beside whatever is wrong with each."""
        flaws = list(_choice_flaws(data)) if isinstance(data, dict) else []
        try:
            table = handler(data)
        except ValidationError as error:
            raise UnfitError(*flaws, *flaws_from_error(error)) from None
        if flaws:
            raise UnfitError(*flaws)
        return table

    def record(self) -> OffsetWish:
        """Wish, in mm and degrees."""
        return OffsetWish(
            length=self.length,
            shortest_end=self.shortest_end,
            rise=self.rise,
            front=None if self.front is None else self.front.record(),
            rear=None if self.rear is None else self.rear.record(),
            angle_deg=self.angle,
            between=self.between,
            prefer=self.prefer or "short",
        )


def _choice_flaws(data: dict[str, object]) -> list[Flaw]:
    """What is wrong with the choice of keys: where the ends lie, and which offset of all that fit."""
    flaws = []
    places = [key for key in ("rise", "front", "rear") if key in data]
    if places not in (["rise"], ["front", "rear"]):
        expected = "either 'rise' or both 'front' and 'rear'"
        flaws.append(Flaw(expected=expected, found=_listed(places)))
    choices = [key for key in ("angle", "between", "prefer") if key in data]
    if len(choices) > 1:
        flaws.append(Flaw(expected="at most one of 'angle', 'between' and 'prefer'", found=_listed(choices)))
    return flaws


def _listed(keys: Sequence[str]) -> str:
    return " and ".join(f"'{key}'" for key in keys) or "none"
