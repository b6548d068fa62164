"""Broken profiles: good texts, edited; every line of the message is asserted."""

from collections.abc import Mapping
from pathlib import Path

import pytest

from bendgen.errors import InputError
from bendgen.files.profile_folder import read_profile

Texts = dict[str, str]
Edit = tuple[str, str, str]

MACHINE = "machine.toml"
DIE = "dies/d50-r100.toml"
TABLE = "tables/d50-r100_304l.toml"
MATERIAL = "materials/304l.toml"

NO_DIES = (
    "dies: expected a folder with a .toml file for each die set, as bendgen machine add-die writes it, found nothing"
)


def lines_of(folder: Path, texts: Mapping[str, str | bytes], *edits: Edit) -> list[str]:
    """Mistakes in a profile whose texts were edited."""
    edited = dict(texts)
    for file, old, new in edits:
        text = edited[file]
        assert isinstance(text, str)
        assert old in text
        edited[file] = text.replace(old, new)
    for file, content in edited.items():
        (folder / file).parent.mkdir(exist_ok=True)
        (folder / file).write_bytes(content.encode() if isinstance(content, str) else content)
    with pytest.raises(InputError) as raised:
        read_profile(folder)
    return str(raised.value).split("\n")


IN_MACHINE = [
    ('units = "mm"\nname', "name", "units: expected 'mm' or 'in', found nothing"),
    ('name = "Bay 2 mandrel bender"\n', "", "name: expected a text that is not empty, found nothing"),
    ('side = "left"', 'side = "up"', "bend.side: expected 'left' or 'right', found 'up'"),
    (
        "[rotation]\n",
        '[operator]\nstands = "front"\n[rotation]\n',
        "operator.stands: expected 'left', 'right' or 'carriage', found 'front'",
    ),
    ("largest = 195.0", "largest = 361", "bend.largest: expected a number greater than 0 and at most 360, found 361"),
    (
        "largest = 195.0",
        "largest = 195.0\nsmallest = 200",
        "bend.largest: expected a number not below 'smallest', found 195.0",
    ),
    (
        "largest = 195.0\nresolution = 0.1",
        "largest = 195.0\nresolution = 0",
        "bend.resolution: expected a number greater than 0, found 0",
    ),
    (
        "largest = 195.0\nresolution = 0.1",
        'largest = 195.0\nresolution = "1/10"',
        "bend.resolution: expected a number greater than 0, found '1/10'",
    ),
    ("[rotation]\n", "[rotation]\nrange = [-90]\n", "rotation.range: expected [smallest, largest], found a list of 1"),
    (
        "[rotation]\n",
        "[rotation]\nrange = [90, -90]\n",
        "rotation.range: expected the smallest value first, found the largest first",
    ),
    ("[rotation]\n", "[rotation]\nrange = [-90, true]\n", "rotation.range[2]: expected a number, found true"),
    (
        "[feed]\n",
        "[feed]\nsmallest = 10\nlargest = 5\n",
        "feed.largest: expected a number not below 'smallest', found 5",
    ),
    ("closest = 240.0", "closest = 3200", "carriage.travel: expected a number not below 'closest', found 3100.0"),
    ("grip = 60.0\n", "", "carriage.grip: expected a number greater than 0, found nothing"),
    (
        "grip = 60.0",
        "grip = 60.0\nopen_before_last = true",
        "carriage.open_before_last: expected 'last_rear' beside it, found none",
    ),
    ("grip = 60.0", "grip = 60.0\nregrip = 1", "carriage.regrip: expected true or false, found 1"),
    (
        "grip = 60.0",
        "grips = 60.0\ngrip = 60.0",
        "carriage.grips: expected a known key (the nearest is 'grip'), found an unknown key",
    ),
    (
        "longest = 6000.0",
        "longest = 6000.0\nresolution = 0",
        "blank.resolution: expected a number greater than 0, found 0",
    ),
    ("shortest = 0.0", "shortest = 6001", "blank.longest: expected a number not below 'shortest', found 6000.0"),
    (
        'feed = "incremental"',
        'feed = "absolute"',
        "output.feed: expected 'incremental', 'summed', 'passed' or 'carriage', found 'absolute'",
    ),
    (
        'rotation = "incremental"',
        "rotation = 1",
        "output.rotation: expected 'incremental' or 'absolute', found 1",
    ),
    (
        "clockwise_from_carriage",
        "clockwise",
        "output.rotation_positive: expected 'clockwise_from_carriage' or 'counterclockwise_from_carriage', "
        "found 'clockwise'",
    ),
    (
        '"rotation", "bend"]',
        '"turn", "bend"]',
        "output.columns[3]: expected 'number', 'die', 'feed', 'rotation' or 'bend', found 'turn'",
    ),
    ('"rotation", "bend"]', '"bend", "bend"]', "output.columns: expected each column once, found a column twice"),
    (
        '["number", "feed", "rotation", "bend"]',
        "[]",
        "output.columns: expected a list of at least 1, found a list of 0",
    ),
    (
        '"rotation", "bend"]',
        '"rotation", "bend"]\nheadings = ["#", "Y", "B"]',
        "output.headings: expected as many headings as columns (4), found 3",
    ),
    (
        '"rotation", "bend"]',
        '"rotation", "bend"]\nheadings = ["#", "Y", "B", ""]',
        "output.headings[4]: expected a text that is not empty, found ''",
    ),
    ("[blank]\n", "[[blank]]\n", "blank: expected a table, found a list of 1"),
    (
        "[blank]\n",
        "[blank\n",
        "line 19: expected TOML, found a syntax error: Expected ']' at the end of a table declaration",
    ),
]

