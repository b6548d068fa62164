"""Broken parts: one good text, edited; every line of the message is asserted."""

import tomllib

import pytest

from bendgen.errors import InputError
from bendgen.files.part_file import parse_part

# Invented, as are all values here.
CENTRELINE_PART = """
units = "mm"
[part]
name = "Dryer inlet pipe"
number = "GD-118"
revision = "B"
quantity = 12
[tube]
od = 50.0
wall = 1.5
material = "304L"
perforated = false
[centreline]
vertices = [[0, 0, 0], [300, 0, 0], [300, 220, 0], [300, 220, 260]]
"""

STEPS_PART = """
units = "in"
[part]
name = "Guard hoop"
number = "GD-204"
revision = "A"
quantity = 1
[tube]
od = "1 1/2"
wall = 0.065
material = "Mild steel"
[steps]
rear = "5-1/2"
bend = [
  { straight = "1'-2 3/8\\"", rotation = 0.0, angle = 90.0 },
  { straight = 6, rotation = 180.0, angle = 90.0, clr = 3 },
]
"""


def lines_of(text: str, *edits: tuple[str, str]) -> list[str]:
    """Mistakes in a part whose text was edited."""
    for old, new in edits:
        assert old in text
        text = text.replace(old, new)
    with pytest.raises(InputError) as raised:
        parse_part(tomllib.loads(text), "part.toml")
    assert str(raised.value) == "\n".join(str(mistake) for mistake in raised.value.mistakes)
    return str(raised.value).split("\n")


VERTICES = "[[0, 0, 0], [300, 0, 0], [300, 220, 0], [300, 220, 260]]"
LAST = "[300, 220, 260]]\n"  # last words of the text: what follows belongs to it

