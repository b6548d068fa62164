"""Parts given as an offset, read; and every mistake one can make in `[offset]`, with its whole message."""

import tomllib

import pytest

from bendgen.errors import InputError
from bendgen.files.part_file import parse_part
from bendgen.records.offset import EndOffCentre, OffsetWish

HEAD = """
units = "mm"
[part]
name = "Duct round a bearing"
number = "GD-120"
revision = "A"
quantity = 4
[tube]
od = 50.0
wall = 1.5
material = "304L"
[offset]
"""
RISE = "rise = 40.0\nlength = 520.0\nshortest_end = 60.0\n"
ENDS = (
    "front = { out = 20.0, clock = 0.0 }\nrear = { out = 30.0, clock = 135.0 }\nlength = 520.0\nshortest_end = 60.0\n"
)


def wish_of(offset: str, head: str = HEAD) -> OffsetWish | None:
    return parse_part(tomllib.loads(head + offset), "jog.toml").offset


def test_a_rise() -> None:
    assert wish_of(RISE) == OffsetWish(rise=40.0, length=520.0, shortest_end=60.0)


@pytest.mark.parametrize(
    ("choice", "wish"),
    [
        ("angle = 12.0", OffsetWish(rise=40.0, length=520.0, shortest_end=60.0, angle_deg=12.0)),
        ("angle = 90", OffsetWish(rise=40.0, length=520.0, shortest_end=60.0, angle_deg=90.0)),
        ("between = 150", OffsetWish(rise=40.0, length=520.0, shortest_end=60.0, between=150.0)),
        ('prefer = "gentle"', OffsetWish(rise=40.0, length=520.0, shortest_end=60.0, prefer="gentle")),
        ('prefer = "short"', OffsetWish(rise=40.0, length=520.0, shortest_end=60.0)),
    ],
)
def test_one_choice(choice: str, wish: OffsetWish) -> None:
    assert wish_of(RISE + choice) == wish


def test_ends_off_a_common_axis() -> None:
    assert wish_of(ENDS) == OffsetWish(
        front=EndOffCentre(out=20.0, clock_deg=0.0),
        rear=EndOffCentre(out=30.0, clock_deg=135.0),
        length=520.0,
        shortest_end=60.0,
    )


def test_lengths_as_an_inch_shop_writes_them() -> None:
    offset = 'rise = "1-1/2"\nlength = "1\'-8 1/2"\nshortest_end = 2.5\nbetween = "100 mm"\n'
    wish = wish_of(offset, HEAD.replace('"mm"', '"in"'))
    assert wish is not None
    assert (wish.rise, wish.length, wish.shortest_end, wish.between) == pytest.approx((38.1, 520.7, 63.5, 100.0))


@pytest.mark.parametrize(
    ("written", "clock_deg"),
    [("180", 180.0), ("-180", 180.0), ("-90.0", -90.0), ("270", -90.0), ("540.0", 180.0), ("360", 0.0), ("-0.0", 0.0)],
)
def test_any_clock_position_is_one_within_half_a_turn(written: str, clock_deg: float) -> None:
    wish = wish_of(ENDS.replace("135.0", written))
    assert wish is not None
    assert wish.rear == EndOffCentre(out=30.0, clock_deg=clock_deg)


def test_a_rise_of_0_is_read() -> None:
    assert wish_of(RISE.replace("40.0", "0")) == OffsetWish(rise=0.0, length=520.0, shortest_end=60.0)


CHOICE = "offset: expected at most one of 'angle', 'between' and 'prefer', found "
PLACES = "offset: expected either 'rise' or both 'front' and 'rear', found "
BROKEN = [
    ("", RISE.replace("rise = 40.0\n", ""), f"{PLACES}none"),
    ("rear = { out = 1, clock = 0 }", RISE, f"{PLACES}'rise' and 'rear'"),
    ("", ENDS + "rise = 40", f"{PLACES}'rise' and 'front' and 'rear'"),
    ("", ENDS.split("\n", 1)[1], f"{PLACES}'rear'"),
    ("angle = 12\nbetween = 150", RISE, f"{CHOICE}'angle' and 'between'"),
    ('angle = 12\nprefer = "short"', RISE, f"{CHOICE}'angle' and 'prefer'"),
    ("", RISE.replace("40.0", "-40.0"), "offset.rise: expected a number of 0 or more, found -40.0"),
    ("", RISE.replace("40.0", "'4 5/4'"), "offset.rise: expected a number of 0 or more, found '4 5/4'"),
    ("", RISE.replace("40.0", "nan"), "offset.rise: expected a number of 0 or more, found nan"),
    ("", RISE.replace("length = 520.0\n", ""), "offset.length: expected a number greater than 0, found nothing"),
    ("", RISE.replace("520.0", "0"), "offset.length: expected a number greater than 0, found 0"),
    ("", RISE.replace("shortest_end = 60.0", ""), "offset.shortest_end: expected a number of 0 or more, found nothing"),
    ("", RISE.replace("60.0", "-1"), "offset.shortest_end: expected a number of 0 or more, found -1"),
    ("angle = 0", RISE, "offset.angle: expected a number greater than 0 and at most 90, found 0"),
    ("angle = 90.5", RISE, "offset.angle: expected a number greater than 0 and at most 90, found 90.5"),
    ("between = -0.1", RISE, "offset.between: expected a number of 0 or more, found -0.1"),
    ('prefer = "long"', RISE, "offset.prefer: expected 'short' or 'gentle', found 'long'"),
    (
        "gentle = true",
        RISE,
        "offset.gentle: expected a known key (angle, between, front, length, prefer, rear, rise, shortest_end), "
        "found an unknown key",
    ),
    ("", ENDS.replace("out = 20.0, ", ""), "offset.front.out: expected a number of 0 or more, found nothing"),
    ("", ENDS.replace("30.0", "-30.0"), "offset.rear.out: expected a number of 0 or more, found -30.0"),
    ("", ENDS.replace("135.0", "'down'"), "offset.rear.clock: expected a number, found 'down'"),
    ("", ENDS.replace("135.0", "inf"), "offset.rear.clock: expected a number, found inf"),
    ("", ENDS.replace("{ out = 30.0, clock = 135.0 }", "30.0"), "offset.rear: expected a table, found 30.0"),
]


@pytest.mark.parametrize(("more", "offset", "message"), BROKEN)
def test_one_mistake(more: str, offset: str, message: str) -> None:
    with pytest.raises(InputError) as error:
        wish_of(f"{more}\n{offset}")
    assert str(error.value) == f"jog.toml: {message}"


def test_all_mistakes_at_once() -> None:
    with pytest.raises(InputError) as error:
        wish_of("rise = -1\nfront = { out = -2, clock = 0 }\nlength = 0\nangle = 1\nbetween = 2\nprefer = 3\n")
    assert [mistake.place for mistake in error.value.mistakes] == [
        "offset",
        "offset",
        "offset.rise",
        "offset.front.out",
        "offset.length",
        "offset.prefer",
        "offset.shortest_end",
    ]


def test_an_offset_that_is_no_table() -> None:
    with pytest.raises(InputError) as error:
        wish_of("", HEAD.replace("[offset]", "").replace('units = "mm"', 'units = "mm"\noffset = 3'))
    assert str(error.value) == "jog.toml: offset: expected a table, found 3"
