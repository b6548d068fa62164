"""Scales of drawings."""

import math

# ISO 5455 recommends 1, 2 and 5 times powers of ten, and lets a drawing that has to fit its place use others.
STEPS = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)


def drawing_scale(largest: float) -> float:
    """The largest scale of the series that is at most `largest`."""
    if largest >= 1.0:
        power = 10.0 ** math.floor(math.log10(largest))
        return max(step * power for step in STEPS if step * power <= largest * (1.0 + 1e-9))
    reduction = 1.0 / largest
    power = 10.0 ** math.floor(math.log10(reduction))
    return 1.0 / min(step * power for step in STEPS if step * power >= reduction * (1.0 - 1e-9))


def scale_words(scale: float) -> str:
    """Scale as drawings state it."""
    return f"{scale:g}:1" if scale > 1.0 else f"1:{1.0 / scale:g}"