IN_CENTRELINE_PART: list[tuple[str, str, str]] = [
    # units
    ('units = "mm"\n', "", "units: expected 'mm' or 'in', found nothing"),
    ('units = "mm"', 'units = "cm"', "units: expected 'mm' or 'in', found 'cm'"),
    ('units = "mm"', "units = 1", "units: expected 'mm' or 'in', found 1"),
    # [part]
    ('name = "Dryer inlet pipe"\n', "", "part.name: expected a text that is not empty, found nothing"),
    ('number = "GD-118"', 'number = ""', "part.number: expected a text that is not empty, found ''"),
    ('number = "GD-118"', "number = 118", "part.number: expected a text that is not empty, found 118"),
    ('revision = "B"', 'revision = "  "', "part.revision: expected a text that is not empty, found '  '"),
    (
        '"Dryer inlet pipe"',
        '"Dryer\\ninlet"',
        "part.name: expected a text without control or text-direction characters, found 'Dryer\\ninlet'",
    ),
    (
        '"Dryer inlet pipe"',
        f'"{"x" * 2001}"',
        f"part.name: expected a text of at most 2,000 characters, found '{'x' * 56}…",
    ),
    (
        'number = "GD-118"',
        'number = "GD\\u202e811"',
        "part.number: expected a text without control or text-direction characters, found 'GD\\u202e811'",
    ),
    ("quantity = 12", "quantity = 0", "part.quantity: expected a whole number from 1 to 1,000,000, found 0"),
    ("quantity = 12", "quantity = 1.5", "part.quantity: expected a whole number from 1 to 1,000,000, found 1.5"),
    ("quantity = 12", "quantity = true", "part.quantity: expected a whole number from 1 to 1,000,000, found true"),
    (
        "quantity = 12",
        "quantitty = 12",
        "part.quantitty: expected a known key (the nearest is 'quantity'), found an "
        "unknown key\npart.quantity: expected a whole number from 1 to 1,000,000, found nothing",
    ),
    (
        "quantity = 12",
        'quantity = 12\ntrim = "left"',
        "part.trim: expected 'both', 'front', 'rear' or 'none', found 'left'",
    ),
    (
        "quantity = 12",
        'quantity = 12\ntrim = "front"\nrear_trim = 20',
        "part.rear_trim: expected no trim at the rear, as trim = 'front', found 20",
    ),
    (
        "quantity = 12",
        'quantity = 12\ntrim = "none"\nfront_trim = 5\nrear_trim = 6',
        "part.front_trim: expected no trim at the front, as trim = 'none', found 5\n"
        "part.rear_trim: expected no trim at the rear, as trim = 'none', found 6",
    ),
    (
        "quantity = 12",
        "quantity = 12\nrear_trim = 20\nblank = 900",
        "part.rear_trim: expected only one of 'blank' and 'rear_trim', found both",
    ),
    ("quantity = 12", "quantity = 12\nfront_trim = -1", "part.front_trim: expected a number of 0 or more, found -1"),
    # [tube]
    ("od = 50.0", "od = -50.0", "tube.od: expected a number greater than 0, found -50.0"),
    ("od = 50.0", "od = true", "tube.od: expected a number greater than 0, found true"),
    ("od = 50.0", "od = nan", "tube.od: expected a number greater than 0, found nan"),
    ("od = 50.0", "od = inf", "tube.od: expected a number greater than 0, found inf"),
    ("od = 50.0", 'od = "fifty"', "tube.od: expected a number greater than 0, found 'fifty'"),
    ("od = 50.0", 'od = "50,0"', "tube.od: expected a number greater than 0, found '50,0'"),
    ("od = 50.0", "od = 2026-03-14", "tube.od: expected a number greater than 0, found 2026-03-14"),
    ("od = 50.0", "od = [50.0]", "tube.od: expected a number greater than 0, found a list of 1"),
    ("od = 50.0", "od = { outside = 50.0 }", "tube.od: expected a number greater than 0, found a table"),
    (
        "od = 50.0",
        f"od = 0x{'f' * 4000}",
        "tube.od: expected a number of at most 1,000,000, found an integer of more than 64 bits",
    ),
    ("od = 50.0", 'od = "90000 ft"', "tube.od: expected a length of at most 1,000,000 mm, found '90000 ft'"),
    ("wall = 1.5", "wall = 25.0", "tube.wall: expected a wall less than half of 'od', found 25.0"),
    ("perforated = false", 'perforated = "no"', "tube.perforated: expected true or false, found 'no'"),
    (
        "perforated = false",
        "perforated = false\nseam = 360",
        "tube.seam: expected a number greater than -360 and less than 360, found 360",
    ),
    (
        "perforated = false",
        'perforated = false\nperforation = { hole = 3, pitch = 5, pattern = "60" }',
        "tube.perforation: expected perforated = true beside it, found a tube without holes",
    ),
    (
        "perforated = false",
        'perforated = true\nperforation = { hole = 5, pitch = 5, pattern = "45" }',
        "tube.perforation.pitch: expected a pitch greater than 'hole', found 5\n"
        "tube.perforation.pattern: expected '60' or 'square', found '45'",
    ),
    (
        "[tube]\n",
        "[pipe]\n",
        "pipe: expected a known key "
        "(centreline, code, ends, limits, offset, part, route, steps, tolerance, tube, units), found an unknown key\n"
        "tube: expected a table, found nothing",
    ),
    # [centreline]
    (VERTICES, "[[0, 0, 0]]", "centreline.vertices: expected a list of at least 2, found a list of 1"),
    (
        VERTICES,
        str([[n, n % 2, 0] for n in range(1001)]),
        "centreline.vertices: expected a list of at most 1000, found a list of 1001",
    ),
    (VERTICES, '"straight on"', "centreline.vertices: expected a list, found 'straight on'"),
    (
        "vertices =",
        "vertixes =",
        "centreline.vertixes: expected a known key (the nearest is 'vertices'), found an unknown "
        "key\ncentreline.vertices: expected a list, found nothing",
    ),
    ("[300, 220, 0]", "[300, 220]", "centreline.vertices[3]: expected [x, y, z] or [x, y, z, clr], found a list of 2"),
    (
        "[300, 220, 0]",
        "[300, 220, 0, 100, 5]",
        "centreline.vertices[3]: expected [x, y, z] or [x, y, z, clr], found a list of 5",
    ),
    ("[300, 220, 0]", "{ x = 300 }", "centreline.vertices[3]: expected [x, y, z] or [x, y, z, clr], found a table"),
    ("[300, 220, 0]", '[300, "y", 0]', "centreline.vertices[3][2]: expected a number, found 'y'"),
    (
        "[300, 220, 0]",
        "[300, 220, 0, 0]",
        "centreline.vertices[3][4]: expected a CLR greater than 0, found 0; a decimal comma makes two numbers of one",
    ),
    (
        "[300, 220, 0]",
        "[300, 1e7, 0]",
        "centreline.vertices[3][2]: expected a number of at most 1,000,000, found 10000000.0",
    ),
    (
        "[0, 0, 0]",
        "[0, 0, 0, 100]",
        "centreline.vertices[1][4]: expected no CLR at an end of the tube, found four numbers; "
        "a decimal comma makes two numbers of one",
    ),
    (
        "[300, 220, 260]",
        "[300, 220, 260, 100]",
        "centreline.vertices[4][4]: expected no CLR at an end of the tube, found four numbers; "
        "a decimal comma makes two numbers of one",
    ),
    (
        "[300, 220, 0]",
        "[300, 0, 0]",
        "centreline.vertices[3]: expected a point apart from vertex 2, found the same point",
    ),
    (
        "[300, 220, 0]",
        "[100, 0, 0]",
        "centreline.vertices[2]: expected a turn of less than 180° at vertex 2, found a path "
        "that folds straight back from vertex 1 to 3",
    ),
    (
        LAST,
        f"{LAST}merge_below = 0\n",
        "centreline.merge_below: expected a number greater than 0 and less than 90, found 0",
    ),
    # wishes
    (
        f"[centreline]\nvertices = {VERTICES}\n",
        "",
        "expected exactly one of [centreline], [offset], [route] and [steps], found none",
    ),
    (
        LAST,
        f"{LAST}[steps]\nrear = 100\nbend = []\n",
        "expected exactly one of [centreline], [offset], [route] and [steps], found [centreline] and [steps]",
    ),
    (
        f"vertices = {VERTICES}",
        'from = "file"',
        "centreline.from: expected vertices, found a file, which a part that is no file itself cannot name",
    ),
    # [tolerance] and [limits]
    (LAST, f'{LAST}[tolerance]\niso2768 = "x"\n', "tolerance.iso2768: expected 'f', 'm', 'c' or 'v', found 'x'"),
    (
        LAST,
        f'{LAST}[tolerance]\niso2768 = "m"\nangle = 0.5\n',
        "tolerance.angle: expected only one of 'iso2768' and 'angle', found both",
    ),
    (
        LAST,
        f"{LAST}[limits]\nthinning = 100\n",
        "limits.thinning: expected a number greater than 0 and less than 100, found 100",
    ),
    (LAST, f"{LAST}[limits]\nwall_factor = 0\n", "limits.wall_factor: expected a number greater than 0, found 0"),
    # ends and code
    (
        LAST,
        f'{LAST}[ends]\nfront = {{ kind = "flared", straight = 0 }}\n',
        "ends.front.kind: expected 'sized' or 'plain', found 'flared'\n"
        "ends.front.straight: expected a number greater than 0, found 0",
    ),
    (
        LAST,
        f'{LAST}[ends]\nrear = {{ kind = "plain" }}\n',
        "ends.rear.straight: expected a number greater than 0, found nothing",
    ),
    (
        LAST,
        f'{LAST}[ends]\nback = {{ kind = "plain", straight = 20 }}\n',
        "ends.back: expected a known key (front, rear), found an unknown key",
    ),
    (
        LAST,
        f'{LAST}[code]\nrule = "B31"\nminimum_wall = -1\n',
        "code.rule: expected 'B31.1', found 'B31'\ncode.minimum_wall: expected a number greater than 0, found -1",
    ),
    (LAST, f'{LAST}[code]\nrule = "B31.1"\n', "code.minimum_wall: expected a number greater than 0, found nothing"),
    # odd keys
    (
        LAST,
        f'{LAST}"\\u202e\\n" = 1\n',
        "centreline.'\\u202e\\n': expected a known key (merge_below, vertices), found an unknown key",
    ),
]

