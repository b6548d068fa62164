"""A CLR that no die set makes: what the nearest ones would do to the straights, by hand."""

from dataclasses import replace
from pathlib import Path

import pytest

from bendgen.bending.other_clr import misfit_clr_text
from bendgen.bending.planning import plan_part
from bendgen.errors import ToolingError
from bendgen.files.profile_folder import read_profile
from bendgen.records.found_tube import FoundTube
from bendgen.records.part import Centreline, Part, Vertex, WantedBend, WantedSteps
from bendgen.records.tube import Tube

PROFILE = read_profile(Path(__file__).parents[2] / "machine_profiles" / "bay2")
# Two right angles, whose tangent length is their CLR: legs of 330, 160 and 420 less once or twice that.
PATH = Centreline(
    vertices=(
        Vertex(x=0.0, y=0.0, z=0.0),
        Vertex(x=330.0, y=0.0, z=0.0, clr=80.0),
        Vertex(x=330.0, y=160.0, z=0.0, clr=80.0),
        Vertex(x=330.0, y=160.0, z=420.0),
    )
)
LINES = [
    "  on 'd50-r75', CLR 75 mm, the straights would be 255.00, 10.00, 345.00 mm",
    "  on 'd50-r100', CLR 100 mm, the straights would be 230.00, -40.00, 320.00 mm: bends overlap",
    "  to bend it on one of them, leave out the CLR and name the die set; if none was asked for, look for a decimal "
    "comma in the vertices",
]


PART = Part(
    name="Link",
    number="GD-78",
    revision="A",
    quantity=1,
    units="mm",
    tube=Tube(od=50.0, wall=1.5, material="304L"),
    centreline=PATH,
)


def test_a_part_that_asks_for_it() -> None:
    with pytest.raises(ToolingError) as caught:
        plan_part(PART, PROFILE)
    first, *others = str(caught.value).splitlines()
    assert first.startswith("no die set of 'Bay 2 mandrel bender' serves tube OD 50 mm and CLR 80 mm; it has ")
    assert others == LINES


def test_straights_that_are_given_hang_on_no_clr() -> None:
    steps = WantedSteps(bends=(WantedBend(straight=200.0, rotation_deg=0.0, angle_deg=90.0, clr=80.0),), rear=300.0)
    with pytest.raises(ToolingError) as caught:
        plan_part(replace(PART, centreline=None, steps=steps), PROFILE)
    assert len(str(caught.value).splitlines()) == 1


def test_a_tube_that_is_read() -> None:
    found = FoundTube(kind="vertices in a CSV", units="mm", wish=PATH)
    assert misfit_clr_text(found, 50.0, PROFILE).splitlines() == [
        "No die set of 'Bay 2 mandrel bender' makes OD 50 mm and CLR 80 mm",
        *LINES,
    ]
    assert misfit_clr_text(found, 99.0, PROFILE) == "No die set of 'Bay 2 mandrel bender' makes OD 99 mm and CLR 80 mm"


def test_a_clr_that_is_made_needs_no_word() -> None:
    made = Centreline(vertices=(PATH.vertices[0], Vertex(x=330.0, y=0.0, z=0.0, clr=100.0), PATH.vertices[2]))
    assert misfit_clr_text(FoundTube(kind="vertices in a CSV", units="mm", wish=made), 50.0, PROFILE) == ""
