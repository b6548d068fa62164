"""Bending moment of a power-law tube and what it springs back: arithmetic cases, derived elsewhere.

30-digit quadrature over the exact annulus, plane sections, no axial force, stress = K · strain ** n. The recovered
curvature is M / (E I) [Gardiner1957], [JohnsonYu1981] (both from memory). The inputs are illustrative, of no standard.
"""

import math
from dataclasses import dataclass
from datetime import date

import numpy as np
import pytest
from scipy.integrate import quad

from bendgen.bending.allowances import AllowanceCurves, allowances_at, curves_of_material, finished_angles
from bendgen.geometry.power_law_tube import power_law_moment, second_moment
from bendgen.records.allowances import MaterialData
from bendgen.records.tooling import DieSet
from bendgen.records.tube import Tube


@dataclass(frozen=True, kw_only=True)
class Case:
    """od, wall, clr [mm]; youngs, strength [MPa]; printed: moment [N m], springback [deg], released radius [mm]."""

    od: float
    wall: float
    clr: float
    youngs: float
    strength: float
    exponent: float
    moment: str
    springback: str
    radius: str


CASES = [
    Case(od=38.1, wall=1.65, clr=76.2, youngs=205000, strength=600, exponent=0.20,
         moment="933.14204", springback="0.9928095", radius="77.049955"),
    Case(od=50.8, wall=1.5, clr=76.2, youngs=193000, strength=1275, exponent=0.45,
         moment="2475.7582", springback="1.245245", radius="77.269099"),
    Case(od=25.4, wall=1.65, clr=50.8, youngs=69000, strength=410, exponent=0.20,
         moment="269.80743", springback="2.049676", radius="51.98389"),
    Case(od=6.0, wall=0.6, clr=18, youngs=105000, strength=970, exponent=0.09,
         moment="13.992587", springback="5.747811", radius="19.227987"),
    Case(od=48.3, wall=3.2, clr=144.9, youngs=210000, strength=800, exponent=0.16,
         moment="3696.9821", springback="1.981612", radius="148.16222"),
]  # fmt: skip


def half_a_unit(printed: str) -> float:
    return 0.5 * 10.0 ** -len(printed.partition(".")[2])


def curves_of(case: Case) -> AllowanceCurves:
    data = MaterialData(
        file="materials/invented.toml",
        material="invented",
        source="invented",
        issued=date(2026, 1, 5),
        youngs_modulus_mpa=case.youngs,
        strength_coefficient_mpa=case.strength,
        hardening_exponent=case.exponent,
    )
    die = DieSet(id="d", tube_od=case.od, clr=case.clr, clamp=1.0, largest_bend_deg=180.0)
    return curves_of_material(data, Tube(od=case.od, wall=case.wall, material="invented"), die)


@pytest.mark.parametrize("case", CASES)
def test_printed_moments(case: Case) -> None:
    outer = case.od / 2.0
    moment = power_law_moment(case.strength, case.exponent, outer, outer - case.wall, case.clr) / 1000.0
    assert moment == pytest.approx(float(case.moment), abs=half_a_unit(case.moment))


@pytest.mark.parametrize("case", CASES)
def test_printed_springback_of_90_degrees_under_load(case: Case) -> None:
    finished = float(finished_angles(curves_of(case), np.array([90.0]))[0])
    assert 90.0 - finished == pytest.approx(float(case.springback), abs=half_a_unit(case.springback))


@pytest.mark.parametrize("case", CASES)
def test_printed_radius_after_release(case: Case) -> None:
    curves = curves_of(case)
    clr = float(allowances_at(curves, finished_angles(curves, np.array([90.0]))).clr[0])
    assert clr == pytest.approx(float(case.radius), abs=half_a_unit(case.radius))


