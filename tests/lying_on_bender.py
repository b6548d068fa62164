"""How the independent bender's tube lies in front of its die before each bend: proof for what is drawn."""

import numpy as np

from tests.independent_bender import Array, Made


def lying_on_bender(made: Made, side: str) -> list[Array]:
    """Front end and tangent points made so far, before each bend, in the machine's frame; bends below 180°.

    The bender moves along a tube that lies still. The frame is read off the bend that comes next: its tangent point is
    the origin, +X goes on towards the front, and the tube turns round the die, which stands at +Y on the left.
    """
    return [_framed(made, i, 1.0 if side == "left" else -1.0) for i in range(len(made.directions) - 1)]


def _framed(made: Made, i: int, sign: float) -> Array:
    along, after = made.directions[i], made.directions[i + 1]
    to_die = after - (after @ along) * along
    x, y = -along, sign * to_die / np.linalg.norm(to_die)
    axes = np.column_stack((x, y, np.cross(x, y)))
    framed: Array = (np.array(made.points[: 2 * i + 2]) - made.points[2 * i + 1]) @ axes
    return framed
