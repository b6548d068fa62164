"""What one trial bend says by itself: tangent length, setback radius, blank used; and whether that can be true.

Lengths are held against the arc that is kept: the length wound on the die at the commanded angle, opened to the
finished one.
"""

import math
from collections.abc import Iterator
from dataclasses import replace

from bendgen.records.tooling import DieSet
from bendgen.records.trials import LeftOut, Leg, TrialBend
from bendgen.units import MM_PER_INCH, RADIANS_PER_DEGREE, Units, format_length

SETBACK_FROM_DEG = 45.0  # below it the tangent length is too short to tell the radius
APEX_UP_TO_DEG = 150.0  # above it the apex runs away with the angle, and legs to it say nothing
# Common practice, no source: farther off than this, somebody read the tape or the scale wrong.
RADIUS_SHARE = 0.15  # setback radius off that of the kept arc
ELONGATION_SHARE = 0.08  # length gained, of the arc
LARGEST_SPRINGBACK_SHARE = 0.2  # springback, of the commanded angle, above ...
LARGEST_SPRINGBACK_DEG = 3.0  # ... this much, which even the smallest bend may have
CLOSES_BY_DEG = 2.0  # a bend that closes on release does so by less


def angle(bend: TrialBend) -> float:
    """Finished angle [rad]."""
    return bend.measured_deg * RADIANS_PER_DEGREE


def kept_radius(bend: TrialBend, die: DieSet) -> float:
    """Setback radius if the wound arc keeps its length [mm]."""
    return die.clr * bend.commanded_deg / bend.measured_deg


def apex_leg(leg: float, bend: TrialBend, die: DieSet) -> float:
    """Leg from the end to the apex [mm], from a leg as it was read."""
    if bend.legs == "apex":
        return leg
    return leg - die.tube_od / 2.0 * math.tan(angle(bend) / 2.0)


def tangent_length(bend: TrialBend, die: DieSet) -> float | None:
    """Bend start to apex [mm], None where feed or front leg was not noted or there is no apex to measure to."""
    if bend.feed is None or bend.front_leg is None or bend.measured_deg > APEX_UP_TO_DEG:
        return None
    return apex_leg(bend.front_leg, bend, die) - bend.feed


def setback_radius(bend: TrialBend, die: DieSet) -> float | None:
    """Setback radius [mm], None where it was not measured or the bend is too small to tell."""
    tangent = tangent_length(bend, die)
    if tangent is None or bend.measured_deg < SETBACK_FROM_DEG:
        return None
    return tangent / math.tan(angle(bend) / 2.0)


def legs_less_blank(bend: TrialBend, die: DieSet) -> float | None:
    """Both apex legs less the blank [mm]: 2 T - a, one equation for setback radius and elongation."""
    if bend.blank is None or bend.front_leg is None or bend.rear_leg is None or bend.measured_deg > APEX_UP_TO_DEG:
        return None
    return apex_leg(bend.front_leg, bend, die) + apex_leg(bend.rear_leg, bend, die) - bend.blank


def elongation(bend: TrialBend, die: DieSet, radius: float) -> float | None:
    """Length gained [mm] if the setback radius is that [mm]; None where the blank used was not measured.

    Notes
    -----
    e = R θ - a, and a is the carriage's move, or else blank less both legs and 2 T = 2 R tan(θ/2).
    """
    if bend.carriage_move is not None:
        return radius * angle(bend) - bend.carriage_move
    known = legs_less_blank(bend, die)
    if known is None:
        return None
    return radius * (angle(bend) - 2.0 * math.tan(angle(bend) / 2.0)) + known


def check_angle(bend: TrialBend) -> Iterator[LeftOut]:
    """The whole bend, if it cannot be learned from or its angle cannot be true."""
    if bend.restruck:
        text = "re-struck: after a second stroke the springback is no longer that of one bend"
        yield LeftOut(line=bend.line, reading="bend", text=text)
        return
    largest = LARGEST_SPRINGBACK_DEG + LARGEST_SPRINGBACK_SHARE * bend.commanded_deg

    def plausible(measured_deg: float) -> bool:
        return -CLOSES_BY_DEG <= bend.commanded_deg - measured_deg <= largest

    if not plausible(bend.measured_deg):
        questions = (question for meant, question in _angles_put_right(bend.measured_deg) if plausible(meant))
        text = (
            f"measured {bend.measured_deg:g}° after a command of {bend.commanded_deg:g}°: a springback of "
            f"{bend.springback_deg:.2f}° cannot be (plausible here: {-CLOSES_BY_DEG:g} to {largest:.1f}°)"
        )
        yield LeftOut(line=bend.line, reading="bend", text=text + next(questions, ""))


