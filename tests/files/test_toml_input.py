"""Whatever a TOML file may be: the mapping, or one clear line."""

from pathlib import Path

import pytest

from bendgen.errors import InputError
from bendgen.files.text_files import MOST_BYTES
from bendgen.files.toml_input import load_toml


def line_of(path: Path) -> str:
    with pytest.raises(InputError) as raised:
        load_toml(path)
    (mistake,) = raised.value.mistakes
    assert "\n" not in str(mistake)
    return str(mistake).replace(str(path), path.name)


def written(folder: Path, content: bytes) -> Path:
    path = folder / "a.toml"
    path.write_bytes(content)
    return path


@pytest.mark.parametrize("start", [b"", b"\xef\xbb\xbf"], ids=["plain", "byte order mark"])
@pytest.mark.parametrize("end", [b"\n", b"\r\n"], ids=["LF", "CRLF"])
def test_mapping_whatever_the_editor(tmp_path: Path, start: bytes, end: bytes) -> None:
    path = written(tmp_path, start + b'units = "mm"' + end + b"[part]" + end + 'name = "Rohr Ø 50"'.encode() + end)
    assert load_toml(path) == {"units": "mm", "part": {"name": "Rohr Ø 50"}}


@pytest.mark.parametrize(
    ("content", "line"),
    [
        (b"a = 1\nb = \n", "line 2: expected a value behind the equals sign, found 'b ='"),
        (b"closest = # not yet\n", "line 1: expected a value behind the equals sign, found 'closest ='"),
        (b"a = 1\na = 2", "line 2: expected TOML, found a syntax error: Cannot overwrite a value"),
        (b"a = 1\n[b]\nc = [1,\n", "line 3: expected TOML, found a syntax error: Invalid value"),
        (b"a = 2026-02-30", "line 1: expected TOML, found a syntax error: Invalid date or datetime"),
        (b"<xml/>", "line 1: expected TOML, found a syntax error: Invalid statement"),
        (b"\x00", "line 1: expected TOML, found a syntax error: Invalid statement"),
        (b"a = 1\nod = 50,5 # mm", "line 2: expected a decimal point, not a comma, found '50,5'"),
        (b"a = { out = -20,5, clock = 1 }", "line 1: expected a decimal point, not a comma, found '-20,5'"),
        (b"units = mm\r\n", "line 1: expected text between quotation marks, found 'mm'"),
        (b"name = Hopper drain # new", "line 1: expected text between quotation marks, found 'Hopper drain'"),
        (b'die = "d50-r100\na = 1', "line 1: expected a quotation mark at both ends of a text, found '\"d50-r100'"),
        (
            b"a = true false",
            "line 1: expected TOML, found a syntax error: Expected newline or end of document after a statement",
        ),
        (
            b"a = 1\nb = 'Zuluft f\xfcr'",
            "line 2: expected UTF-8 text, found a byte that is none, 'ü' in a code page of Windows: save the file anew "
            "with the encoding UTF-8",
        ),
        (
            "a = 1".encode("utf-16"),
            "expected UTF-8 text, found UTF-16 text: save the file anew with the encoding UTF-8",
        ),
        (b"PK\x03\x04\xff", "expected text, found a spreadsheet or another archive: save what it shows as CSV"),
        (b"a = " + b"[" * 100_000, "expected TOML, found tables or lists nested too deep"),
        (b"a." * 400_000 + b"a = 1", "expected TOML, found tables or lists nested too deep"),
        (b"[" + b"'a' . " * 100_000 + b"a]", "expected TOML, found tables or lists nested too deep"),
        (b"a = " + b"{a=" * 100_000, "expected TOML, found tables or lists nested too deep"),
        (b"a = " + b"9" * 5000, "expected TOML, found a number of far too many digits"),
        (b"#" * (MOST_BYTES + 1), "expected at most 1 MB, found a larger file"),
    ],
)
def test_content_that_is_no_toml(tmp_path: Path, content: bytes, line: str) -> None:
    assert line_of(written(tmp_path, content)) == f"a.toml: {line}"


def test_a_file_of_the_largest_size_is_read(tmp_path: Path) -> None:
    assert load_toml(written(tmp_path, b"#" * MOST_BYTES)) == {}


def test_many_points_in_one_line_are_not_nested(tmp_path: Path) -> None:
    content = b"a = [" + b"0.5, " * 1000 + b"]\nb = 'see ......................... 1.2.3.4'"
    assert load_toml(written(tmp_path, content))["a"] == [0.5] * 1000


def test_no_such_file(tmp_path: Path) -> None:
    assert line_of(tmp_path / "b.toml") == "b.toml: expected a TOML file, found nothing"


def test_a_folder(tmp_path: Path) -> None:
    (tmp_path / "c.toml").mkdir()
    assert line_of(tmp_path / "c.toml") == "c.toml: expected a TOML file, found a folder"


def test_a_path_through_a_file(tmp_path: Path) -> None:
    path = written(tmp_path, b"") / "d.toml"
    assert line_of(path) == "d.toml: expected a file that can be read, found 'Not a directory'"


def test_a_name_that_no_file_can_have(tmp_path: Path) -> None:
    assert line_of(tmp_path / "e\0.toml") == "e\0.toml: expected a file that can be read, found 'embedded null byte'"