IN_DIE = [
    ("clr = 100.0", 'clr = "x"', "clr: expected a number greater than 0, found 'x'"),
    ("clr = 100.0\n", "", "clr: expected a number greater than 0, found nothing"),
    (
        "clamp = 110.0",
        "clamps = 110.0\nclamp = 1",
        "clamps: expected a known key (the nearest is 'clamp'), found an unknown key",
    ),
    (
        "clamp = 110.0",
        "clamp = 110.0\nwalls = [2.0, 1.2]",
        "walls: expected the smallest value first, found the largest first",
    ),
    ("clamp = 110.0", "clamp = 110.0\nwalls = 1.5", "walls: expected [smallest, largest], found 1.5"),
    (
        "largest_bend = 184.0",
        "largest_bend = 184.0\nsmallest_bend = 185",
        "largest_bend: expected a number not below 'smallest_bend', found 184.0",
    ),
    ("clamp = 110.0", "clamp = 110.0\npressure_die = 0", "pressure_die: expected a number greater than 0, found 0"),
    ("clamp = 110.0", "clamp = 110.0\nmandrel_ahead = -1", "mandrel_ahead: expected a number of 0 or more, found -1"),
    (
        "clamp = 110.0",
        'clamp = 110.0\nset_up = "wiper\\u0007"',
        "set_up: expected a text without control or text-direction characters, found 'wiper\\x07'",
    ),
    (
        "largest_bend = 184.0",
        "largest_bend = 184.0\n[contour]\nshortest_between = 12\nbefore_angle = [85, 95]\nrotation = []",
        "contour.rotation: expected a list of at least 1, found a list of 0",
    ),
    (
        "largest_bend = 184.0",
        "largest_bend = 184.0\n[contour]\nshortest_between = 12\nbefore_angle = [85, 95]\nrotation = [0, 270]",
        "contour.rotation[2]: expected a number greater than -180 and at most 180, found 270",
    ),
]

