"""What was understood of a file as JSON, and routes as JSON."""

import json
import math
from dataclasses import replace
from pathlib import Path

from pydantic import TypeAdapter

from bendgen.bending.found_bends import bends_of_found, from_other_end
from bendgen.bending.route import routes_of_part
from bendgen.files.found_items import TubeFile
from bendgen.files.found_json import format_found_json
from bendgen.files.part_file import read_part
from bendgen.files.profile_folder import read_profile
from bendgen.files.route_items import RoutesFile
from bendgen.files.routes_json import format_routes_json
from bendgen.records.found_tube import FoundTube
from bendgen.records.part import Centreline, Vertex, WantedBend, WantedSteps

ROOT = Path(__file__).parents[2]
CORNERS = Centreline(
    vertices=(
        Vertex(x=0.0, y=0.0, z=0.0),
        Vertex(x=300.0, y=0.0, z=0.0, clr=100.0),
        Vertex(x=300.0, y=400.0, z=0.0),
        Vertex(x=300.0, y=400.0, z=500.0),
    )
)
FOUND = FoundTube(
    kind="points along the axis",
    units="in",
    wish=CORNERS,
    clr_within=(0.05, math.inf),
    od=50.0,
    understood=(("unit", "in, from the head row"),),
    ignored=("a line",),
)


def content_of(found: FoundTube, *, turned: bool = False) -> dict[str, object]:
    text = format_found_json("a.csv", found, bends_of_found(found), turned=turned, remarks=["so it is"])
    TypeAdapter(TubeFile).validate_json(text, strict=True)
    content: dict[str, object] = json.loads(text)
    return content


def test_a_tube_of_vertices() -> None:
    assert content_of(FOUND) == {
        "format": "bendgen-tube",
        "version": 1,
        "file": "a.csv",
        "kind": "points along the axis",
        "units": "in",
        "name": None,
        "quantity": 1,
        "od": 50.0,
        "wall": None,
        "turned": False,
        "front": None,
        "vertices": [[0.0, 0.0, 0.0], [300.0, 0.0, 0.0], [300.0, 400.0, 0.0], [300.0, 400.0, 500.0]],
        "legs": [300.0, 400.0, 500.0],
        "straights": None,
        "bends": [
            {"angle": 90.0, "rotation": 0.0, "clr": 100.0, "clr_within": 0.05},
            {"angle": 90.0, "rotation": 90.0, "clr": None, "clr_within": None},
        ],
        "marks": [],
        "understood": [{"subject": "unit", "text": "in, from the head row"}],
        "ignored": ["a line"],
        "remarks": ["so it is"],
    }


def test_from_its_other_end_what_is_known_of_a_bend_goes_with_it() -> None:
    turned = content_of(from_other_end(FOUND), turned=True)
    assert turned["turned"] is True
    assert [bend["clr_within"] for bend in turned["bends"]] == [None, 0.05]  # type: ignore[attr-defined]


def test_a_vertex_that_does_not_turn_takes_no_bend_s_half_width() -> None:
    mark = Vertex(x=100.0, y=0.0, z=0.0)
    marked = replace(CORNERS, vertices=(CORNERS.vertices[0], mark, *CORNERS.vertices[1:]))
    content = content_of(replace(FOUND, wish=marked, clr_within=(7.0, 0.05, 0.06)))
    assert content["marks"] == [2]
    assert [bend["clr_within"] for bend in content["bends"]] == [0.05, 0.06]  # type: ignore[attr-defined]


def test_a_tube_of_steps() -> None:
    steps = WantedSteps(bends=(WantedBend(straight=200.0, rotation_deg=0.0, angle_deg=180.0, clr=60.0),), rear=90.0)
    content = content_of(replace(FOUND, wish=steps, clr_within=()))
    assert (content["vertices"], content["legs"], content["straights"]) == (None, None, [200.0, 90.0])


def test_routes() -> None:
    part, profile = read_part(ROOT / "samples" / "fan_link.toml"), read_profile(ROOT / "machine_profiles" / "bay2")
    routes = routes_of_part(part, profile)
    text = format_routes_json(routes, part, profile)
    TypeAdapter(RoutesFile).validate_json(text, strict=True)
    content = json.loads(text)
    assert (content["format"], content["version"], content["tube"]["od"]) == ("bendgen-routes", 1, 50.0)
    assert [route["die"] for route in content["routes"]] == [route.die for route in routes]
    first = content["routes"][0]
    assert (first["short_by"], first["missing"], first["vertices"][-1]) == (0.0, [], [900.0, 500.0, 300.0])


def test_a_route_between_axes_that_never_meet_has_no_length() -> None:
    part, profile = read_part(ROOT / "samples" / "fan_link.toml"), read_profile(ROOT / "machine_profiles" / "bay2")
    assert part.route is not None
    one_bend = replace(part, route=replace(part.route, bends=1))
    (route,) = json.loads(format_routes_json(routes_of_part(one_bend, profile), one_bend, profile))["routes"]
    assert (route["length"], route["straights"]) == (None, [])
    assert route["missing"] == ["the axes of the ports pass each other, 500 mm apart"]