def _angles_put_right(measured_deg: float) -> Iterator[tuple[float, str]]:
    """What a slip of the pen or of the eye may have made of an angle, and the question that asks so."""
    other_side = 180.0 - measured_deg
    yield other_side, f". Was it read from the other side? 180° less that is {other_side:g}°"
    for meant in (10.0 * measured_deg, measured_deg / 10.0):
        yield meant, f". Is the decimal point right? It may be {meant:g}°"


def check_lengths(bend: TrialBend, die: DieSet, units: Units) -> Iterator[LeftOut]:
    """The lengths of a bend, if radius or elongation cannot be true; asks for unit or legs if the other would do."""
    for left_out in _implausible_lengths(bend, die, units):
        yield replace(left_out, text=left_out.text + _question(bend, die))


def _question(bend: TrialBend, die: DieSet) -> str:
    """What may have been noted wrongly, so that the lengths would be plausible; empty text where nothing would do."""
    other: Leg = "outer_apex" if bend.legs == "apex" else "apex"
    if _fits_in_other_unit(bend, die):
        return ". Is the unit right? In the other one they are plausible"
    if bend.measured_deg >= SETBACK_FROM_DEG and not list(_implausible_lengths(replace(bend, legs=other), die, "mm")):
        return f". Are the legs right? Read as {other}, in the column legs, they are plausible"
    return ""


def _fits_in_other_unit(bend: TrialBend, die: DieSet) -> bool:
    """Whether the setback radius would be true; an elongation says nothing, in inches any is small."""
    others = [_scaled(bend, factor) for factor in (MM_PER_INCH, 1.0 / MM_PER_INCH)]
    return any(
        setback_radius(other, die) is not None and not list(_implausible_lengths(other, die, "mm")) for other in others
    )


def _scaled(bend: TrialBend, factor: float) -> TrialBend:
    """The bend with all its lengths times a factor."""
    lengths = {name: getattr(bend, name) for name in ("feed", "blank", "front_leg", "rear_leg", "carriage_move")}
    return replace(bend, **{name: length * factor for name, length in lengths.items() if length is not None})


def _implausible_lengths(bend: TrialBend, die: DieSet, units: Units) -> Iterator[LeftOut]:
    kept = kept_radius(bend, die)
    radius = setback_radius(bend, die)
    if radius is not None and abs(radius - kept) > RADIUS_SHARE * kept:
        means = f"feed and front leg mean {_radius_words(radius, die, units)}"
        plausible = f"{format_length(kept, units)} within {100 * RADIUS_SHARE:.0f} %, as if the arc kept its length"
        yield LeftOut(line=bend.line, reading="lengths", text=f"{means}; plausible is {plausible}")
        return
    gained = elongation(bend, die, kept if radius is None else radius)
    if gained is not None and abs(gained) > ELONGATION_SHARE * kept * angle(bend):
        means = f"{_blank_words(bend, die, units)} an elongation of {format_length(gained, units)}"
        allowed = f"plausible is at most {100 * ELONGATION_SHARE:.0f} % of the arc"
        yield LeftOut(line=bend.line, reading="lengths", text=f"{means}; {allowed}")


def _blank_words(bend: TrialBend, die: DieSet, units: Units) -> str:
    """What was read about the blank; as a radius, too, where nothing else tells one and the bend is large enough."""
    if bend.carriage_move is not None:
        return "the carriage's move means"
    known = legs_less_blank(bend, die)
    if known is None or known <= 0.0 or bend.feed is not None or bend.measured_deg < SETBACK_FROM_DEG:
        return "blank and legs mean"
    radius = known / (2.0 * math.tan(angle(bend) / 2.0) - angle(bend))
    return f"blank and legs mean {_radius_words(radius, die, units)}, or"


def _radius_words(radius: float, die: DieSet, units: Units) -> str:
    off = radius / die.clr - 1.0
    side = "over" if off > 0.0 else "under"
    return f"a formed radius of {format_length(radius, units)}, {100 * abs(off):.0f} % {side} the die's"
