"""Where the file puts each of its solids: representations placed in one another, down from those nothing contains."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from bendgen.files.solids.exchange import Arguments, Exchange
from bendgen.files.solids.exchange_text import one_line
from bendgen.files.solids.length_units import LengthUnit, length_unit
from bendgen.files.solids.placements import OPERATOR, Frame, frame, target_frame, unmoved
from bendgen.files.solids.products import product_name, representations_of_products, same_shapes, shape_representations

MOST_PLACEMENTS = 5000
DEEPEST = 30
SCALE_DIGITS = 9
SOLID_TYPES = ("MANIFOLD_SOLID_BREP", "BREP_WITH_VOIDS")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlacedSolid:
    """A solid: its number in the file, name, unit, where it stands first, and how often it stands anywhere.

    Where it is mirrored, or scaled, it is another solid of the same number.
    """

    number: int
    name: str
    unit: LengthUnit
    frame: Frame
    instances: int


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Placement:
    """A shape placed in another."""

    shape: int
    frame: Frame


def placed_solids(exchange: Exchange) -> list[PlacedSolid]:
    """Solids of a file, each once, in the order in which the file places them.

    Raises
    ------
    InputError    placements without end, or too many
    """
    model = _ShapeModel(exchange)
    found: dict[tuple[int, bool, float], list[Frame]] = {}
    homes: dict[int, int] = {}
    for shape, place in model.placements():
        # Of representations that are one shape, two may list the same solid.
        here = {solid: home for home in model.representations[shape] for solid in model.solids(home)}
        for solid in here:
            found.setdefault((solid, place.is_mirrored, round(place.scale, SCALE_DIGITS)), []).append(place)
        homes |= here
    return [
        PlacedSolid(
            number=solid,
            name=model.name(solid, homes[solid]) + _change_text(places[0]),
            unit=model.unit(homes[solid]),
            frame=places[0],
            instances=len(places),
        )
        for (solid, _, _), places in found.items()
    ]


def _change_text(place: Frame) -> str:
    """What becomes of a solid where it stands, to follow its name."""
    scaled = round(place.scale, SCALE_DIGITS) != 1.0
    return (", mirrored" if place.is_mirrored else "") + (f", {place.scale:.6g} times its size" if scaled else "")


class _ShapeModel:
    """Shapes of a file, each one representation or several that are one; which contain which, and their names."""

    def __init__(self, exchange: Exchange) -> None:
        self._exchange = exchange
        self._shape_of = same_shapes(exchange)
        self._units: dict[int, LengthUnit] = {}
        self.representations: dict[int, list[int]] = defaultdict(list)
        for number in shape_representations(exchange):
            self.representations[self._shape_of[number]].append(number)
        self._definitions = dict(representations_of_products(exchange))
        self._names = {self._shape(rep): product_name(exchange, item) for item, rep in self._definitions.items()}
        self._inside: dict[int, list[_Placement]] = defaultdict(list)
        for outer, placement in (*self._related(), *self._mapped()):
            self._inside[outer].append(placement)

    def _shape(self, representation: int) -> int:
        return self._shape_of.get(representation, representation)

    def _arguments(self, representation: int) -> Arguments:
        types = [name for name in self._exchange.instance(representation) if name.endswith("REPRESENTATION")]
        return self._exchange.arguments(representation, *(types or ["SHAPE_REPRESENTATION"]))

    def unit(self, representation: int) -> LengthUnit:
        """Unit of lengths in a representation."""
        if representation not in self._units:
            context = self._arguments(representation).reference(2)
            self._units[representation] = length_unit(self._exchange, context)
        return self._units[representation]

    def solids(self, representation: int) -> list[int]:
        """Solids among the items of a representation."""
        items = self._arguments(representation).references(1)
        return [item for item in items if any(name in self._exchange.instance(item) for name in SOLID_TYPES)]

    def name(self, solid: int, representation: int) -> str:
        """Name of a solid: the product's, and its own where the product has several."""
        kind = next(name for name in SOLID_TYPES if name in self._exchange.instance(solid))
        own = one_line(self._exchange.arguments(solid, kind).text(0))
        product = one_line(self._names.get(self._shape(representation), ""))
        if len(self.solids(representation)) > 1 and own:
            return f"{product} / {own}" if product else own
        return product or own

    def placements(self) -> Iterator[tuple[int, Frame]]:
        """Every shape as often as it is placed, with where; those that nothing contains stand where they are."""
        placed = {placement.shape for inside in self._inside.values() for placement in inside}
        waiting = [(shape, unmoved(), 0) for shape in reversed(self.representations) if shape not in placed]
        unreached = set(self.representations)
        count = 0
        while waiting:
            shape, place, depth = waiting.pop()
            count += 1
            if count > MOST_PLACEMENTS or depth > DEEPEST:
                raise self._exchange.mistaken("", f"at most {MOST_PLACEMENTS} placed parts, {DEEPEST} deep", "more")
            unreached.discard(shape)
            yield shape, place
            inside = reversed(self._inside.get(shape, ()))
            waiting.extend((inner.shape, place.of(inner.frame), depth + 1) for inner in inside)
        if unreached:
            raise self._exchange.mistaken("", "assemblies with a top", "parts that contain each other")

    def _related(self) -> Iterator[tuple[int, _Placement]]:
        """Placements by a relationship with a transformation, and what they are in."""
        for number in self._exchange.shapes_of("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION"):
            dependent = self._exchange.arguments(number, "CONTEXT_DEPENDENT_SHAPE_REPRESENTATION")
            relation = dependent.reference(0)
            pair = self._exchange.arguments(relation, "REPRESENTATION_RELATIONSHIP")
            transformation = self._exchange.arguments(relation, "REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION")
            inner, outer = pair.reference(2), pair.reference(3)
            if OPERATOR in self._exchange.instance(transformation.reference(0)):
                yield self._shape(outer), self._placement(inner, None, outer, transformation.reference(0))
                continue
            between = self._exchange.arguments(transformation.reference(0), "ITEM_DEFINED_TRANSFORMATION")
            origin, target = between.reference(2), between.reference(3)
            if self._is_inner(outer, dependent.reference(1)):
                inner, outer, origin, target = outer, inner, target, origin
            yield self._shape(outer), self._placement(inner, origin, outer, target)

    def _is_inner(self, representation: int, shape: int) -> bool:
        """Whether a usage, by way of its PRODUCT_DEFINITION_SHAPE, calls a representation the part that is used."""
        definition = self._exchange.arguments(shape, "PRODUCT_DEFINITION_SHAPE").reference(2)
        if "NEXT_ASSEMBLY_USAGE_OCCURRENCE" not in self._exchange.instance(definition):
            return False
        used = self._exchange.arguments(definition, "NEXT_ASSEMBLY_USAGE_OCCURRENCE").reference(4)
        return used in self._definitions and self._shape(self._definitions[used]) == self._shape(representation)

    def _mapped(self) -> Iterator[tuple[int, _Placement]]:
        """Placements by MAPPED_ITEM, and what they are in."""
        for outer in shape_representations(self._exchange):
            for item in self._arguments(outer).references(1):
                if "MAPPED_ITEM" not in self._exchange.instance(item):
                    continue
                mapped = self._exchange.arguments(item, "MAPPED_ITEM")
                source = self._exchange.arguments(mapped.reference(1), "REPRESENTATION_MAP")
                placement = self._placement(source.reference(1), source.reference(0), outer, mapped.reference(2))
                yield self._shape(outer), placement

    def _placement(self, inner: int, origin: int | None, outer: int, target: int) -> _Placement:
        """Inner representation put so that its frame `origin`, None: its own, falls on the outer one's `target`."""
        own = unmoved() if origin is None else frame(self._exchange, origin, self.unit(inner).mm)
        there = target_frame(self._exchange, target, self.unit(outer).mm)
        if there.scale != 1.0 and self.unit(inner).mm != self.unit(outer).mm:
            raise self._exchange.mistaken(f"#{target}", "a scale of 1 between parts in two units", f"{there.scale:g}")
        return _Placement(shape=self._shape(inner), frame=there.of(own.inverse()))