IN_STEPS_PART: list[tuple[str, str, str]] = [
    ('rear = "5-1/2"\n', "", "steps.rear: expected a number of 0 or more, found nothing"),
    ("straight = 6", "straight = -6", "steps.bend[2].straight: expected a number of 0 or more, found -6"),
    ("straight = 6", 'straight = "6 5/4"', "steps.bend[2].straight: expected a number of 0 or more, found '6 5/4'"),
    (
        "rotation = 180.0",
        "rotation = -180.0",
        "steps.bend[2].rotation: expected a number greater than -180 and at most 180, found -180.0",
    ),
    (
        "rotation = 180.0",
        "rotation = 180.5",
        "steps.bend[2].rotation: expected a number greater than -180 and at most 180, found 180.5",
    ),
    (
        "angle = 90.0 }",
        "angle = 0.0 }",
        "steps.bend[1].angle: expected a number greater than 0 and less than 360, found 0.0",
    ),
    (
        "angle = 90.0 }",
        "angle = 360 }",
        "steps.bend[1].angle: expected a number greater than 0 and less than 360, found 360",
    ),
    (
        ", angle = 90.0 }",
        " }",
        "steps.bend[1].angle: expected a number greater than 0 and less than 360, found nothing",
    ),
    ("clr = 3 }", 'clr = "x" }', "steps.bend[2].clr: expected a number greater than 0, found 'x'"),
    (
        "clr = 3 }",
        "radius = 3 }",
        "steps.bend[2].radius: expected a known key (angle, clr, rotation, straight), found an unknown key",
    ),
    ("clr = 3 },", "clr = 3 }, 90", "steps.bend[3]: expected a table, found 90"),
    ('"1 1/2"', '"1 1/0"', "tube.od: expected a number greater than 0, found '1 1/0'"),
]