@pytest.mark.parametrize("case", CASES)
def test_moment_against_quadrature(case: Case) -> None:
    """The integral itself, ring by ring of the annulus cut across: four quadrants of y · stress · width."""
    outer, inner = case.od / 2.0, case.od / 2.0 - case.wall

    def of_disc(radius: float) -> float:
        def strip(t: float) -> float:  # y = radius · sin t, so that the width has no endless slope at the crown
            y = radius * math.sin(t)
            stress = case.strength * math.pow(y / case.clr, case.exponent)
            return stress * y * 2.0 * radius**2 * math.cos(t) ** 2

        return 2.0 * float(quad(strip, 0.0, math.pi / 2.0, epsabs=0.0, epsrel=1e-11)[0])

    moment = power_law_moment(case.strength, case.exponent, outer, inner, case.clr)
    assert moment == pytest.approx(of_disc(outer) - of_disc(inner), rel=1e-8)


def test_signs_of_the_estimate() -> None:
    """Larger with bend angle and K, smaller with E and n.

    Jiang et al., Materials & Design 31 (2010) 2001, TA18 tube (seen, abstract).
    """
    case = CASES[0]

    def lost(changed: Case, angle: float = 90.0) -> float:
        return float(allowances_at(curves_of(changed), np.array([angle])).springback_deg[0])

    def varied(**values: float) -> Case:
        return Case(**{name: getattr(case, name) for name in Case.__dataclass_fields__} | values)

    assert lost(case, 120.0) > lost(case, 60.0) > 0.0
    assert lost(varied(strength=700)) > lost(case)
    assert lost(varied(youngs=190000)) > lost(case)
    assert lost(varied(exponent=0.3)) < lost(case)


def test_the_estimate_rises_linearly_with_the_angle() -> None:
    """Springback rises linearly with bend angle, 6061-T4, 50.8 × 0.889 mm.

    Li, Shi, Yang, Tian, Trans. Nonferrous Met. Soc. China 22 (2012) s357 (seen, abstract).
    """
    angles = np.array([10.0, 45.0, 90.0, 135.0, 180.0])
    lost = allowances_at(curves_of(CASES[2]), angles).springback_deg
    np.testing.assert_allclose(lost / angles, lost[0] / angles[0], rtol=1e-12)


def test_elastic_limit_of_the_moment() -> None:
    """Derived: with n = 1 the power law is Hooke's, K · I / R."""
    assert power_law_moment(200000.0, 1.0, 20.0, 18.0, 500.0) == pytest.approx(
        200000.0 * second_moment(20.0, 18.0) / 500.0, rel=1e-12
    )


@pytest.mark.parametrize(
    ("od", "wall", "clr", "yield_mpa", "moment"),
    [
        (38.1, 1.65, 76.2, 250.0, 548.4205),
        (50.8, 1.5, 76.2, 240.0, 875.24425),
        (25.4, 1.65, 50.8, 145.0, 135.16725),
        (6.0, 0.6, 18.0, 620.0, 10.889358),
        (48.3, 3.2, 144.9, 355.0, 2314.4675),
    ],
)
def test_without_hardening_the_moment_is_the_plastic_one(
    od: float, wall: float, clr: float, yield_mpa: float, moment: float
) -> None:
    """As the exponent vanishes: Zp = (D³ - d³) / 6 times the yield stress (quoted with values of the AISC Manual).

    The printed moments are those of an elastic-perfectly plastic tube, whose elastic core takes off less than 3e-4.
    """
    outer, inner = od / 2.0, od / 2.0 - wall
    plastic = power_law_moment(yield_mpa, 1e-12, outer, inner, clr) / 1000.0
    assert plastic == pytest.approx(yield_mpa * (od**3 - (od - 2.0 * wall) ** 3) / 6.0 / 1000.0, rel=1e-9)
    assert plastic == pytest.approx(moment, rel=3e-4)


def test_a_thin_tube_carries_four_over_pi_times_its_yield_moment() -> None:
    """Mp / My of a thin ring, derived."""
    outer, wall, stress = 50.0, 0.001, 300.0
    inner = outer - wall
    yielding = stress * second_moment(outer, inner) / outer
    assert power_law_moment(stress, 1e-12, outer, inner, 100.0) / yielding == pytest.approx(4.0 / math.pi, rel=1e-4)
