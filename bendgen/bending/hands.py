"""The other hand and the other end of a part: both are their own inverse."""

from dataclasses import replace
from typing import TYPE_CHECKING

from bendgen.records.bent_tube import Point
from bendgen.records.part import Centreline, Part, TrimEnds, Vertex, WantedBend, WantedSteps
from bendgen.records.tube import Tube

if TYPE_CHECKING:
    from bendgen.records.offset import OffsetWish
    from bendgen.records.route import Port, RouteWish

OTHER_END: dict[TrimEnds, TrimEnds] = {"both": "both", "front": "rear", "rear": "front", "none": "none"}


def mirror_part(part: Part) -> Part:
    """Return the opposite hand: same feeds and bends, rotations of the opposite sign; a half turn stays +180."""
    return replace(
        part,
        centreline=part.centreline and _mirrored_centreline(part.centreline),
        steps=part.steps and _mirrored_steps(part.steps),
        offset=part.offset and _mirrored_offset(part.offset),
        route=part.route and _mirrored_route(part.route),
        tube=replace(part.tube, seam_deg=None if part.tube.seam_deg is None else -part.tube.seam_deg),
        mirrored=not part.mirrored,
    )


def reverse_part(part: Part) -> Part:
    """Return the same part bent from its other end: straights, bends, trims in reverse, rotations unchanged."""
    return replace(
        part,
        centreline=part.centreline and reversed_centreline(part.centreline),
        steps=part.steps and reversed_steps(part.steps),
        offset=part.offset and _reversed_offset(part.offset),
        route=part.route and _reversed_route(part.route),
        tube=_reversed_tube(part.tube),
        trim=OTHER_END[part.trim],
        front_trim=part.rear_trim,
        rear_trim=part.front_trim,
        front_fit=part.rear_fit,
        rear_fit=part.front_fit,
        from_rear=not part.from_rear,
    )


def as_bent(part: Part, *, mirrored: bool, from_rear: bool) -> Part:
    """Part of a file in the hand, and from the end, in which it is bent."""
    handed = mirror_part(part) if mirrored else part
    return reverse_part(handed) if from_rear else handed


def part_as_filed(part: Part) -> Part:
    """Undo `as_bent`: the part as its file describes it."""
    filed = reverse_part(part) if part.from_rear else part
    return mirror_part(filed) if filed.mirrored else filed


def _mirrored_centreline(centreline: Centreline) -> Centreline:
    mirrored = tuple(Vertex(x=v.x, y=v.y, z=0.0 - v.z, clr=v.clr) for v in centreline.vertices)
    return replace(centreline, vertices=mirrored)


def _mirrored_steps(steps: WantedSteps) -> WantedSteps:
    bends = tuple(replace(b, rotation_deg=_opposite(b.rotation_deg)) for b in steps.bends)
    return replace(steps, bends=bends)


def reversed_centreline(centreline: Centreline) -> Centreline:
    """Return the same path from its other end."""
    return replace(centreline, vertices=centreline.vertices[::-1])


def _mirrored_offset(wish: "OffsetWish") -> "OffsetWish":
    return replace(
        wish,
        front=wish.front and replace(wish.front, clock_deg=_opposite(wish.front.clock_deg)),
        rear=wish.rear and replace(wish.rear, clock_deg=_opposite(wish.rear.clock_deg)),
    )


def _reversed_offset(wish: "OffsetWish") -> "OffsetWish":
    """Ends swapped; seen from the other end of the tube, up stays up and right becomes left."""
    mirrored = _mirrored_offset(wish)
    return replace(wish, front=mirrored.rear, rear=mirrored.front)


def _mirrored_route(wish: "RouteWish") -> "RouteWish":
    boxes = tuple(replace(box, corner=_below(box.corner), opposite=_below(box.opposite)) for box in wish.keep_out)
    return replace(wish, front=_mirrored_port(wish.front), rear=_mirrored_port(wish.rear), keep_out=boxes)


def _mirrored_port(port: "Port") -> "Port":
    return replace(port, at=_below(port.at), towards=_below(port.towards))


def _below(point: Point) -> Point:
    return point[0], point[1], 0.0 - point[2]


def _reversed_route(wish: "RouteWish") -> "RouteWish":
    return replace(
        wish,
        front=wish.rear,
        rear=wish.front,
        shortest_front=wish.shortest_rear,
        shortest_rear=wish.shortest_front,
    )


def _opposite(rotation_deg: float) -> float:
    return rotation_deg if rotation_deg == 180.0 else 0.0 - rotation_deg


def reversed_steps(steps: WantedSteps) -> WantedSteps:
    """Return the same bends from the other end."""
    if not steps.bends:
        return steps
    straights = [b.straight for b in steps.bends] + [steps.rear]
    rotations = [steps.bends[0].rotation_deg] + [b.rotation_deg for b in steps.bends[:0:-1]]
    bends = tuple(
        WantedBend(straight=straight, rotation_deg=rotation, angle_deg=bend.angle_deg, clr=bend.clr)
        for straight, rotation, bend in zip(straights[:0:-1], rotations, reversed(steps.bends), strict=True)
    )
    return WantedSteps(bends=bends, rear=straights[0])


def _reversed_tube(tube: Tube) -> Tube:
    holes = tube.perforation
    if holes is None:
        return tube
    return replace(tube, perforation=replace(holes, plain_front=holes.plain_rear, plain_rear=holes.plain_front))
