"""Step lists by file: which kind it is, and files that are none."""

from pathlib import Path

import pytest

from bendgen.errors import InputError
from bendgen.files.step_list_file import read_step_list


def test_a_csv_with_byte_order_mark(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_bytes(b"\xef\xbb\xbffeed_mm,rotation_deg,bend_deg\r\n120,0,90\r\n")
    assert read_step_list(tmp_path / "list.csv").steps[0].feed == 120.0


def test_json_by_the_end_of_its_name(tmp_path: Path) -> None:
    (tmp_path / "LIST.JSON").write_text("{}", encoding="utf-8")
    with pytest.raises(InputError, match="format: expected 'bendgen-steps', found nothing"):
        read_step_list(tmp_path / "LIST.JSON")


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (None, "expected a step list, .steps.json or CSV, found nothing"),
        (
            b"feed_mm\n\xff",
            "line 2: expected UTF-8 text, found a byte that is none, 'ÿ' in a code page of Windows: save the file anew "
            "with the encoding UTF-8",
        ),
        (b"\xff\xfe\x00", "expected UTF-16 text, whose mark it begins with, found bytes that are none"),
        (b"x" * 1_000_001, "expected at most 1 MB, found a larger file"),
    ],
)
def test_files_that_are_no_list(tmp_path: Path, content: bytes | None, message: str) -> None:
    path = tmp_path / "list.csv"
    if content is not None:
        path.write_bytes(content)
    with pytest.raises(InputError) as caught:
        read_step_list(path)
    assert str(caught.value) == f"{path}: {message}"


def test_a_folder(tmp_path: Path) -> None:
    with pytest.raises(InputError) as caught:
        read_step_list(tmp_path)
    assert str(caught.value) == f"{tmp_path}: expected a step list, .steps.json or CSV, found a folder"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-be"])
def test_whatever_encoding_a_spreadsheet_saves(tmp_path: Path, encoding: str) -> None:
    text = "feed_mm,rotation_deg,bend_deg\n200,0,90\n"
    mark = "\ufeff" if encoding == "utf-16-be" else ""
    (tmp_path / "list.csv").write_bytes((mark + text).encode(encoding))
    (step,) = read_step_list(tmp_path / "list.csv").steps
    assert (step.feed, step.bend_deg) == (200.0, 90.0)
