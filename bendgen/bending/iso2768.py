"""General tolerances of ISO 2768-1 [ISO2768], tables 1 and 3; rows marked are from memory."""

from bendgen.records.part import Tolerance

# Upper end of each range of nominal lengths [mm]; what is longer than the last keeps its tolerance.
LENGTH_RANGES = (6.0, 30.0, 120.0, 400.0, 1000.0, 2000.0, 4000.0)
LENGTH_TOLERANCES: dict[str, tuple[float, ...]] = {  # [mm]; the column up to 6 mm is from memory
    "f": (0.05, 0.1, 0.15, 0.2, 0.3, 0.5, 0.5),
    "m": (0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2.0),
    "c": (0.3, 0.5, 0.8, 1.2, 2.0, 3.0, 4.0),
    "v": (0.5, 1.0, 1.5, 2.5, 4.0, 6.0, 8.0),
}
# Upper end of each range of the shorter leg [mm].
ANGLE_RANGES = (10.0, 50.0, 120.0, 400.0)
ANGLE_TOLERANCES: dict[str, tuple[float, ...]] = {  # [minutes of arc]; class c and legs over 400 mm are from memory
    "f": (60.0, 30.0, 20.0, 10.0, 5.0),
    "m": (60.0, 30.0, 20.0, 10.0, 5.0),
    "c": (90.0, 60.0, 30.0, 15.0, 10.0),
    "v": (180.0, 120.0, 60.0, 30.0, 20.0),
}
MINUTES_PER_DEGREE = 60.0


def length_tolerance(tolerance: Tolerance, nominal: float) -> float:
    """Permissible deviation of a length [mm]."""
    if tolerance.iso2768 is None:
        return tolerance.length
    return LENGTH_TOLERANCES[tolerance.iso2768][min(_range(LENGTH_RANGES, nominal), len(LENGTH_RANGES) - 1)]


def angle_tolerance_deg(tolerance: Tolerance, shorter_leg: float) -> float:
    """Permissible deviation of an angle [deg] between legs of which the shorter is given [mm]."""
    if tolerance.iso2768 is None:
        return tolerance.angle_deg
    return ANGLE_TOLERANCES[tolerance.iso2768][_range(ANGLE_RANGES, shorter_leg)] / MINUTES_PER_DEGREE


def _range(upper_ends: tuple[float, ...], nominal: float) -> int:
    """Index of the first range that reaches as far as the nominal size; one more than the last if none does."""
    return next((i for i, upper in enumerate(upper_ends) if nominal <= upper), len(upper_ends))
