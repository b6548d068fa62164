"""A bend drawn in two views: the true bend behind "15 up and 10 back".

The words have two readings, which give different bends. The angles of two views are the slopes of one straight as seen
from the side and from above; angles made one after the other turn the straight twice. Both roll the bend plane from
the first angle's plane towards the second's.
"""

import math


def bend_from_views(first: float, second: float) -> tuple[float, float]:
    """True bend and roll [rad] of a straight seen at those angles in two views at a right angle.

    first, second : angles from straight on [rad], below π/2 in size; not both 0
    """
    across, back = math.tan(first), math.tan(second)
    return math.atan(math.hypot(across, back)), math.atan2(back, across)


def bend_from_turns(first: float, second: float) -> tuple[float, float]:
    """True bend and roll [rad] of a straight turned by `first` and then, about the first plane's own axis, `second`.

    first, second : [rad], not both 0; the direction is (cos a cos b, sin a cos b, sin b)
    """
    along = math.cos(first) * math.cos(second)
    across, back = math.sin(first) * math.cos(second), math.sin(second)
    return math.atan2(math.hypot(across, back), along), math.atan2(back, across)
