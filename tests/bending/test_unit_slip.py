"""A part in the wrong unit: asked about where the other one would do, and only there."""

from dataclasses import replace

import pytest

from bendgen.bending.planning import plan_part
from bendgen.bending.tooling import die_for_bend
from bendgen.bending.unit_slip import unit_slip
from bendgen.errors import ToolingError
from bendgen.records.findings import Change
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Centreline, Part, Vertex
from bendgen.records.tube import Tube
from bendgen.units import MM_PER_INCH, unit_question


def in_inches(part: Part) -> Part:
    """The same numbers read as inches."""
    assert part.centreline is not None
    grown = (
        replace(vertex, x=vertex.x * MM_PER_INCH, y=vertex.y * MM_PER_INCH, z=vertex.z * MM_PER_INCH)
        for vertex in part.centreline.vertices
    )
    tube = replace(part.tube, od=part.tube.od * MM_PER_INCH, wall=part.tube.wall * MM_PER_INCH)
    return replace(part, units="in", tube=tube, centreline=Centreline(vertices=tuple(grown)))


def with_path(part: Part, *corners: tuple[float, float, float]) -> Part:
    return replace(part, centreline=Centreline(vertices=tuple(Vertex(x=x, y=y, z=z) for x, y, z in corners)))


INCHES = ((0.0, 0.0, 0.0), (12.0, 0.0, 0.0), (12.0, 14.0, 0.0), (12.0, 14.0, 10.0))
INCH_TUBE = Tube(od=1.97, wall=0.059, material="304L")


def test_all_lengths(dryer_part: Part, metric_profile: MachineProfile) -> None:
    part = replace(with_path(dryer_part, *INCHES), die="d50-r100", tube=INCH_TUBE)
    slip = unit_slip(part, in_inches(part), metric_profile)
    assert slip is not None
    assert slip.text.startswith(
        "is the unit right? With all its lengths in inches it breaks no limit: OD 1.97 in, blank "
    )
    assert [cure.change for cure in slip.cures] == [Change(key="units", value="in")]


def test_the_path_alone(dryer_part: Part, metric_profile: MachineProfile) -> None:
    part = with_path(dryer_part, *INCHES)
    slip = unit_slip(part, in_inches(part), metric_profile)
    assert slip is not None
    assert slip.text.startswith("is the unit right? With its path alone in inches it breaks no limit: blank ")
    assert slip.cures == ()


def test_the_tube_alone(dryer_part: Part, metric_profile: MachineProfile) -> None:
    part = replace(dryer_part, die="d50-r100", tube=INCH_TUBE)
    slip = unit_slip(part, in_inches(part), metric_profile)
    assert slip is not None
    assert "With the tube alone in inches it breaks no limit: OD 1.97 in, blank " in slip.text


def test_a_part_that_is_too_tight_in_either_unit(dryer_part: Part, metric_profile: MachineProfile) -> None:
    tight = with_path(dryer_part, (0.0, 0.0, 0.0), (300.0, 0.0, 0.0), (300.0, 210.0, 0.0), (300.0, 210.0, 300.0))
    assert plan_part(tight, metric_profile).program is None
    assert unit_slip(tight, in_inches(tight), metric_profile) is None


@pytest.mark.parametrize(
    ("tube", "clr", "question"),
    [
        (Tube(od=1.97, wall=1.5, material="304L"), None, "; is the unit right? 1.97 in is 50.04 mm"),
        (Tube(od=1270.0, wall=1.5, material="304L"), None, "; is the unit right? 50 mm is 1.969 in"),
        (Tube(od=50.0, wall=1.5, material="304L"), 3.94, "; is the unit right? 3.94 in is 100.08 mm"),
        (Tube(od=40.0, wall=1.5, material="304L"), None, "CLR 100 mm)"),
    ],
)
def test_a_tube_that_no_die_takes(tube: Tube, clr: float | None, question: str, metric_profile: MachineProfile) -> None:
    profile = replace(metric_profile, units="in") if tube.od > 1000.0 else metric_profile
    with pytest.raises(ToolingError) as refused:
        die_for_bend(tube, profile, named=None, clr=clr)
    assert str(refused.value).endswith(question)


def test_a_wall_that_no_table_has(dryer_part: Part, metric_profile: MachineProfile) -> None:
    part = replace(dryer_part, tube=replace(dryer_part.tube, wall=0.059))
    with pytest.raises(ToolingError, match=r"is the unit right\? 0\.059 in is 1\.5 mm$"):
        plan_part(part, replace(metric_profile, materials=()))


def test_sizes_that_are_written_in_either_unit_are_rounded() -> None:
    assert unit_question(2.0, [50.8]) == "is the unit right? 2 in is 50.8 mm"
    assert unit_question(1.97, [50.0]) == "is the unit right? 1.97 in is 50.04 mm"
    assert unit_question(1.9, [50.0]) == ""
    assert unit_question(50.0, []) == ""