@pytest.mark.parametrize(("old", "new", "message"), IN_CENTRELINE_PART)
def test_mistake_in_a_part_given_by_its_centreline(old: str, new: str, message: str) -> None:
    wanted = [f"part.toml: {line}" for line in message.split("\n")]
    assert lines_of(CENTRELINE_PART, (old, new)) == wanted


@pytest.mark.parametrize(("old", "new", "message"), IN_STEPS_PART)
def test_mistake_in_a_part_given_by_its_steps(old: str, new: str, message: str) -> None:
    assert lines_of(STEPS_PART, (old, new)) == [f"part.toml: {message}"]


def test_no_bend_and_no_straight_is_no_tube() -> None:
    text = STEPS_PART[: STEPS_PART.index("[steps]")] + "[steps]\nrear = 0\nbend = []\n"
    assert lines_of(text) == ["part.toml: steps.rear: expected a number greater than 0, as there is no bend, found 0"]


def test_all_mistakes_come_at_once_in_the_order_of_the_file() -> None:
    assert lines_of(
        CENTRELINE_PART,
        ("quantity = 12", 'quantity = 0\ncolour = "red"'),
        ("wall = 1.5", "wall = 30"),
        ('material = "304L"', "material = 304"),
        ("[0, 0, 0], [300, 0, 0]", '[0, 0, 0], ["a", 0], [0, 0, 0], [0, 0, 0], [300, 0, 0], [0, 0, 0]'),
        ('name = "Dryer inlet pipe"\n', ""),
    ) == [
        "part.toml: part.quantity: expected a whole number from 1 to 1,000,000, found 0",
        "part.toml: part.colour: expected a known key (blank, die, front_trim, name, number, quantity, rear_trim, "
        "revision, trim), found an unknown key",
        "part.toml: part.name: expected a text that is not empty, found nothing",
        "part.toml: tube.wall: expected a wall less than half of 'od', found 30",
        "part.toml: tube.material: expected a text that is not empty, found 304",
        "part.toml: centreline.vertices[2]: expected [x, y, z] or [x, y, z, clr], found a list of 2",
        "part.toml: centreline.vertices[4]: expected a point apart from vertex 3, found the same point",
        "part.toml: centreline.vertices[5]: expected a turn of less than 180° at vertex 5, found a path that folds "
        "straight back from vertex 4 to 6",
    ]


def test_an_empty_file_names_everything_that_is_missing() -> None:
    assert lines_of("") == [
        "part.toml: expected exactly one of [centreline], [offset], [route] and [steps], found none",
        "part.toml: units: expected 'mm' or 'in', found nothing",
        "part.toml: part: expected a table, found nothing",
        "part.toml: tube: expected a table, found nothing",
    ]
