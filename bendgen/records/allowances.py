"""What trial bends taught: springback, formed radius and elongation by finished angle; and material data."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, kw_only=True)
class AllowanceRow:
    """One measured angle.

    angle_deg : finished angle [deg]
    springback_deg : commanded less finished [deg]
    elongation : developed length gained in this bend [mm]; None where the table has none
    clr : setback radius [mm], clr · tan(angle / 2) is bend start to vertex; None where the table has none
    bends, spread_deg : number of bends averaged and their standard deviation [deg]
    """

    angle_deg: float
    springback_deg: float
    elongation: float | None = None
    clr: float | None = None
    bends: int | None = None
    spread_deg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AllowanceTable:
    """Springback and elongation of one die, material and wall; rows in rising order of angle.

    file : path relative to the profile folder
    wall : [mm]
    proven_angle_deg : largest angle a perforated tube was bent to without tearing [deg]
    """

    file: str
    die: str
    material: str
    wall: float
    perforated: bool
    source: str
    issued: date
    rows: tuple[AllowanceRow, ...]
    lot: str | None = None
    temper: str | None = None
    proven_angle_deg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialData:
    """Power-law data for estimates where no table exists: stress = strength_coefficient · strain ** exponent."""

    file: str
    material: str
    source: str
    issued: date
    youngs_modulus_mpa: float
    strength_coefficient_mpa: float
    hardening_exponent: float
