"""What the representations of a file are called, and which stand for one thing."""

from collections.abc import Iterator

from bendgen.files.solids.exchange import Exchange
from bendgen.files.solids.exchange_values import Reference

USES = ("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION",)  # says where a shape is used, and is none


def shape_representations(exchange: Exchange) -> list[Reference]:
    """All representations of shape, in the order of the file."""
    types = [name for name in exchange.shapes() if name.endswith("SHAPE_REPRESENTATION") and name not in USES]
    numbers = (number for name in types for number in exchange.shapes_of(name))
    return sorted(numbers, key=lambda number: exchange.source.index.rows[number])


def same_shapes(exchange: Exchange) -> dict[int, int]:
    """One representation for each, the same for all that plain relationships say are one shape."""
    first = {int(number): int(number) for number in shape_representations(exchange)}
    for number in exchange.shapes_of("SHAPE_REPRESENTATION_RELATIONSHIP"):
        relationship = exchange.arguments(number, "SHAPE_REPRESENTATION_RELATIONSHIP")
        one, other = (_root(first, relationship.reference(index)) for index in (2, 3))
        first[max(one, other)] = min(one, other)
    return {number: _root(first, number) for number in first}


def _root(first: dict[int, int], number: int) -> int:
    """First of the representations that are one, each on the way there put nearer to it."""
    while (nearer := first.get(number, number)) != number:
        first[number] = first.get(nearer, nearer)
        number = nearer
    return number


def representations_of_products(exchange: Exchange) -> Iterator[tuple[int, int]]:
    """Product definitions and the representations of their shape."""
    for number in exchange.shapes_of("SHAPE_DEFINITION_REPRESENTATION"):
        link = exchange.arguments(number, "SHAPE_DEFINITION_REPRESENTATION")
        instance = exchange.instance(link.reference(0))
        if "PRODUCT_DEFINITION_SHAPE" in instance:
            shape = exchange.arguments(link.reference(0), "PRODUCT_DEFINITION_SHAPE")
            yield shape.reference(2), link.reference(1)


def product_name(exchange: Exchange, definition: int) -> str:
    """Name of the product behind a PRODUCT_DEFINITION, empty where the file gives none."""
    if "PRODUCT_DEFINITION" not in exchange.instance(definition):
        return ""
    formation = exchange.arguments(definition, "PRODUCT_DEFINITION").reference(2)
    types = ("PRODUCT_DEFINITION_FORMATION", "PRODUCT_DEFINITION_FORMATION_WITH_SPECIFIED_SOURCE")
    product = exchange.arguments(exchange.arguments(formation, *types).reference(2), "PRODUCT")
    return product.text(1) or product.text(0)