IN_TABLE = [
    (
        'die = "d50-r100"',
        'die = "d50-r10"',
        "die: expected a known die id (the nearest is 'd50-r100'), found 'd50-r10'",
    ),
    ('die = "d50-r100"', 'die = "x"', "die: expected a known die id (d50-r100), found 'x'"),
    ("perforated = false\n", "", "perforated: expected true or false, found nothing"),
    ("issued = 2026-03-14", 'issued = "2026-03-14"', "issued: expected a date such as 2026-03-14, found '2026-03-14'"),
    (
        "issued = 2026-03-14",
        "issued = 2026-03-14T08:00:00",
        "issued: expected a date such as 2026-03-14, found 2026-03-14T08:00:00",
    ),
    ("angle = 30.0", "angle = 0", "row[1].angle: expected a number greater than 0 and less than 360, found 0"),
    ("springback = 2.70", 'springback = "2,7"', "row[2].springback: expected a number, found '2,7'"),
    ("springback = 2.70\n", "", "row[2].springback: expected a number, found nothing"),
    (
        "springback = 2.70",
        "springback = 2.70\nbends = 0",
        "row[2].bends: expected a whole number from 1 to 1,000,000, found 0",
    ),
    (
        "springback = 2.70",
        "springback = 2.70\nspread = -0.1",
        "row[2].spread: expected a number of 0 or more, found -0.1",
    ),
    (
        "springback = 2.70",
        "spring = 2.70\nspringback = 2.7",
        "row[2].spring: expected a known key (the nearest is 'springback'), found an unknown key",
    ),
    ("angle = 90.0", "angle = 30.0", "row[2].angle: expected an angle greater than that of row 1 (30), found 30"),
    ("angle = 90.0", "angle = 130.0", "row[3].angle: expected an angle greater than that of row 2 (130), found 120"),
    (
        "elongation = 4.0\n",
        "",
        "row[2].elongation: expected a number, as in row 1: all rows or none have one, found nothing",
    ),
    (
        "springback = 2.70",
        "springback = 2.70\nclr = 103",
        "row[1].clr: expected a number, as in row 2: all rows or none have one, found nothing\n"
        "row[3].clr: expected a number, as in row 2: all rows or none have one, found nothing",
    ),
]

IN_MATERIAL = [
    (
        "hardening_exponent = 0.43",
        "hardening_exponent = 1.0",
        "hardening_exponent: expected a number greater than 0 and less than 1, found 1.0",
    ),
    (
        "youngs_modulus_mpa",
        "youngs_modulus",
        "youngs_modulus: expected a known key (the nearest is 'youngs_modulus_mpa'), "
        "found an unknown key\nyoungs_modulus_mpa: expected a number greater than 0, found nothing",
    ),
    ("issued = 2026-01-05\n", "", "issued: expected a date such as 2026-03-14, found nothing"),
]

CASES = [
    ((file, old, new), message)
    for file, cases in ((MACHINE, IN_MACHINE), (DIE, IN_DIE), (TABLE, IN_TABLE), (MATERIAL, IN_MATERIAL))
    for old, new, message in cases
]


@pytest.mark.parametrize(("edit", "message"), CASES)
def test_mistake_in_one_file(tmp_path: Path, profile_texts: Texts, edit: Edit, message: str) -> None:
    assert lines_of(tmp_path, profile_texts, edit) == [f"{edit[0]}: {line}" for line in message.split("\n")]


def test_all_mistakes_of_all_files_come_at_once_in_order(tmp_path: Path, profile_texts: Texts) -> None:
    assert lines_of(
        tmp_path,
        {**profile_texts, "dies/broken.toml": 'units = "mm"\nid = ', "tables/old.toml": profile_texts[TABLE]},
        (DIE, "tube_od = 50.0", "tube_od = 0"),
        (DIE, 'units = "mm"\n', ""),
        (MACHINE, "travel = 3100.0", "travel = 200.0"),
        (MACHINE, 'side = "left"', "side = 1"),
        ("tables/old.toml", "wall = 1.5", "wall = nan"),
        (TABLE, "springback = 1.62", "springback = false"),
        (TABLE, "angle = 120.0", "angle = 80.0"),
    ) == [
        "dies/broken.toml: line 2: expected a value behind the equals sign, found 'id ='",
        "dies/d50-r100.toml: tube_od: expected a number greater than 0, found 0",
        "dies/d50-r100.toml: units: expected 'mm' or 'in', found nothing",
        "machine.toml: bend.side: expected 'left' or 'right', found 1",
        "machine.toml: carriage.travel: expected a number not below 'closest', found 200.0",
        "tables/d50-r100_304l.toml: row[1].springback: expected a number, found false",
        "tables/d50-r100_304l.toml: row[3].angle: expected an angle greater than that of row 2 (90), found 80",
        "tables/old.toml: wall: expected a number greater than 0, found nan",
    ]


