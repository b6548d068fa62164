"""The tube that a piece is, as far as its readings tell; where nothing was read it is as it was wanted."""

from collections.abc import Mapping

from bendgen.geometry.legs import apex_leg, outer_apex_leg
from bendgen.records.bent_tube import Bend, BentTube
from bendgen.records.foretold import Foretold
from bendgen.units import RADIANS_PER_DEGREE

LEAST_ANGLE_DEG = 1e-3  # a bend that reads less, or backwards, is drawn as good as straight


def made_tube(foretold: Foretold, values: Mapping[str, float]) -> BentTube:
    """Straights and bends behind readings by the names of their checks; every bend keeps the length of its arc."""
    wanted = foretold.wanted_tube
    bends = tuple(_bend(bend, number, values) for number, bend in enumerate(wanted.bends, start=1))
    straights = [values.get(f"straight-{number}", length) for number, length in enumerate(wanted.straights, start=1)]
    if bends:
        straights[0] = _end_straight(values, "front", bends[0], foretold, straights[0])
        straights[-1] = _end_straight(values, "rear", bends[-1], foretold, straights[-1])
    return BentTube(straights=tuple(straights), bends=bends)


def _bend(wanted: Bend, number: int, values: Mapping[str, float]) -> Bend:
    angle = max(values.get(f"angle-{number}", wanted.angle_deg), LEAST_ANGLE_DEG)
    rotation = values.get(f"rotation-{number}", wanted.rotation_deg)
    return Bend(angle_deg=angle, rotation_deg=rotation, clr=wanted.clr * wanted.angle_deg / angle)


def _end_straight(values: Mapping[str, float], end: str, bend: Bend, foretold: Foretold, unread: float) -> float:
    """Straight behind a leg; `unread` where no leg was read: what a crown leg reads is no straight."""
    angle = bend.angle_deg * RADIANS_PER_DEGREE
    beyond = {
        f"apex-leg-{end}": apex_leg(0.0, bend.clr, angle),
        f"outer-apex-leg-{end}": outer_apex_leg(0.0, bend.clr, angle, foretold.tube.od),
    }
    return next((values[leg] - part for leg, part in beyond.items() if leg in values), unread)
