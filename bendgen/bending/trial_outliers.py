"""Trial bends that nothing can be learned from, each with the test it failed."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from bendgen.bending.outlying_readings import Outlier, outlying_readings
from bendgen.bending.trial_readings import (
    angle,
    check_angle,
    check_lengths,
    elongation,
    kept_radius,
    setback_radius,
    tangent_length,
)
from bendgen.records.machine import MachineProfile
from bendgen.records.tooling import DieSet
from bendgen.records.trials import LeftOut, TrialBend
from bendgen.units import Units, format_length

# Common practice, no source: standard deviation of one reading at an ordinary bench, beside what the machine scatters.
PROTRACTOR_SD_DEG = 0.1
TAPE_SD = 0.5  # mm

TEST = "by the deleted residual, Rosner's many-outlier test"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sifted:
    """Trial bends after the tests.

    kept : bends whose angles count
    left_out : in the order of their lines
    doubt : why the angles do not belong together although none can be named; None if they do
    """

    kept: tuple[TrialBend, ...]
    left_out: tuple[LeftOut, ...]
    doubt: str | None = None


def sifted_trials(bends: Sequence[TrialBend], die: DieSet, profile: MachineProfile) -> Sifted:
    """Bends whose angles count, and what was left out: first what cannot be, then what does not belong."""
    impossible = [found for bend in bends for found in check_angle(bend)]
    possible = _without(bends, impossible)
    usual_sd = float(np.hypot(profile.bend.repeatability_deg, PROTRACTOR_SD_DEG))
    commanded = np.array([bend.commanded_deg for bend in possible])
    springback = np.array([bend.springback_deg for bend in possible])
    outliers = outlying_readings(commanded, springback, usual_sd=usual_sd)
    if any(not outlier.nameable for outlier in outliers):
        return Sifted(kept=possible, left_out=tuple(impossible), doubt=_doubt(possible))
    odd = [_odd_angle(possible[outlier.index], outlier) for outlier in outliers]
    kept = _without(possible, odd)
    lengths = _odd_lengths(kept, die, profile)
    return Sifted(kept=kept, left_out=tuple(sorted([*impossible, *odd, *lengths], key=lambda found: found.line)))


def _without(bends: Sequence[TrialBend], left_out: Sequence[LeftOut]) -> tuple[TrialBend, ...]:
    lines = {found.line for found in left_out}
    return tuple(bend for bend in bends if bend.line not in lines)


def _odd_angle(bend: TrialBend, outlier: Outlier) -> LeftOut:
    others = bend.measured_deg + outlier.deviation
    text = (
        f"measured {bend.measured_deg:g}° after a command of {bend.commanded_deg:g}°: the others put it at "
        f"{others:.1f}°, {abs(outlier.deviation):.2f}° away, and {outlier.limit:.2f}° is the most that scatter "
        f"explains ({TEST})"
    )
    return LeftOut(line=bend.line, reading="bend", text=text)


def _doubt(bends: Sequence[TrialBend]) -> str:
    lines = ", ".join(str(bend.line) for bend in bends)
    return (
        f"the angles of lines {lines} do not lie near a line and so few cannot tell which is wrong; "
        "measure them again, or bend at one more angle"
    )


def _odd_lengths(bends: Sequence[TrialBend], die: DieSet, profile: MachineProfile) -> list[LeftOut]:
    """Lengths that cannot be, then lengths that do not belong."""
    impossible = [found for bend in bends for found in check_lengths(bend, die, profile.units)]
    possible = _without(bends, impossible)

    def elongation_of(bend: TrialBend) -> float | None:
        radius = setback_radius(bend, die)
        return elongation(bend, die, kept_radius(bend, die) if radius is None else radius)

    def tangent_excess(bend: TrialBend) -> float | None:
        tangent = tangent_length(bend, die)
        return None if tangent is None else tangent - kept_radius(bend, die) * float(np.tan(angle(bend) / 2.0))

    tests = {"feed and front leg": tangent_excess, "blank and legs": elongation_of}
    usual_sd = float(np.hypot(profile.feed.repeatability, TAPE_SD))
    odd = {
        found.line: found
        for reading, value in tests.items()
        for found in _odd_values(reading, value, possible, usual_sd, profile.units)
    }
    return [*impossible, *odd.values()]


def _odd_values(
    reading: str,
    value: Callable[[TrialBend], float | None],
    bends: Sequence[TrialBend],
    usual_sd: float,
    units: Units,
) -> list[LeftOut]:
    told = [(bend, found) for bend in bends if (found := value(bend)) is not None]
    places = np.array([bend.commanded_deg for bend, _ in told])
    outliers = outlying_readings(places, np.array([found for _, found in told]), usual_sd=usual_sd)
    return [
        LeftOut(
            line=told[outlier.index][0].line,
            reading="lengths",
            text=f"{reading} are {format_length(abs(outlier.deviation), units)} away from what the others say, and "
            f"{format_length(outlier.limit, units)} is the most that scatter explains ({TEST})",
        )
        for outlier in outliers
        if outlier.nameable
    ]