def test_two_dies_with_one_id(tmp_path: Path, profile_texts: Texts) -> None:
    assert lines_of(tmp_path, {**profile_texts, "dies/e.toml": profile_texts[DIE]}) == [
        "dies/e.toml: id: expected an id of its own, found the id of dies/d50-r100.toml"
    ]


def test_a_table_of_an_unknown_die_is_not_blamed_while_a_die_cannot_be_read(
    tmp_path: Path, profile_texts: Texts
) -> None:
    assert lines_of(
        tmp_path, {**profile_texts, "dies/e.toml": b"\xff"}, (TABLE, 'die = "d50-r100"', 'die = "d60-r90"')
    ) == [
        "dies/e.toml: line 1: expected UTF-8 text, found a byte that is none, 'ÿ' in a code page of Windows: save the "
        "file anew with the encoding UTF-8"
    ]


def test_one_row_is_no_table(tmp_path: Path, profile_texts: Texts) -> None:
    text = profile_texts[TABLE]
    one_row = text[: text.index("[[row]]\nangle = 90.0")]
    assert lines_of(tmp_path, {**profile_texts, TABLE: one_row}) == [
        f"{TABLE}: row: expected a list of at least 2, found a list of 1"
    ]


def test_a_single_row_table_for_rows(tmp_path: Path, profile_texts: Texts) -> None:
    text = profile_texts[TABLE]
    one_row = text[: text.index("[[row]]\nangle = 90.0")].replace("[[row]]", "[row]")
    assert lines_of(tmp_path, {**profile_texts, TABLE: one_row}) == [f"{TABLE}: row: expected a list, found a table"]


def test_an_empty_folder(tmp_path: Path) -> None:
    assert lines_of(tmp_path, {}) == [
        NO_DIES,
        "machine.toml: expected the machine's own file in the profile folder, found nothing",
    ]


def test_no_die(tmp_path: Path, profile_texts: Texts) -> None:
    del profile_texts[DIE]
    assert lines_of(tmp_path, {**profile_texts, "dies/readme.txt": "none yet"}) == [NO_DIES]


def test_no_folder(tmp_path: Path) -> None:
    with pytest.raises(InputError) as raised:
        read_profile(tmp_path / "bay9")
    assert str(raised.value) == f"{tmp_path / 'bay9'}: expected the folder of a machine profile, found nothing"


def test_a_file_for_a_folder(tmp_path: Path) -> None:
    (tmp_path / "bay9").write_text("")
    with pytest.raises(InputError) as raised:
        read_profile(tmp_path / "bay9")
    assert str(raised.value) == f"{tmp_path / 'bay9'}: expected the folder of a machine profile, found a file"


def test_a_folder_for_a_file(tmp_path: Path, profile_texts: Texts) -> None:
    (tmp_path / "dies" / "x.toml").mkdir(parents=True)
    assert lines_of(tmp_path, profile_texts) == ["dies/x.toml: expected a TOML file, found a folder"]


def test_a_file_name_that_hides_what_it_is(tmp_path: Path, profile_texts: Texts) -> None:
    assert lines_of(tmp_path, {**profile_texts, "tables/a\u202eb\n.toml": ""}) == [
        "'tables/a\\u202eb\\n.toml': expected a file name that can be printed, found another"
    ]
