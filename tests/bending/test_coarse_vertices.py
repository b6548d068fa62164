"""Cautions where rounded coordinates hide the angle that was meant."""

from dataclasses import replace

import pytest

from bendgen.bending.coarse_vertices import check_coarse_vertices
from bendgen.bending.planning import job_of_part
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Centreline, Part, Vertex, WantedBend, WantedSteps
from bendgen.units import MM_PER_UNIT, Units


def cautions(
    part: Part, profile: MachineProfile, *corners: tuple[float, float, float], units: Units = "mm"
) -> list[tuple[int | None, str]]:
    mm = MM_PER_UNIT[units]
    centreline = Centreline(vertices=tuple(Vertex(x=x * mm, y=y * mm, z=z * mm) for x, y, z in corners))
    drawn = replace(part, units=units, centreline=centreline)
    findings = list(check_coarse_vertices(job_of_part(drawn, profile)))
    assert all((finding.rule, finding.level) == ("geometry", "caution") for finding in findings)
    return [(finding.step, finding.text) for finding in findings]


def test_whole_millimetres_that_miss_sixty_degrees(dryer_part: Part, metric_profile: MachineProfile) -> None:
    # 300 · sin 60° is 259.808: drawn as 260 the bend is atan2(260, 150) = 60.0184°.
    found = cautions(dryer_part, metric_profile, (0, 0, 0), (300, 0, 0), (450, 260, 0))
    text = "bend of 60.018°: vertices rounded to 1 mm can make that of 60°; see which is meant"
    assert found == [(1, text)]


def test_inches_to_a_tenth(dryer_part: Part, metric_profile: MachineProfile) -> None:
    # 10 in at 30°: 8.660 and 5.0; to a tenth 8.7 and 5.0 make atan2(5, 8.7) = 29.887°.
    found = cautions(dryer_part, metric_profile, (0, 0, 0), (12, 0, 0), (20.7, 5, 0), units="in")
    text = "bend of 29.887°: vertices rounded to 0.1 in can make that of 30°; see which is meant"
    assert found == [(1, text)]


def test_a_rotation_is_told_with_the_bend_it_comes_before(dryer_part: Part, metric_profile: MachineProfile) -> None:
    # The last leg rises by 101 on 100: the planes of the bends stand 45.285° apart.
    path = ((0.0, 0.0, 0.0), (0.0, 300.0, 0.0), (300.0, 300.0, 0.0), (300.0, 400.0, 101.0))
    ((step, text),) = cautions(dryer_part, metric_profile, *path)
    assert step == 2
    assert text.startswith("rotation of -134.715°: vertices rounded to 1 mm can make that of -135°")


@pytest.mark.parametrize(
    "corners",
    [
        ((0.0, 0, 0), (300, 0, 0), (300, 220, 0)),  # just 90°
        ((0.0, 0, 0), (300, 0, 0), (450, 259.8076211, 0)),  # 60°, to more digits than a drawing has
        ((0.0, 0, 0), (300, 0, 0), (450, 260.1234567, 0)),  # odd, but on no grid
        ((0.0, 0, 0), (300, 0, 0), (450, 230, 0)),  # 56.9° is nothing near 60°
        ((0.0, 0, 0), (3000, 0, 0), (4500, 2610, 0)),  # 60.11°, on legs so long that 1 mm cannot make it
        ((0.0, 0, 0), (3000, 0, 0), (4500, 2598.9, 0)),  # 60.008°: more than 0.1 mm can make on such legs
        ((0.0, 0, 0), (300, 0, 0), (600, 1, 0)),  # nearly no bend at all
    ],
)
def test_nothing_to_tell(
    dryer_part: Part, metric_profile: MachineProfile, corners: tuple[tuple[float, float, float], ...]
) -> None:
    assert cautions(dryer_part, metric_profile, *corners) == []


def test_steps_have_no_vertices_and_a_blank_no_bends(dryer_part: Part, metric_profile: MachineProfile) -> None:
    wish = WantedSteps(bends=(WantedBend(straight=200.0, rotation_deg=0.0, angle_deg=60.02),), rear=200.0)
    part = replace(dryer_part, centreline=None, steps=wish)
    assert list(check_coarse_vertices(job_of_part(part, metric_profile))) == []
    assert cautions(dryer_part, metric_profile, (0, 0, 0), (300, 0, 0)) == []
