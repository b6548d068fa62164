"""A solved offset in words and rows, for the command and the sheet alike."""

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from bendgen.units import format_number

if TYPE_CHECKING:
    from bendgen.records.offset import OffsetAnswer, OffsetSolution, OffsetWish

LengthText = Callable[[float], str]
ANGLE_DECIMALS = 2
HOUR_DEG = 30.0
CLOCK_VIEW = "Clock positions are seen from the rear end, looking along the tube to the front, as from the carriage."
RANGE_HEADINGS = ("", "angle", "straight between", "each end", "run")
RANGE_ALIGN = "lrrrr"


def answer_rows(wish: "OffsetWish", solution: "OffsetSolution", length: LengthText) -> Iterator[tuple[str, str]]:
    """Name and text of what was chosen, and what an error of angle does to it."""
    answer = solution.answer
    yield "rise", length(solution.rise)
    yield "finished length", length(wish.length)
    if not answer.angle_deg:
        yield "bends", "none: both ends are in line, a straight tube"
        return
    yield "each bend", f"{angle_text(answer.angle_deg)} finished; the second goes the opposite way"
    yield "straight", f"{length(answer.between)} between the bends"
    yield "front end", f"{length(answer.front_straight)} of straight left"
    yield "rear end", f"{length(answer.rear_straight)} of straight left"
    yield "run", f"{length(answer.run)} along the end axes, from the first bend's start to the second one's end"
    yield "if it is off", f"0.1° more at both bends makes {length(solution.rise_per_tenth_degree)} more rise"


def range_rows(solution: "OffsetSolution", length: LengthText) -> list[list[str]]:
    """Gentlest, chosen and tightest offset under `RANGE_HEADINGS`; none for a straight tube."""
    answers = {"gentlest": solution.gentlest, "this one": solution.answer, "tightest": solution.tightest}
    return [_range_row(name, answer, length) for name, answer in answers.items()] if solution.answer.angle_deg else []


def _range_row(name: str, answer: "OffsetAnswer", length: LengthText) -> list[str]:
    lengths = (answer.between, answer.front_straight, answer.run)
    return [name, angle_text(answer.angle_deg), *map(length, lengths)]


def plane_sentences(wish: "OffsetWish", solution: "OffsetSolution") -> Iterator[str]:
    """Where the plane of the bends lies; nothing for a straight tube."""
    if not solution.answer.angle_deg:
        return
    up = "Up is where the rise goes." if wish.rise is not None else "Up is the clock position 0 of the part's file."
    yield f"{CLOCK_VIEW} {up}"
    yield f"From its rear end the tube turns off towards {clock_words(solution.rear_turns_to_deg)}."
    yield f"From its front end the tube turns off towards {clock_words(solution.front_turns_to_deg)}."


def clock_words(clock_deg: float) -> str:
    """Clock position [deg] as the hour nearest to it, and in degrees: "2 o'clock (60.00° clockwise from up)"."""
    hours = round(clock_deg / HOUR_DEG)
    hour = f"{hours % 12 or 12} o'clock"
    off = abs(clock_deg - HOUR_DEG * hours)
    if off < 0.5 * 10.0**-ANGLE_DECIMALS:
        return f"{hour} (straight {'down' if hours else 'up'})" if hours % 6 == 0 else f"{hour} ({_from_up(clock_deg)})"
    return f"about {hour} ({_from_up(clock_deg)})"


def _from_up(clock_deg: float) -> str:
    way = "counterclockwise" if clock_deg < 0.0 else "clockwise"
    return f"{angle_text(abs(clock_deg))} {way} from up"


def angle_text(angle_deg: float) -> str:
    """Angle [deg] with its sign."""
    return f"{format_number(angle_deg, ANGLE_DECIMALS)}°"
