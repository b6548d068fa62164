"""Lines and curves of a DXF drawing as whoever opens it sees them: blocks taken apart, what is hidden set apart.

Names of layers are the same in capital and small letters, and contents of a block that lie on layer 0 lie on the layer
of the block: both as the DXF reference has it.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from bendgen.errors import mistaken

CURVES = frozenset({"LINE", "ARC", "CIRCLE", "SPLINE", "ELLIPSE", "LWPOLYLINE", "POLYLINE"})
LAYER_OF_THE_BLOCK = "0"
ON_HIDDEN_LAYER = "on layers that are frozen or off"
HIDDEN_ALONE = "that are hidden one by one"
DEEPEST_BLOCK = 16  # blocks within blocks; one that holds itself has no end
MOST_IN_BLOCKS = 20_000  # entities; blocks in rows and within one another may stand for any number

Entity = Any  # of a library without types of its own that this file could name


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """An entity where it is drawn.

    block : the outermost block that holds it, by name; empty where none does
    hidden : why it is not seen; empty where it is
    """

    entity: Entity
    layer: str
    block: str = ""
    hidden: str = ""

    @property
    def is_curve(self) -> bool:
        """Whether it is a line or a curve; a mesh is kept as a polyline but is none."""
        return self.entity.dxftype() in CURVES and not _is_mesh(self.entity)


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where entities stand: in which block, on which layer, how deep within others; and why they are not seen.

    frozen : names of frozen layers, in small letters; they hide whole blocks
    file : for messages
    """

    frozen: frozenset[str]
    file: str
    block: str = ""
    block_layer: str = ""
    hidden: str = ""
    depth: int = 0


def seen_entities(drawing: Any, file: str) -> list[Seen]:  # noqa: ANN401 - as `Entity`
    """Entities of the drawing's model space; raises InputError where blocks hold more than any drawing of a tube."""
    frozen = {layer.dxf.name.casefold() for layer in drawing.layers if layer.is_frozen()}
    not_shown = frozen | {layer.dxf.name.casefold() for layer in drawing.layers if layer.is_off()}
    seen, in_blocks = [], 0
    for one in _without_blocks(drawing.modelspace(), Place(frozen=frozenset(frozen), file=file)):
        on_hidden_layer = one.layer.casefold() in not_shown and not one.hidden
        seen.append(replace(one, hidden=ON_HIDDEN_LAYER) if on_hidden_layer else one)
        in_blocks += bool(one.block)
        if in_blocks > MOST_IN_BLOCKS:
            raise mistaken(file, f"at most {MOST_IN_BLOCKS:,} entities in blocks", "more")
    return seen


def of_one_layer(seen: Iterable[Seen], file: str, named: str | None) -> list[Seen]:
    """Lines and curves of the only layer on which any are seen, or of the one that is named, even if it is hidden."""
    open_to_all = ("",) if named is None else ("", ON_HIDDEN_LAYER)
    curves = [one for one in seen if one.is_curve and one.hidden in open_to_all]
    names = sorted({one.layer.casefold(): one.layer for one in curves}.values())
    told = ", ".join(names)[:200]
    if named is None:
        if len(names) > 1:
            raise mistaken(file, f"one of the layers by --layer: {told}", "lines in all of them")
        return curves
    chosen = [one for one in curves if one.layer.casefold() == named.casefold()]
    if not chosen:
        raise mistaken(file, f"a layer with lines: {told or 'there is none'}", f"'{named}'")
    return chosen


def blocks_taken_apart(chosen: Iterable[Seen]) -> tuple[tuple[str, str], ...]:
    """Which blocks hold lines and curves that are read, as subject and sentence; none where no block does."""
    names = sorted({one.block for one in chosen if one.block})
    return (("blocks", f"taken apart: {', '.join(names)[:200]}"),) if names else ()


def passed_over(seen: Sequence[Seen], chosen: Sequence[Seen], drawing: Any) -> tuple[str, ...]:  # noqa: ANN401
    """What of a drawing is not read, by kind and number."""
    others = Counter(_kind(one.entity) for one in seen if not one.is_curve)
    taken = {id(one) for one in chosen}
    hidden = Counter(one.hidden for one in seen if one.is_curve and one.hidden and id(one) not in taken)
    elsewhere = sum(
        entity.dxftype() in CURVES for layout in drawing.layouts if layout.is_any_paperspace for entity in layout
    )
    return (
        *(f"{kind}: {count}, no line or curve" for kind, count in sorted(others.items())),
        *(f"lines and curves {why}: {count}" for why, count in sorted(hidden.items())),
        *((f"lines and curves in paper space: {elsewhere}",) if elsewhere else ()),
    )


def _without_blocks(entities: Iterable[Entity], place: Place) -> Iterator[Seen]:
    """Every entity, those of blocks in the blocks' place; a layer that is off hides only what lies on it itself."""
    if place.depth > DEEPEST_BLOCK:
        raise mistaken(place.file, f"blocks at most {DEEPEST_BLOCK} deep within one another", "more")
    for entity in entities:
        layer = entity.dxf.layer
        if layer == LAYER_OF_THE_BLOCK and place.block_layer:
            layer = place.block_layer
        hidden = place.hidden or (HIDDEN_ALONE if entity.dxf.get("invisible", 0) else "")
        if entity.dxftype() != "INSERT" or entity.block() is None:
            yield Seen(entity=entity, layer=layer, block=place.block, hidden=hidden)
            continue
        if layer.casefold() in place.frozen:
            hidden = hidden or ON_HIDDEN_LAYER
        block = place.block or entity.dxf.name
        within = replace(place, block=block, block_layer=layer, hidden=hidden, depth=place.depth + 1)
        for insert in entity.multi_insert() if entity.mcount > 1 else (entity,):
            yield from _without_blocks(insert.virtual_entities(), within)


def _is_mesh(entity: Entity) -> bool:
    return entity.dxftype() == "POLYLINE" and not (entity.is_2d_polyline or entity.is_3d_polyline)


def _kind(entity: Entity) -> str:
    return "mesh" if _is_mesh(entity) else str(entity.dxftype())
