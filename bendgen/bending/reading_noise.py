"""How far readings of one good part may lie from their predictions, and which of them go together.

The machine's share is what the program says of every angle, rotation and straight; what a person adds with protractor
and tape is common practice, no source.
"""

import numpy as np

from bendgen.bending.misses import KINDS
from bendgen.bending.uncertainty import COVERAGE_FACTOR, slopes_of_checks
from bendgen.geometry.vectors import Array
from bendgen.records.bend_program import is_rotation
from bendgen.records.foretold import Foretold
from bendgen.units import RADIANS_PER_DEGREE

PROTRACTOR_DEG = 0.1
PLANE_TO_PLANE_DEG = 0.2  # a rotation is read between two planes that nothing marks
TAPE = 0.3  # mm
UNTOLD_DEG, UNTOLD = 0.1, 0.2  # of the machine, where the program does not tell [deg], [mm]


def noise_of_readings(foretold: Foretold) -> Array:
    """Covariance of the c readings of one part, a (c, c) array [mm, deg]; NaN where a check is not known here."""
    slopes = slopes_of_checks(foretold)
    moved = np.einsum("jn,jnc->jnc", _machine_deviations(foretold), slopes).reshape(-1, slopes.shape[2])
    machine = moved.T @ moved
    told = np.array([_told(foretold, check.id, 0.0) for check in foretold.checks]) ** 2
    beyond = np.maximum(told - np.diag(machine), 0.0)
    person = np.array([_person(check.id, check.unit) for check in foretold.checks])
    noise: Array = machine + np.diag(beyond + person**2)
    return noise


def _machine_deviations(foretold: Foretold) -> Array:
    """One standard deviation of every miss, a (5, n) array, kinds in the order of `KINDS` [rad, mm]."""
    count = len(foretold.steps)
    deviations = {kind: np.zeros(count) for kind in KINDS}
    for i in range(count):
        deviations["angles"][i] = _told(foretold, f"angle-{i + 1}", UNTOLD_DEG) * RADIANS_PER_DEGREE
        deviations["rotations"][i] = _told(foretold, f"rotation-{i + 1}", UNTOLD_DEG) * RADIANS_PER_DEGREE
        deviations["feeds"][i] = _told(foretold, f"straight-{i + 1}", UNTOLD)
        deviations["used"][i] = _told(foretold, "rear-cut", UNTOLD * np.sqrt(count)) / np.sqrt(count)
    return np.stack([deviations[kind] for kind in KINDS])


def _told(foretold: Foretold, check_id: str, otherwise: float) -> float:
    """Standard deviation that the program tells of one check."""
    for check in foretold.checks:
        if check.id == check_id and check.uncertainty is not None:
            return check.uncertainty.expanded / COVERAGE_FACTOR
    return otherwise


def _person(check_id: str, unit: str) -> float:
    if is_rotation(check_id):
        return PLANE_TO_PLANE_DEG
    return PROTRACTOR_DEG if unit == "deg" else TAPE
