"""Instances of an ISO 10303-21 file by number, and their arguments with the type that is expected of each."""

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NoReturn, cast

import numpy as np

from bendgen.errors import InputError, Mistake
from bendgen.files.solids.exchange_text import ExchangeText, one_line
from bendgen.files.solids.exchange_values import Choice, Instance, Reference, Value, parse_instance
from bendgen.geometry.vectors import Array

Triple = tuple[float, float, float]
LONGEST_INSTANCE = 2_000_000  # characters; a shell of 100,000 faces takes half of that
FARTHEST = 1e9  # in the file's unit; a coordinate beyond it is no part

MOST_SHAPES = 20_000
MOST_KEPT = 500  # instances; whoever asks for one again does so soon, and a large file has no room for all

# As most files write a point, between the semicolons of the one before and its own.
_POINTS = re.compile(r"(?<![^;])CARTESIAN_POINT\('[^';]*',\(([-+0-9.Ee]+,[-+0-9.Ee]+,[-+0-9.Ee]+)\)\);")
_TRIPLE = re.compile(r"(?:CARTESIAN_POINT|DIRECTION)\s*\(\s*(?:'[^']*'|\$)\s*,\s*\(([-+0-9.eE,\s]*)\)", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Arguments:
    """Arguments of one instance under one of its types; whatever they are not as expected raises InputError."""

    exchange: "Exchange"
    number: int
    values: list[Value]

    def fail(self, expected: str, found: str = "") -> NoReturn:
        """Raise the mistake of this instance."""
        raise self.exchange.mistaken(f"#{self.number}", expected, found)

    def value(self, index: int) -> Value:
        """Argument as it stands; index from 0, from the end if negative."""
        try:
            return self.values[index]
        except IndexError:
            self.fail(f"more than {len(self.values)} arguments")

    def real(self, index: int) -> float:
        """Finite number."""
        value = self.value(index)
        if not isinstance(value, int | float) or isinstance(value, Reference) or not abs(value) < FARTHEST:
            self.fail(f"a number as argument {index + 1}", _shown(value))
        return float(value)

    def text(self, index: int) -> str:
        """Text, empty where there is none."""
        value = self.value(index)
        return value if isinstance(value, str) else ""

    def choice(self, index: int) -> str:
        """Name of a value such as .T.; empty where there is none."""
        value = self.value(index)
        return str(value) if isinstance(value, Choice) else ""

    def reference(self, index: int) -> Reference:
        """Reference to another instance."""
        value = self.value(index)
        if not isinstance(value, Reference):
            self.fail(f"a reference as argument {index + 1}", _shown(value))
        return value

    def references(self, index: int) -> list[Reference]:
        """List of references."""
        value = self.value(index)
        if not isinstance(value, list):
            self.fail(f"a list as argument {index + 1}", _shown(value))
        return self._listed(value).references_of_row()

    def reals(self, index: int) -> list[float]:
        """List of finite numbers."""
        value = self.value(index)
        if not isinstance(value, list):
            self.fail(f"a list of numbers as argument {index + 1}", _shown(value))
        return self._listed(value).reals_of_row()

    def reals_of_row(self) -> list[float]:
        """All arguments as finite numbers."""
        if set(map(type, self.values)) == {float}:
            numbers = cast("list[float]", self.values)
            if min(numbers) > -FARTHEST and max(numbers) < FARTHEST:
                return numbers
        return [self.real(index) for index in range(len(self.values))]

    def references_of_row(self) -> list[Reference]:
        """All arguments as references."""
        if set(map(type, self.values)) == {Reference}:
            return cast("list[Reference]", self.values)
        return [self.reference(index) for index in range(len(self.values))]

    def part(self, first: int, end: int | None) -> "Arguments":
        """Some of the arguments as if there were no others."""
        return self._listed(self.values[first:end])

    def _listed(self, values: list[Value]) -> "Arguments":
        return Arguments(exchange=self.exchange, number=self.number, values=values)

    def rows(self, index: int) -> "list[Arguments]":
        """List of lists, each again as arguments."""
        value = self.value(index)
        if not isinstance(value, list):
            self.fail(f"a list of lists as argument {index + 1}", _shown(value))
        return [self._listed(row) for row in value if isinstance(row, list)]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Exchange:
    """A file, its instances parsed when they are asked for."""

    source: ExchangeText
    _parsed: dict[int, Instance] = field(default_factory=dict)
    _shapes: dict[str, list[int]] = field(default_factory=dict)

    def mistaken(self, place: str, expected: str, found: str = "") -> InputError:
        """Error of one mistake in this file."""
        mistake = Mistake(file=self.source.file, place=place, expected=expected, found=one_line(found))
        return InputError([mistake])

    def shapes(self) -> dict[str, list[int]]:
        """Numbers of the simple instances that say how shapes hang together, by type, in the order of the file."""
        if not self._shapes:
            self._shapes.update(self.source.types_with("SHAPE"))
        return self._shapes

    def shapes_of(self, kind: str) -> list[Reference]:
        """Those of one type; raises InputError for more than any assembly has."""
        numbers = self.shapes().get(kind, [])
        if len(numbers) > MOST_SHAPES:
            raise self.mistaken("", f"at most {MOST_SHAPES} {kind}", str(len(numbers)))
        return [Reference(number) for number in numbers]

    def instance(self, number: int) -> Instance:
        """Types of an instance and their arguments."""
        known = self._parsed.get(number)
        if known is not None:
            return known
        body = self.source.body(number)
        if body is None:
            raise self.mistaken("", f"an instance #{number}, as others refer to it")
        if len(body) > LONGEST_INSTANCE:
            raise self.mistaken(f"#{number}", f"at most {LONGEST_INSTANCE // 1_000_000} MB", "a longer instance")
        try:
            instance = parse_instance(body)
        except ValueError as error:
            raise self.mistaken(f"#{number}", "an instance, NAME(…)", str(error)) from None
        if len(self._parsed) == MOST_KEPT:
            self._parsed.clear()
        self._parsed[number] = instance
        return instance

    def arguments(self, number: int, *types: str) -> Arguments:
        """Arguments of an instance, which must be of one of the types."""
        instance = self.instance(number)
        for name in types:
            if name in instance:
                return Arguments(exchange=self, number=number, values=instance[name])
        raise self.mistaken(f"#{number}", f"{_article(types[0])} {types[0]}", ", ".join(instance))

    def triple(self, number: int) -> Triple:
        """Coordinates of a CARTESIAN_POINT or components of a DIRECTION, in the file's unit."""
        found = _TRIPLE.match(self.source.body(number) or "")
        try:
            numbers = [float(part) for part in found[1].split(",")] if found else []
        except ValueError:
            numbers = []
        if len(numbers) != 3 or not all(math.isfinite(n) and abs(n) < FARTHEST for n in numbers):
            raise self.mistaken(f"#{number}", "a point or direction of three numbers", self.source.body(number) or "")
        return numbers[0], numbers[1], numbers[2]

    def triples(self, numbers: Sequence[int]) -> Array:
        """Coordinates of many points, (n, 3); several times quicker than one by one, which finds whatever is wrong."""
        lists = _POINTS.findall(";".join([*self.source.bodies(numbers), ""]))
        try:
            found = np.array(list(map(float, ",".join(lists).split(","))))
        except ValueError:
            found = np.empty(0)
        if len(lists) != len(numbers) or len(found) != 3 * len(lists) or not np.all(np.abs(found) < FARTHEST):
            found = np.array([self.triple(number) for number in numbers])
        return found.reshape(-1, 3)


def _article(name: str) -> str:
    return "an" if name[0] in "AEIO" else "a"


def _shown(value: Value) -> str:
    if value is None:
        return ""
    if isinstance(value, Reference):
        return f"#{value}"
    return "a list" if isinstance(value, list) else repr(value)
