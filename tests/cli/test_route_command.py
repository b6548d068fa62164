"""`bendgen route`, as somebody types it, and `[route]` in part files."""

import json
import tomllib
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from bendgen.cli.app import app
from bendgen.errors import InputError
from bendgen.files.part_file import parse_part, read_part
from bendgen.records.route import Box, Port, RouteWish

BAY2 = str(Path(__file__).parents[2] / "machine_profiles" / "bay2")
TUBE = ("--machine", BAY2, "--od", "50", "--wall", "1.5", "--material", "304L")
PORTS = ("--front", "0,0,0", "--front-towards", "1,0,0", "--rear", "900,500,300", "--rear-towards", "0,0,-1")
ENDS = ("--front-straight", "60", "--rear-straight", "80")


def route(*arguments: str) -> Result:
    return CliRunner().invoke(app, ["route", *TUBE, *arguments])


def test_routes_best_first() -> None:
    result = route(*PORTS, *ENDS)
    assert (result.exit_code, result.stderr) == (0, "")
    ranks = [line.split()[:3] for line in result.stdout.splitlines()[3:7]]
    assert ranks == [["1", "d50-r75", "2"], ["2", "d50-r100", "2"], ["3", "d50-r75", "3"], ["4", "d50-r100", "3"]]
    assert "     1     0.00     0.00     0.00\n" in result.stdout
    assert "     4   900.00   500.00   300.00\n" in result.stdout


def test_json_says_the_same_and_nothing_else(tmp_path: Path) -> None:
    part = tmp_path / "link.toml"
    result = route(*PORTS, *ENDS, "--json", "--write", str(part))
    assert result.exit_code == 0
    content = json.loads(result.stdout)
    assert (content["format"], content["cures"]) == ("bendgen-routes", [])
    assert [(r["die"], len(r["angles"])) for r in content["routes"] if not r["short_by"]] == [
        *(("d50-r75", 2), ("d50-r100", 2), ("d50-r75", 3), ("d50-r100", 3)),
    ]
    assert result.stderr.startswith(f"{part}: written; ")


def test_what_does_not_fit_is_told_and_is_status_1() -> None:
    result = route("--front", "0,0,0", "--front-towards", "1,0,0", "--rear", "150,60,30", "--rear-towards=-1,0,0",
                   "--bends", "2")  # fmt: skip
    assert result.exit_code == 1
    first, _, heading, *nearest, _, cures, more_bends, moved = result.stdout.splitlines()
    assert first == "No route was found that fits."
    assert heading == "Looked for and not found, the nearest to fitting first"
    assert (cures, more_bends) == ("Each of these by itself lets one fit", "  - ask for 3 bends (route.bends = 3)")
    assert moved.startswith("  - move the rear port by 19.1")
    assert [line.split(", short by")[0] for line in nearest] == ["  - 2 bends on d50-r75", "  - 2 bends on d50-r100"]


def test_one_bend_joins_axes_that_meet() -> None:
    result = route("--front", "0,0,0", "--front-towards", "1,0,0", "--rear", "400,300,0", "--rear-towards", "0,-1,0",
                   "--bends", "1", "--json")  # fmt: skip
    assert result.exit_code == 0
    routes = json.loads(result.stdout)["routes"]
    assert [(found["die"], found["angles"]) for found in routes] == [
        ("d50-r100", [pytest.approx(90.0)]),
        ("d50-r75", [pytest.approx(90.0)]),
    ]  # the rounder corner is the shorter way


def test_a_part_that_asks_for_the_route_is_written(tmp_path: Path) -> None:
    path = tmp_path / "link.toml"
    box = ("--keep-out", "400,-1 in,0,500,100,80", "--clearance", "5")
    result = route(*PORTS, *ENDS, *box, "--die", "d50-r100", "--write", str(path), "--number", "GD-77")
    assert result.exit_code == 0
    part = read_part(path)
    assert part.route == RouteWish(
        front=Port(at=(0.0, 0.0, 0.0), towards=(1.0, 0.0, 0.0)),
        rear=Port(at=(900.0, 500.0, 300.0), towards=(0.0, 0.0, -1.0)),
        shortest_front=60.0,
        shortest_rear=80.0,
        keep_out=(Box(corner=(400.0, -25.4, 0.0), opposite=(500.0, 100.0, 80.0)),),
        clearance=5.0,
    )
    made = CliRunner().invoke(app, ["program", str(path), "--machine", BAY2, "--out", str(tmp_path), "--no-html"])
    assert (made.exit_code, made.stdout.startswith("GD-77 0 issue 1")) == (0, True)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (
            ("--front", "0,0", *PORTS[2:]),
            "--front: expected [x, y, z], found a list of 2",
        ),
        (
            (*PORTS[:6], "--rear-towards", "0,0,x"),
            "--rear-towards: expected a number, found 'x'",
        ),
        (
            (*PORTS[:6], "--rear-towards", "0,0,0"),
            "--rear-towards: expected a direction, not all of it 0, found a list of 3",
        ),
        (
            (*PORTS[:4], "--rear", "0,0,0", *PORTS[6:]),
            "options: route.rear: expected a place other than that of 'front', found the same",
        ),
    ],
)
def test_bad_ports(arguments: tuple[str, ...], message: str) -> None:
    result = route(*arguments)
    assert (result.exit_code, result.stdout, result.stderr) == (2, "", f"{message}\n")


PART = """
units = "in"
[part]
name = "Link pipe"
number = "GD-77"
revision = "A"
quantity = 1
[tube]
od = 2
wall = 0.065
material = "304L"
[route]
front = { at = [0, 0, 0], towards = [1, 0, 0] }
rear = { at = ["3' 4 1/2\\"", 20, 10], towards = [0, 0, -1] }
shortest_front = 3
shortest_rear = 3
"""


def test_lengths_of_a_route_are_in_the_unit_of_the_part() -> None:
    wish = parse_part(tomllib.loads(PART), "part.toml").route
    assert wish is not None
    assert wish.rear == Port(at=(1028.7, 508.0, 254.0), towards=(0.0, 0.0, -1.0))
    assert wish.shortest_front == pytest.approx(76.2)
    assert (wish.bends, wish.keep_out) == (None, ())


def test_every_mistake_of_a_route_at_once() -> None:
    text = PART.replace("towards = [1, 0, 0]", "towards = [0, 0]").replace("shortest_front = 3", "shortest_front = -3")
    with pytest.raises(InputError) as caught:
        parse_part(tomllib.loads(f"{text}bends = 4\nkeep_out = [[1, 2, 3]]\nthrough = []\n"), "part.toml")
    assert str(caught.value).splitlines() == [
        "part.toml: route.front.towards: expected [x, y, z], found a list of 2",
        "part.toml: route.shortest_front: expected a number of 0 or more, found -3",
        "part.toml: route.bends: expected 1, 2 or 3, found 4",
        "part.toml: route.keep_out[1]: expected [x, y, z, x, y, z], two opposite corners, found a list of 3",
        "part.toml: route.through: expected a known key "
        "(bends, clearance, front, keep_out, rear, shortest_front, shortest_rear), found an unknown key",
    ]
